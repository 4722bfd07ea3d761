"""Rounds that stop short of the full torque."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "The last of the `rounds` of a group is not 100 %."
WHY = "Every screw is done in every round, and the joint is loose."
WRONG = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["30 %", "70 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["30 %", "70 %", "100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.rounds and group.rounds[-1].si != 1:
            last = len(group.rounds) - 1
            yield subject.finding(
                "rounds-end-below-full",
                SEVERITY,
                group,
                ("rounds", last),
                f"The last round of `{group.id}` is {group.rounds[-1]} of the target, not 100 %.",
                'Write "100 %" as the last round.',
            )
