"""A ring for a groove that nobody can reach any more."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.bars import in_the_way_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step fits a ring into a groove that an earlier step has hidden."
WHY = "The fitter stands before a closed pump with a ring in his hand, or opens it again on his own account."
WRONG = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"

[[step]]
id = "ring-again"
rings = ["G1"]      # cover-on has hidden it
"""
RIGHT = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"
"""


def check(subject: Subject) -> Iterator[Finding]:
    empty = {stop.about for stop in subject.stopped_by("groove-left-empty")}
    for stop in subject.stopped_by("groove-is-hidden"):
        if stop.act is None or stop.about in empty:  # the step that hides it empty is told of
            continue
        step, groove = stop.act.step, stop.about
        hid = in_the_way_of(stop.before, groove)
        by = f", which `{hid[0]}` has hidden" if hid else ", which is hidden by then"
        yield Finding(
            "groove-is-hidden",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` fits a ring into `{groove}`{by}{subject.when(stop.cases)}.",
            f"Leave it out, or put it before the step that hides `{groove}`.",
        )
