"""A target whose tolerance reaches over the proof load of its thread and strength."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import percent, shares_of, unit_hint, usual_targets
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "The top of a group's tolerance stretches its screws beyond their proof load."
WHY = "Beyond it a screw stays longer than it was: it has lost its preload, or breaks, at the bench or later."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "14 N·m", tolerance = "10 %" }      # 133 % of proof load
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
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        shares = shares_of(group)
        if shares is None or shares.top <= 1 or group.torque is None:
            continue
        low, high = usual_targets(group, shares)
        yield subject.finding(
            "torque-over-proof-load",
            SEVERITY,
            group.torque,
            ("target",),
            f"{group.torque.target} makes {percent(shares.target)} of the proof load of {group.thread} in "
            f"{group.strength}, and {percent(shares.top)} at the top of the tolerance."
            f"{unit_hint(group, shares)}",
            f"Write a target from {low} to {high}, or mend thread, strength or nut factor.",
        )
