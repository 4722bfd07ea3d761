"""Positions that are counted from nowhere."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A layout does not say what is found at its top, from where the positions are counted."
WHY = "Each person begins at another screw; long and short ones, and what was read, change places."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 6, seen_from = "drive end" }
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


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        layout = group.layout
        if layout is not None and layout.datum is None and layout.count > 1:
            yield subject.finding(
                "layout-without-a-datum",
                SEVERITY,
                group,
                ("layout",),
                f"Position 1 of `{group.id}` is counted from nothing.",
                'Write datum = "...": something on the part that is found without this procedure.',
            )
