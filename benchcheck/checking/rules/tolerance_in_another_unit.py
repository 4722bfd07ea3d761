"""A target in one unit and its tolerance in another."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A target and its tolerance are written in different units."
WHY = "Drawings do not do that: one of the two was changed, or copied from elsewhere, without the other."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "6 lbf·in" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "62 lbf·in", tolerance = "6 lbf·in" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        torque = group.torque
        if torque is None or torque.tolerance.kind == "share" or torque.tolerance.unit == torque.target.unit:
            continue
        yield subject.finding(
            "tolerance-in-another-unit",
            SEVERITY,
            torque,
            ("tolerance",),
            f"The target is {torque.target}, but its tolerance is {torque.tolerance}, in another unit.",
            "Write both in the unit of the drawing, or the tolerance as a share in %.",
        )
