"""A torque of which nobody can say whether it is right for its screw."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.WARNING
WHAT = "A group has a target, but not the thread, strength and friction that prove it."
WHY = "A torque that is stated once proves itself; only against its screw does a slip in it show."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        missing = [f"`{key}`" for key in ("thread", "strength", "friction") if getattr(group, key) is None]
        if group.torque is None or group.low_because is not None or not missing:
            continue
        yield subject.finding(
            "torque-not-judged",
            SEVERITY,
            group,
            ("torque",),
            f"Nothing proves {group.torque.target} for `{group.id}`: it has no {listed(missing)}.",
            f"Write {listed(missing, 'and')}, or in `low_because` why the preload does not matter.",
        )
