"""A step that hangs on a verdict nobody has given yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Step

SEVERITY = Severity.ERROR
WHAT = "The `if` of a step needs an answer that is asked only later, or not on every way to the step."
WHY = "The step is passed by as if it were not there."
WRONG = """
[[step]]
id = "lip-out"
phase = "inspection"
act = "do"
text = "Press the old lip out of the cover."
if = { lip = "worn" }       # asked below

[[step]]
id = "runout"
phase = "inspection"
act = "check"
ask = [{ what = "edge of the lip", one_of = ["sharp", "worn"], sets = "lip" }]
"""
RIGHT = """
[[step]]
id = "runout"
phase = "inspection"
act = "check"
ask = [{ what = "edge of the lip", one_of = ["sharp", "worn"], sets = "lip" }]

[[step]]
id = "lip-out"
phase = "inspection"
act = "do"
text = "Press the old lip out of the cover."
if = { lip = "worn" }
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[str, str]] = set()
    for pump in subject.pumps.values():
        for number, step in enumerate(pump.steps):
            for name in step.if_:
                if name == "variant" or (step.id, name) in told or _is_asked(pump.steps[:number], step, name):
                    continue
                told.add((step.id, name))
                asks = [each for each in subject.file.step if any(ask.sets == name for ask in each.ask)]
                where = ", ".join(subject.where_is(each) for each in asks)
                yield subject.finding(
                    "verdict-asked-too-late",
                    SEVERITY,
                    step,
                    ("if", name),
                    f"`{step.id}` needs the answer `{name}`, which {where} asks later, or not on every way.",
                    "Put the question before it, on every way.",
                )


def _is_asked(earlier: Sequence[Step], step: Step, verdict: str) -> bool:
    """Whether an earlier step that is done whenever this one is asks for the verdict."""
    return any(
        question.sets == verdict
        for each in earlier
        if each.if_.items() <= step.if_.items()
        for question in each.ask
    )
