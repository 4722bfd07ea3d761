"""An angle whose tolerance reaches down to nothing."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "The tolerance of an angle is as large as the angle itself."
WHY = "A screw that was not turned at all would pass; the two numbers were exchanged, or a digit is missing."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "4 N·m", tolerance = "10 %" }
angle = { add = "5 °", tolerance = "60 °" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "4 N·m", tolerance = "10 %" }
angle = { add = "60 °", tolerance = "5 °" }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        angle = group.angle
        if angle is not None and not 0 < angle.tolerance.si < angle.add.si:
            yield subject.finding(
                "angle-tolerance-too-wide",
                SEVERITY,
                angle,
                ("tolerance",),
                f"The angle is {angle.add} ±{angle.tolerance}; expected a tolerance between 0 and the angle.",
                "Write angle and tolerance of the drawing.",
            )
