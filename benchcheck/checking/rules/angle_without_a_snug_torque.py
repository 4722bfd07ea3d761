"""An angle that is counted from nowhere."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A group is turned by an angle, and no torque says when it is snug."
WHY = "The angle counts from the moment all faces touch; from looser than that it makes next to no preload."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
angle = { add = "60 °", tolerance = "5 °" }
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
        if group.angle is not None and group.torque is None:
            yield subject.finding(
                "angle-without-a-snug-torque",
                SEVERITY,
                group,
                ("angle",),
                f"`{group.id}` is turned by {group.angle.add}, from no stated torque.",
                "Write in `torque` the one from which the angle counts.",
            )
