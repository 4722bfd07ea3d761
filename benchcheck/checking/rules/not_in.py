"""Something taken out that is not in."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step takes out a part, or a ring, that is not in at that time."
WHY = (
    "The step is meant for another part, stands in the wrong place, or is done by both branches "
    "of a decision."
)
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft"]

[[step]]
id = "shaft-out"
phase = "teardown"
act = "remove"
off = ["shaft"]         # it is out
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip"]

[[step]]
id = "shaft-out"
phase = "teardown"
act = "remove"
off = ["shaft"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("not-in"):
        step, thing = act.step, stop.about
        takes = subject.steps_with(thing, Verb.REMOVE, Verb.LIFT)
        earlier = [each for each in takes if subject.before(each, step)]
        since = f" since {subject.where_is(earlier[-1])}" if earlier else ""
        what = (
            f"the ring of `{thing}`, and none is in it"
            if thing in stop.pump.grooves
            else f"`{thing}`, which is out"
        )
        yield Finding(
            "not-in",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` takes out {what}{since}{subject.when(stop.cases)}.",
            "Leave one of the two out, or write the part that is meant.",
        )
