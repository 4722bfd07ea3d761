"""Fasteners that are tightened before they are run in."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step tightens a fastener group that nothing has run in on that way through the steps."
WHY = "A screw that was not run in by fingers can be cross-threaded, and the wrench does not feel it."
WRONG = """
[[step]]
id = "runout"
phase = "inspection"
act = "check"
ask = [{ what = "screws", one_of = ["old", "new"], sets = "screws" }]

[[step]]
id = "screws-in"
act = "start"
group = "F1"
if = { screws = "new" }     # and the old ones?

[[step]]
id = "screws"
act = "tighten"
group = "F1"
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
    for stop, act in subject.acts_stopped_by("not-run-in"):
        yield Finding(
            "not-run-in",
            SEVERITY,
            subject.place_of(stop),
            f"`{act.step.id}` tightens `{stop.about}`, which no step has run in before it"
            f"{subject.when(stop.cases)}.",
            f'Put a step with act = "start" and group = "{stop.about}" before it, on every way.',
        )
