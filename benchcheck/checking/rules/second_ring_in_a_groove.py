"""Two rings for one groove."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step fits a ring into a groove that holds one already."
WHY = "Two rings in one groove are crushed, and the groove that the second was meant for stays empty."
WRONG = """
[[step]]
id = "fit-G1"
rings = ["G1"]

[[step]]
id = "cover-on"
rings = ["G1"]      # the second
part = "cover"
"""
RIGHT = """
[[step]]
id = "fit-G1"
rings = ["G1"]

[[step]]
id = "cover-on"
part = "cover"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("second-ring-in-a-groove"):
        step, groove = act.step, stop.about
        first = subject.steps_with(groove, Verb.FIT)[0]
        yield Finding(
            "second-ring-in-a-groove",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` fits a ring into `{groove}`, which holds one from {subject.where_is(first)}"
            f"{subject.when(stop.cases)}.",
            "Leave one of the two out, or write the groove that is meant.",
        )
