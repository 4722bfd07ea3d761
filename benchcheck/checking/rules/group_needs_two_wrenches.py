"""A group that is begun with one wrench and finished with another."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "No registered wrench can do all rounds and positions of a group."
WHY = "As the wrench is changed a scale is misread or a unit is left over; who knows it lays out both."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
rounds = ["5 %", "100 %"]
torque = { target = "80 N·m", tolerance = "10 %" }     # 4 N·m first
thread = "M12"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.2 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
rounds = ["60 %", "100 %"]
torque = { target = "80 N·m", tolerance = "10 %" }
thread = "M12"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.2 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        pulls = [pull for pull in subject.pulls if pull.group is group]
        able = [{setting.wrench for setting in pull.settings} for pull in pulls]
        if not pulls or not all(able) or set.intersection(*able):
            continue
        each = [f"{pull.words}: {', '.join(sorted(names))}" for pull, names in zip(pulls, able, strict=True)]
        yield subject.finding(
            "group-needs-two-wrenches",
            SEVERITY,
            group,
            ("rounds",) if group.rounds else ("torque",),
            f"No registered wrench can do all of `{group.id}` ({'; '.join(dict.fromkeys(each))}).",
            "Write other rounds if one wrench is to do; otherwise say in the step that two are needed.",
        )
