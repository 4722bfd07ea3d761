"""Screws that were stretched by an angle and go back in."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Screws
from benchcheck.procedure.table import Table

SEVERITY = Severity.ADVICE
WHAT = "A group is tightened by an angle, and nothing says when its screws may not be used again."
WHY = "An angle takes screws close to yield, and mostly beyond: the next time they reach less, or break."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
torque = { target = "4 N·m", tolerance = "10 %" }
angle = { add = "60 °", tolerance = "5 °" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20", single_use = "once disturbed" }]
torque = { target = "4 N·m", tolerance = "10 %" }
angle = { add = "60 °", tolerance = "5 °" }
"""


def check(subject: Subject) -> Iterator[Finding]:
    parts = {part.id: part for part in subject.file.part}
    for group in subject.file.fasteners:
        if group.angle is None:
            continue
        used_again: list[Table] = [screws for screws in group.screws if screws.single_use is None]
        used_again += [parts[name] for name in group.parts if name in parts and not parts[name].single_use]
        for table in used_again:
            yield subject.finding(
                "stretched-screw-used-again",
                SEVERITY,
                table,
                ("item",) if isinstance(table, Screws) else ("id",),
                f"`{group.id}` is turned by {group.angle.add}, and its screws have no `single_use`.",
                'Write single_use = "once disturbed", or silence this if the drawing allows it.',
            )
