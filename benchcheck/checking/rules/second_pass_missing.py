"""A second pass that no step makes."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.courses import courses
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A group has `again`, and no step tightens it a second time before what needs that."
WHY = "A gasket settles under its screws; without the second pass the joint is at half its load."
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
friction = { condition = "oiled", nut_factor = 0.15 }
again = { after = "4 h", before = "test" }

[[step]]
id = "settle"
phase = "test"
act = "wait"
clock = "F1 again"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "drops at the drain in five minutes", one_of = ["none", "one or more"], good = ["none"] }]
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
friction = { condition = "oiled", nut_factor = 0.15 }
again = { after = "4 h", before = "test" }

[[step]]
id = "settle"
act = "wait"
clock = "F1 again"

[[step]]
id = "second-pass"
act = "tighten"
group = "F1"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "drops at the drain in five minutes", one_of = ["none", "one or more"], good = ["none"] }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[str] = set()
    for course in courses(subject):
        clock = course.clock
        if course.second_pass_missing and clock.group not in told:
            told.add(clock.group)
            group = subject.group(clock.group)
            if group is None or group.again is None:
                continue
            yield subject.finding(
                "second-pass-missing",
                SEVERITY,
                group,
                ("again",),
                f"No step tightens `{group.id}` a second time before {group.again.before}.",
                f'Write a step that waits for "{clock.id}", and one with act = "tighten" and '
                f'group = "{group.id}" behind it.',
            )
