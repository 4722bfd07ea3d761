"""A screw that may be turned by its angle once more."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group is tightened by an angle, and says that the same screw may be given it again."
WHY = "Near its yield a screw grows longer with each angle; the second one breaks it, or nearly."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "4 N·m", tolerance = "10 %" }
angle = { add = "60 °", tolerance = "5 °", once = false }
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
        if group.angle is not None and not group.angle.once:
            yield subject.finding(
                "angle-given-twice",
                SEVERITY,
                group.angle,
                ("once",),
                f"`{group.id}` may be turned by {group.angle.add} more than once.",
                "Leave `once` out; for screws that stay well below yield, silence this.",
            )
