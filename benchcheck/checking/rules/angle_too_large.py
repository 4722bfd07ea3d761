"""An angle that turns its screws on to more than they bear."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.tightening import after_its_angle
from benchcheck.checking.joints import percent
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.strength import HIGHEST_USUAL_SHARE
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "Torque and angle together stretch the screws beyond proof load, or beyond what makes them yield."
WHY = "An angle is no softer than a torque: a few degrees too many, and the screw is longer than it was."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 50", grip = "40 mm", single_use = "once fitted" }]
torque = { target = "3 N·m", tolerance = "10 %" }
angle = { add = "90 °", tolerance = "5 °", stiffness_ratio = 4.0 }       # some 200 % of proof load
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
        if predicted is None or group.angle is None:
            continue
        _, planned, most = predicted
        if planned.share_of_proof <= HIGHEST_USUAL_SHARE and most.share_of_proof <= 1:
            continue
        share, top = percent(planned.share_of_proof), percent(most.share_of_proof)
        beyond = most.margin_to_yield < 0
        yields = "beyond what makes it yield" if beyond else f"{percent(most.margin_to_yield)} short of yield"
        yield subject.finding(
            "angle-too-large",
            SEVERITY if beyond else Severity.WARNING,
            group.angle,
            ("add",),
            f"{group.angle.add} on top of the torque makes {share} of the proof load of {group.thread} in "
            f"{group.strength}, and {top} at the top of both tolerances, {yields}.",
            "Write a smaller angle or a lower snug torque, or mend grip, stiffness ratio or strength.",
        )
