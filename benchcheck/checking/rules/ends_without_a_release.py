"""A procedure that does not say how it ends."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import StepAct

SEVERITY = Severity.ERROR
WHAT = "The last step is not the one that is signed for release."
WHY = "What comes after the signature is done by nobody, and a pump without one belongs to nobody."
WRONG = """
[[step]]
id = "release"
phase = "release"
act = "sign"

[[step]]
id = "label"
phase = "release"
act = "do"
text = "Hang the label on the pump."
"""
RIGHT = """
[[step]]
id = "label"
phase = "release"
act = "do"
text = "Hang the label on the pump."

[[step]]
id = "release"
phase = "release"
act = "sign"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for pump in subject.pumps.values():
        if pump.steps and pump.steps[-1].act is not StepAct.SIGN:
            last = pump.steps[-1]
            signs = [step for step in pump.steps if step.act is StepAct.SIGN]
            what = f"after the signature, {subject.where_is(signs[-1])}" if signs else "and nothing is signed"
            yield subject.finding(
                "ends-without-a-release",
                SEVERITY,
                last,
                ("id",),
                f"The last step is `{last.id}`, {what}.",
                'Let the last step be one with phase = "release" and act = "sign".',
            )
            return
