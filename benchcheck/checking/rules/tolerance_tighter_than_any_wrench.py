"""A tolerance that no wrench of the shop can prove."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.wrenches import firsts
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group's tolerance is tighter than the accuracy of every registered wrench that reaches its torque."
WHY = "Whatever the wrench shows, the screw may have got less or more; at the bench each wrench is refused."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "1 %" }        # the best wrench is accurate to ±2 %
thread = "M6"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for pull in firsts(subject.pulls, "accuracy"):
        assert pull.group.torque is not None
        tolerance = pull.group.torque.tolerance
        yield subject.finding(
            "tolerance-tighter-than-any-wrench",
            SEVERITY,
            pull.group.torque,
            ("tolerance",),
            f"No registered wrench can hold ±{tolerance} at {pull.words}: {pull.reasons()}.",
            "Write a wider tolerance if the drawing allows it, or register a more accurate wrench.",
        )
