"""A position, or a variant, for which no screw is told."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.screws import screws_at
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ERROR
WHAT = "The `screws` of a group leave out a position, in all variants or in one."
WHY = "What is taken out of the drawer then is too short to hold, or long enough to bottom in its hole."
WRONG = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20", at = [1, 2, 3] }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
# position 4?
"""
RIGHT = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20", at = [1, 2, 3] }, { item = "M6 x 25", at = [4] }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    missing: dict[tuple[str, tuple[int, ...]], list[str | None]] = {}
    for variant, pump in subject.pumps.items():
        for group in pump.groups.values():
            told = {place for place, _ in screws_at(group, variant)}
            lacks = tuple(place for place in range(1, group.count + 1) if place not in told)
            if group.screws and lacks:
                missing.setdefault((group.id, lacks), []).append(variant)
    for (name, lacks), variants in missing.items():
        group = next(each for each in subject.file.fasteners if each.id == name)
        where = "position" + "s" * (len(lacks) > 1) + " " + listed(map(str, lacks[:8]), "and")
        those = "" if len(variants) == len(subject.pumps) else f" for {listed(map(str, variants), 'and')}"
        yield subject.finding(
            "position-without-a-screw",
            SEVERITY,
            group,
            ("screws",),
            f"`{name}` tells no screw{those} at {where}.",
            "Write a line in `screws` for them.",
        )
