"""Rounds that do not go up."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A round of a group is to be tightened to no more than the round before it."
WHY = "At a smaller torque the wrench clicks before anything turns, and the round does nothing."
WRONG = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["70 %", "30 %", "100 %"]
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
        for number, (before, share) in enumerate(pairwise(group.rounds), 1):
            if share.si <= before.si:
                yield subject.finding(
                    "rounds-do-not-rise",
                    SEVERITY,
                    group,
                    ("rounds", number),
                    f"Round {number + 1} of `{group.id}` is {share} of the target, after {before}.",
                    "Let each round be more than the one before it.",
                )
