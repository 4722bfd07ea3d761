"""An angle that leaves its screws with little preload, without a word why."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.tightening import after_its_angle
from benchcheck.checking.joints import percent
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.strength import LOWEST_USUAL_SHARE
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "Torque and angle together make less than half the proof load of the screws, and nothing says why."
WHY = "Its screws are thrown away each time for a preload that a torque alone would give; or it is a slip."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 50", grip = "40 mm", single_use = "once fitted" }]
torque = { target = "3 N·m", tolerance = "10 %" }
angle = { add = "6 °", tolerance = "2 °", stiffness_ratio = 4.0 }
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
screws = [{ item = "M6 x 50", grip = "40 mm", single_use = "once fitted" }]
torque = { target = "3 N·m", tolerance = "10 %" }
angle = { add = "20 °", tolerance = "5 °", stiffness_ratio = 4.0 }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        predicted = after_its_angle(group)
        if predicted is None or group.angle is None or group.low_because is not None:
            continue
        share = predicted[1].share_of_proof
        if share < LOWEST_USUAL_SHARE:
            yield subject.finding(
                "angle-too-small",
                SEVERITY,
                group.angle,
                ("add",),
                f"{group.angle.add} on top of the torque makes {percent(share)} of the proof load of "
                f"{group.thread} in {group.strength}; expected at least {percent(LOWEST_USUAL_SHARE)}.",
                "Write the angle of the drawing, or why it is low on purpose in `low_because`.",
            )
