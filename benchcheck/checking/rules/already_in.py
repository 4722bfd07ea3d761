"""A part that is fitted twice."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step fits a part that an earlier step has fitted, with nothing between that takes it out."
WHY = "One of the two steps is meant for another part, or both branches of a decision do the same thing."
WRONG = """
[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]

[[step]]
id = "lip-in-too"
part = "lip"        # it is in
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]
"""
RIGHT = """
[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("already-in"):
        step = act.step
        earlier = [
            each for each in subject.steps_with(stop.about, Verb.INSTALL) if subject.before(each, step)
        ]
        since = f" since {subject.where_is(earlier[-1])}" if earlier else ""
        yield Finding(
            "already-in",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` fits `{stop.about}`, which is in already{since}{subject.when(stop.cases)}.",
            "Leave one of the two out, or write the part that is meant.",
        )
