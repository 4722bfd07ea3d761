"""A torque that no screw of this thread is tightened to: the unit is another one."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import LEAST_ON_PURPOSE, in_other_units, percent, possible_shares, shares_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners
from benchcheck.procedure.wording import listed

SEVERITY = Severity.WARNING
WHAT = (
    "A target that is low on purpose, or cannot be judged for lack of strength or nut factor, is too small "
    "or too great for its thread whatever these are."
)
WHY = "A number copied under another unit is off by 12, 1.36, 9.8 or 10.2 times, and reads well."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "5 lbf·in", tolerance = "10 %" }    # was lbf·ft in the drawing
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
torque = { target = "5 lbf·ft", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
low_because = "the plastic cover, not the thread, is the limit"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        possible = None if _is_judged(group) else possible_shares(group)
        if possible is None or group.torque is None:
            continue
        least, most = possible
        if least <= 1 and most >= LEAST_ON_PURPOSE:
            continue
        share = f"at most {percent(most)}" if most < LEAST_ON_PURPOSE else f"at least {percent(least)}"
        likely = [
            str(other)
            for other, times in in_other_units(group.torque.target)
            if least * times <= 1 and most * times >= LEAST_ON_PURPOSE
        ]
        yield subject.finding(
            "torque-unit-unlikely",
            SEVERITY,
            group.torque,
            ("target",),
            f"{group.torque.target} is hardly meant: it makes {share} of the proof load of {group.thread}.",
            f"Check the unit: {listed(likely)} is likely." if likely else "Check number, unit and thread.",
        )


def _is_judged(group: Fasteners) -> bool:
    """Whether the rules on preload say all that is to be said."""
    shares = shares_of(group)
    low_is_free = group.low_because is not None or group.angle is not None
    return shares is not None and (shares.top > 1 or not low_is_free)
