"""A round of tightening before its turn."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.planned import rounds_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step tightens a round of a group while another round is due."
WHY = (
    "A joint that is taken to its torque in one go is not drawn down evenly: the ring below is "
    "pinched, the flange bends."
)
WRONG = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"
round = 2           # and the first?
"""
RIGHT = """
[[step]]
id = "first-round"
act = "tighten"
group = "F1"
round = 1

[[step]]
id = "screws"
act = "tighten"
group = "F1"
round = 2
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("round-out-of-order"):
        step, group = act.step, stop.about
        hold = stop.before.held[group]
        due = hold.rounds + 1
        state = "all its rounds are done" if due > rounds_of(stop.pump, group) else f"round {due} is due"
        yield subject.finding(
            "round-out-of-order",
            SEVERITY,
            step,
            ("round",),
            f"`{step.id}` is to tighten round {step.round} of `{group}` when {state}"
            f"{subject.when(stop.cases)}.",
            "Give each round its step, in order, or leave `round` out: then one step does them all.",
        )
