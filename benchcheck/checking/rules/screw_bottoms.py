"""A screw that is longer than what it clamps and the thread of its hole together."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.screws import reaches
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A screw meets the end of the thread in its hole before its head meets the part."
WHY = "It reaches its torque and clamps nothing, or splits the casting; at the bench it feels like any other."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 30", grip = "10 mm" }]
tapped = { depth = "14 mm" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20", grip = "10 mm" }]
tapped = { depth = "14 mm" }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        for each in reaches(group):
            if each.ends == "bottoms" and group.tapped is not None:
                over = each.length_millimetre - each.grip_millimetre
                yield subject.finding(
                    "screw-bottoms",
                    SEVERITY,
                    each.screws,
                    ("item",),
                    f'"{each.screws.item}" goes {over:.3g} mm into `{group.into}`, whose thread is '
                    f"{group.tapped.depth} deep ({subject.line(group.tapped, 'depth')}).",
                    "Write a shorter screw, or the grip and the depth of the drawing.",
                )
