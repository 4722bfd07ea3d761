"""Fasteners that are run in twice."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A step runs in a fastener group that an earlier step has run in, with nothing between that loosens it."
)
WHY = "One of the two steps is meant for another group; at the bench the second cannot be done."
WRONG = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"

[[step]]
id = "screws-again"
act = "start"
group = "F1"        # all are in and tight
"""
RIGHT = """
[[step]]
id = "screws-in"
act = "start"
group = "F1"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("already-started"):
        first = subject.steps_with(stop.about, Verb.START)[0]
        yield Finding(
            "already-started",
            SEVERITY,
            subject.place_of(stop),
            f"`{act.step.id}` runs in `{stop.about}`, which {subject.where_is(first)} has run in"
            f"{subject.when(stop.cases)}.",
            "Leave one of the two out, or write the group that is meant.",
        )
