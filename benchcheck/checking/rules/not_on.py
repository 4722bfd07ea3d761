"""Fasteners loosened that are not on."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step loosens a fastener group that is not on at that time."
WHY = (
    "The step is meant for another group, stands in the wrong place, or is done by both branches "
    "of a decision."
)
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "F1", "lip", "shaft"]     # twice
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("not-on"):
        yield Finding(
            "not-on",
            SEVERITY,
            subject.place_of(stop),
            f"`{act.step.id}` loosens `{stop.about}`, which is not on by then{subject.when(stop.cases)}.",
            "Leave one of the two out, or write the group that is meant.",
        )
