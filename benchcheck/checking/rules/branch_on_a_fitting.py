"""A fitting that is done under a verdict only."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import StepAct

SEVERITY = Severity.WARNING
WHAT = "A step that fits something has an `if`."
WHY = (
    "It is not needed, as what was never taken off is passed over; and a verdict that nobody "
    "thought of leaves the part out."
)
WRONG = """
[[step]]
id = "runout"
phase = "inspection"
act = "check"
ask = [{ what = "shaft", one_of = ["as it was", "replaced"], sets = "shaft" }]

[[step]]
id = "shaft-in"
part = "shaft"
if = { shaft = "replaced" }
"""
RIGHT = """
[[step]]
id = "runout"
phase = "inspection"
act = "check"
ask = [{ what = "shaft", one_of = ["as it was", "replaced"], sets = "shaft" }]

[[step]]
id = "shaft-in"
part = "shaft"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        if step.if_ and step.act is StepAct.INSTALL:
            yield subject.finding(
                "branch-on-a-fitting",
                SEVERITY,
                step,
                ("if",),
                f"`{step.id}` fits something on some ways only.",
                "Leave `if` out: what is in already is passed over. Put `if` on the step that takes it off.",
            )
