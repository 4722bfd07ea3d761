"""A step that a clock bars, before the step that waits for it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.courses import courses
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A cure, a second pass or another clock bars a step, and no step before it waits until that time is over."
)
WHY = "The pump is tested with wet thread-locker in it; or the bench stops in mid-test and nobody knows why."
WRONG = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["50 %", "100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "wet thread-locker", nut_factor = 0.15 }
[fasteners.threadlocker]
strength = "low"
amount = "1 drop"
where = "two threads from the tip"
handling = "10 min"
cure = "24 h"
temperature = "22 °C"
bars = "test"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "drops at the drain in five minutes", one_of = ["none", "one or more"], good = ["none"] }]

[[step]]
id = "cure"
phase = "test"
act = "wait"
clock = "F1 cure"
"""
RIGHT = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["50 %", "100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "wet thread-locker", nut_factor = 0.15 }
[fasteners.threadlocker]
strength = "low"
amount = "1 drop"
where = "two threads from the tip"
handling = "10 min"
cure = "24 h"
temperature = "22 °C"
bars = "test"

[[step]]
id = "cure"
phase = "test"
act = "wait"
clock = "F1 cure"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "drops at the drain in five minutes", one_of = ["none", "one or more"], good = ["none"] }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[str, str]] = set()
    for course in courses(subject):
        step = course.barred_before_wait
        if step is None or (course.clock.id, step.id) in told:
            continue
        told.add((course.clock.id, step.id))
        waits = [each for each in subject.file.step if each.clock == course.clock.id]
        late = (
            f", and {subject.where_is(waits[-1])} waits too late" if waits else ", and no step waits for it"
        )
        yield subject.finding(
            "barred-step-before-its-wait",
            SEVERITY,
            step,
            ("id",),
            f"`{step.id}` may not begin before the clock `{course.clock.id}` is over{late}.",
            f"Put `{waits[-1].id}` before it."
            if waits
            else f'Write a step with act = "wait" and clock = "{course.clock.id}" before it.',
        )
