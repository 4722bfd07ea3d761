"""A fluid of which nothing is known here."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.rubber import fluid_name
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import shortened

SEVERITY = Severity.ADVICE
WHAT = "A fluid of the pump is none of those whose effect on rubber is known."
WHY = "Whether its rings bear it has to come from the seal maker; a slip in the word looks the same."
WRONG = """
[procedure]
fluids = { "oil side" = "hydraulic oyl" }
"""
RIGHT = """
[procedure]
fluids = { "oil side" = "hydraulic oil" }
"""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    for side, fluid in head.fluids.items():
        if fluid_name(fluid) is None:
            yield subject.finding(
                "fluid-not-judged",
                SEVERITY,
                head,
                ("fluids", side),
                f'Nothing is known here of "{shortened(fluid)}" on rubber, so no ring is judged against it.',
                'Write a common name, as in "mineral oil" or "water with glycol", or silence this with what '
                "the seal maker says.",
            )
