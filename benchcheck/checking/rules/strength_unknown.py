"""A strength that no standard here knows for this thread."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import thread_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.strength import StrengthError, strength
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group's property class or grade is not known, or does not cover its diameter."
WHY = "Without its strength a screw's torque is proved by nothing, and the wrong screw is ordered."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.9"        # 8.8 or 9.8
friction = { condition = "oiled", nut_factor = 0.15 }
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

_ANY_DIAMETER_MILLIMETRE = 10.0


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.strength is None:
            continue
        thread = thread_of(group)
        try:
            strength(group.strength, thread.diameter_millimetre if thread else _ANY_DIAMETER_MILLIMETRE)
        except StrengthError as error:
            wrong, _, meant = str(error).rstrip("?.").partition("; did you mean ")
            yield subject.finding(
                "strength-unknown",
                SEVERITY,
                group,
                ("strength",),
                f"The strength of `{group.id}`: {wrong}.",
                f"Write {meant}, as it is marked on the head."
                if meant
                else "Write standard and grade as they are marked on the head.",
            )
