"""A step of a phase that is over."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Phase, Step

SEVERITY = Severity.WARNING
WHAT = "A step belongs to an earlier phase than one that stands before it."
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
    order = list(Phase)
    latest: Step | None = None
    for step in subject.file.step:
        if latest is not None and order.index(step.phase) < order.index(latest.phase):
            yield subject.finding(
                "phases-out-of-order",
                SEVERITY,
                step,
                ("phase",),
                f"`{step.id}` belongs to the {step.phase.value}, and {subject.where_is(latest)} "
                f"has begun the {latest.phase.value}.",
                "Put it where its phase is, or write the phase it belongs to.",
            )
        else:
            latest = step
