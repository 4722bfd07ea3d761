"""A left-hand thread, and no wrench that is calibrated that way."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.wrenches import firsts
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group is tightened counter-clockwise, and no registered wrench is calibrated in that direction."
WHY = "A wrench shows nothing reliable the other way round, and many do not click at all."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "45 N·m", tolerance = "10 %" }
hand = "left"
thread = "M10"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "25 N·m", tolerance = "10 %" }
hand = "left"
thread = "M8"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for pull in firsts(subject.pulls, "direction"):
        yield subject.finding(
            "left-hand-without-a-wrench",
            SEVERITY,
            pull.group,
            ("hand",),
            f"No registered wrench that is calibrated counter-clockwise can do {pull.words}.",
            "Have one calibrated both ways and register it so, or check the hand of the thread.",
        )
