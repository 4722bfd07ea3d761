"""Positions that are numbered from nobody knows which side."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A layout does not say from which side one looks at it."
WHY = (
    "Seen from the other side clockwise is counter-clockwise: the numbers are a mirror image of those meant."
)
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 6, datum = "the drain" }
torque = { target = "7 N·m", tolerance = "10 %" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 6, seen_from = "drive end", datum = "the drain" }
torque = { target = "7 N·m", tolerance = "10 %" }
"""


_FEWEST = 3
"""Two positions are no mirror image of each other."""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        layout = group.layout
        if layout is not None and layout.seen_from is None and layout.count >= _FEWEST:
            yield subject.finding(
                "layout-without-its-side",
                SEVERITY,
                group,
                ("layout",),
                f"The positions of `{group.id}` are numbered clockwise, and nothing says from which side.",
                f'Write seen_from = "{group.from_}" in it, or the end from which the drawing looks.',
            )
