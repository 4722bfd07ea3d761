"""A target that makes little preload, without a word why."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import percent, shares_of, unit_hint, usual_targets
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.strength import LOWEST_USUAL_SHARE
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group's target makes less than half the proof load of its screws, and nothing says why."
WHY = "The joint opens under pressure and leaks, or its screws come loose; the number alone looks sane."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "5 N·m", tolerance = "10 %" }       # 47 % of proof load
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
torque = { target = "5 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
low_because = "the plastic cover, not the thread, is the limit"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        shares = shares_of(group)
        if shares is None or group.torque is None or shares.target >= LOWEST_USUAL_SHARE:
            continue
        # What is snug is low, and the angle does the rest.
        if group.low_because is not None or group.angle is not None:
            continue
        low, high = usual_targets(group, shares)
        yield subject.finding(
            "torque-too-low",
            SEVERITY,
            group.torque,
            ("target",),
            f"{group.torque.target} makes {percent(shares.target)} of the proof load of {group.thread} in "
            f"{group.strength}; expected at least {percent(LOWEST_USUAL_SHARE)}.{unit_hint(group, shares)}",
            f"Write a target from {low} to {high}, or why it is low on purpose in `low_because`.",
        )
