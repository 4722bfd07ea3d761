"""A part that is to hold another that is not there."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step fits a part that keeps another in, while that other is not in yet."
WHY = "A retaining ring sits in its groove and looks right, with nothing behind it."
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "clip", "shaft"]

[[step]]
id = "shaft-in"
parts = ["clip", "shaft"]       # it is to hold the shaft

[[part]]
id = "clip"
into = "body"
from = "drive end"
holds = ["shaft"]
[[stack]]
on = "body"
from = "drive end"
order = ["cover", "clip"]
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "clip", "shaft"]

[[step]]
id = "shaft-in"
parts = ["shaft", "clip"]

[[part]]
id = "clip"
into = "body"
from = "drive end"
holds = ["shaft"]
[[stack]]
on = "body"
from = "drive end"
order = ["cover", "clip", "shaft"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("holds-nothing"):
        step, part, held = act.step, act.target, stop.about
        fits = subject.steps_with(held, Verb.INSTALL)
        late = f"; {subject.where_is(fits[-1])} comes too late" if fits and fits[-1] != step else ""
        yield Finding(
            "holds-nothing",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` fits `{part}`, which is to hold `{held}`, and `{held}` is not in"
            f"{subject.when(stop.cases)}{late}.",
            f"Put `{held}` in before `{part}`.",
        )
