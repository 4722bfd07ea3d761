"""A tolerance between two marks of every scale."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.wrenches import firsts
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "No mark of any registered wrench lies inside a group's tolerance."
WHY = "The wrench can only be set to the mark beside it, outside the tolerance; at the bench each is refused."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "85 N·m", tolerance = "4.1 %" }     # only whole newton metres, accurate to ±4 %
thread = "M14"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "85 N·m", tolerance = "8 %" }
thread = "M14"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for pull in firsts(subject.pulls, "graduation"):
        assert pull.group.torque is not None
        tolerance = pull.group.torque.tolerance
        yield subject.finding(
            "tolerance-finer-than-any-graduation",
            SEVERITY,
            pull.group.torque,
            ("tolerance",),
            f"No mark of a registered wrench lies inside ±{tolerance} at {pull.words}: {pull.reasons()}.",
            "Write a wider tolerance if the drawing allows it, or register a wrench with a finer scale.",
        )
