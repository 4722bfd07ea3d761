"""A torque that no wrench of the shop reaches."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.wrenches import plain
from benchcheck.procedure.finding import Finding, Place, Severity

SEVERITY = Severity.WARNING
WHAT = "A target lies above the range of every registered wrench, or between the ranges of two."
WHY = "At the bench every wrench is refused, in the middle of the job."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "300 N·m", tolerance = "10 %" }      # the largest wrench ends at 200 N·m
thread = "M20"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "180 N·m", tolerance = "10 %" }
thread = "M16"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    found: dict[Place, Finding] = {}
    for pull in plain(subject.pulls):
        if pull.hurdle not in ("starts above", "ends below") or pull.all_start_above or not pull.group.torque:
            continue
        finding = subject.finding(
            "torque-beyond-every-wrench",
            SEVERITY,
            pull.group.torque,
            ("target",),
            f"No registered wrench reaches {pull.words}: {pull.reasons()}.",
            "Check number and unit, or register a wrench that reaches it.",
        )
        found.setdefault(finding.place, finding)
    yield from found.values()
