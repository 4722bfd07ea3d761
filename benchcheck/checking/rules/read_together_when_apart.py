"""A reading between parts that are not together."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.readings import readings
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A measured reading is about several parts, and they are not in one work at that time."
WHY = "A clearance is measured between parts that do not meet yet, so the number means nothing."
WRONG = """
[[step]]
id = "lip-drag"
act = "measure"
of = ["shaft", "lip"]       # the lip is not on it yet
ask = [{ what = "torque to turn", max = "0.3 N·m" }]

[[step]]
id = "shaft-in"
part = "shaft"
"""
RIGHT = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"

[[step]]
id = "lip-drag"
act = "measure"
of = ["shaft", "lip"]
ask = [{ what = "torque to turn", max = "0.3 N·m" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for question, step, now in readings(subject):
        parts = [each for each in question.of or step.of if each in now.pump.parts]
        measured = not question.one_of and question.kind is None
        if measured and step.between and len(parts) > 1 and not now.in_one_work(*parts):
            apart = next(each for each in parts if not now.in_one_work(parts[0], each))
            yield subject.finding(
                "read-together-when-apart",
                SEVERITY,
                question if question.of else step,
                ("of",),
                f"`{step.id}` reads `{parts[0]}` and `{apart}` together, and they are apart at that time.",
                "Put it after the step that brings them together, or write between = false.",
            )
