"""A target that leaves little up to the proof load of its thread and strength."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import percent, shares_of, unit_hint, usual_targets
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.strength import HIGHEST_USUAL_SHARE
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group's target stretches its screws to more than 90 % of their proof load."
WHY = "Friction that is lower than written, or the load of the work on top, takes them beyond it."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "9.8 N·m", tolerance = "5 %" }      # 93 % of proof load
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
torque = { target = "8 N·m", tolerance = "5 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        shares = shares_of(group)
        if shares is None or group.torque is None or shares.top > 1 or shares.target <= HIGHEST_USUAL_SHARE:
            continue
        low, high = usual_targets(group, shares)
        yield subject.finding(
            "torque-too-high",
            SEVERITY,
            group.torque,
            ("target",),
            f"{group.torque.target} makes {percent(shares.target)} of the proof load of {group.thread} in "
            f"{group.strength}; expected at most {percent(HIGHEST_USUAL_SHARE)}.{unit_hint(group, shares)}",
            f"Write a target from {low} to {high}, or mend thread, strength or nut factor.",
        )
