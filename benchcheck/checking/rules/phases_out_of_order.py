"""A step of a phase that is over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Phase

SEVERITY = Severity.WARNING
WHAT = "A step stands among those of another phase: behind a later one, or before an earlier one."
WHY = (
    "What is asked of a pump that is apart cannot be answered on one that is built; often a "
    "`phase` was forgotten."
)
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"

[[step]]
id = "old-lip"
phase = "inspection"        # the pump is built
act = "check"
ask = [{ what = "edge of the old lip", one_of = ["sharp", "worn"] }]
"""
RIGHT = """
[[step]]
id = "old-lip"
phase = "inspection"
act = "check"
ask = [{ what = "edge of the old lip", one_of = ["sharp", "worn"] }]

[[step]]
id = "shaft-in"
part = "shaft"
"""


def check(subject: Subject) -> Iterator[Finding]:
    steps = subject.file.step
    phases = [list(Phase).index(step.phase) for step in steps]
    for at in sorted(set(range(len(steps))) - set(_in_order(phases))):
        step = steps[at]
        late = [each for each, phase in zip(steps[:at], phases[:at], strict=True) if phase > phases[at]]
        early = [each for each, phase in zip(steps[at:], phases[at:], strict=True) if phase < phases[at]]
        beside = (
            f"stands behind {subject.where_is(late[-1])} of the {late[-1].phase.value}"
            if late
            else f"stands before {subject.where_is(early[0])} of the {early[0].phase.value}"
        )
        yield subject.finding(
            "phases-out-of-order",
            SEVERITY,
            step,
            ("phase",),
            f"`{step.id}` belongs to the {step.phase.value}, and {beside}.",
            "Put it where its phase is, or write the phase it belongs to.",
        )


def _in_order(phases: Sequence[int]) -> list[int]:
    """Places of as many phases as can be that do not go back: the others are out of order."""
    best: list[list[int]] = [[] for _ in Phase]
    """For each phase, the longest such run that ends with it."""
    for at, phase in enumerate(phases):
        best[phase] = [*max(best[: phase + 1], key=len), at]
    return max(best, key=len)
