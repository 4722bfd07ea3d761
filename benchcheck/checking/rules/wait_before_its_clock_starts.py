"""A wait for a clock that does not run yet."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.courses import courses
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step waits for a clock that only a later step starts."
WHY = "At the bench the step cannot be answered: there is nothing to wait for."
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
id = "cure"
act = "wait"
clock = "F1 cure"       # it starts with the screws

[[step]]
id = "screws"
act = "tighten"
group = "F1"
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
    told: set[str] = set()
    for course in courses(subject):
        step = course.wait_before_start
        if step is None or step.id in told:
            continue
        told.add(step.id)
        clock = course.clock
        starts = (
            f"the last round of `{clock.group}`"
            if clock.group
            else " ".join(subject.where_is(each) for each in subject.file.step if each.id == clock.step)
        )
        yield subject.finding(
            "wait-before-its-clock-starts",
            SEVERITY,
            step,
            ("clock",),
            f"`{step.id}` waits for the clock `{clock.id}`, which {starts} starts later.",
            "Put the wait behind it.",
        )
