"""A round that is too small for every wrench of the shop."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.wrenches import plain
from benchcheck.procedure.finding import Finding, Place, Severity

SEVERITY = Severity.WARNING
WHAT = "A round, mostly the first, lies below the range of every registered wrench."
WHY = "It is then done by feel, each screw differently, and the record holds no number for it."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
rounds = ["10 %", "50 %", "100 %"]      # 0.7 N·m, and the smallest wrench starts at 2 N·m
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
rounds = ["30 %", "60 %", "100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
"""


def check(subject: Subject) -> Iterator[Finding]:
    found: dict[Place, Finding] = {}
    for pull in plain(subject.pulls):
        group = pull.group
        if not pull.all_start_above or group.torque is None:
            continue
        finding = subject.finding(
            "round-below-every-wrench",
            SEVERITY,
            group if group.rounds else group.torque,
            ("rounds", pull.round_number - 1) if group.rounds else ("target",),
            f"Every registered wrench is too large for {pull.words}: {pull.reasons()}.",
            "Write a larger share, do it by hand with `without_wrench`, or register a smaller wrench.",
        )
        found.setdefault(finding.place, finding)
    yield from found.values()
