"""A reason for a low preload that is not low."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import percent, shares_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.strength import LOWEST_USUAL_SHARE
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "A group says why its preload is low, and it is not low."
WHY = "The reason or the number is left over from another revision; the reason would hide a slip later."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }       # 66 % of proof load
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
low_because = "the plastic cover, not the thread, is the limit"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "4 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
low_because = "the plastic cover, not the thread, is the limit"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        shares = shares_of(group)
        if group.low_because is None or shares is None or shares.target < LOWEST_USUAL_SHARE:
            continue
        yield subject.finding(
            "reason-without-a-low-torque",
            SEVERITY,
            group,
            ("low_because",),
            f"The target of `{group.id}` makes {percent(shares.target)} of proof load, which is not low.",
            "Leave `low_because` out, or check the target.",
        )
