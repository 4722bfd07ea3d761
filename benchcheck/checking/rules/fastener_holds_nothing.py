"""Fasteners that are run in before what they hold."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A step runs in a fastener group while a part that it holds, or that is the fastener itself, is not in."
)
WHY = "The screws are tight, and the part lies beside the pump."
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]
group = "F1"

[[step]]
id = "screws"
part = "cover"      # its screws are tight already
"""
RIGHT = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"
group = "F1"

[[step]]
id = "screws"
phase = "test"
act = "check"
ask = [{ what = "joint all round", one_of = ["shut", "a gap"], good = ["shut"] }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("fastener-holds-nothing"):
        step, group, held = act.step, act.target, stop.about
        fits = subject.steps_with(held, Verb.INSTALL)
        late = f"; {subject.where_is(fits[-1])} comes too late" if fits and fits[-1] != step else ""
        yield Finding(
            "fastener-holds-nothing",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` runs in `{group}` when `{held}` is not in{subject.when(stop.cases)}{late}.",
            f"Put `{held}` in before it.",
        )
