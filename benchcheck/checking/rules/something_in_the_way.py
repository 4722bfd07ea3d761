"""A part that is to come out through another."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.order import in_the_wrong_order
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step takes off what something else still covers, carries or holds."
WHY = "At the bench it does not come off; who helps with a lever breaks it."
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["cover", "G1", "F1", "lip", "shaft"]     # its screws are still in
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    # Two parts that the steps fit in the wrong order come off in the wrong order as well.
    wrong_order = (*in_the_wrong_order(subject), *subject.acts_stopped_by("end-is-closed"))
    told = {frozenset((stop.refusal.off, stop.about)) for stop, _ in wrong_order}
    for stop in subject.stopped_by("something-in-the-way"):
        if stop.act is None or frozenset((stop.refusal.off, stop.about)) in told:
            continue
        bar = stop.refusal.off
        what = f"the ring of `{stop.about}`" if stop.act.verb is Verb.LIFT else f"`{stop.about}`"
        yield Finding(
            "something-in-the-way",
            SEVERITY,
            subject.place_of(stop),
            f"`{stop.act.step.id}` takes {what} off when `{bar}` is in the way{subject.when(stop.cases)}.",
            f"Take `{bar}` off before it; if that is wrong, look at the order in which both are fitted.",
        )
