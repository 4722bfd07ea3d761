"""A position for which two screws are told."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.screws import screws_at
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Screws

SEVERITY = Severity.ERROR
WHAT = "Two lines of the `screws` of a group go to one position in one variant."
WHY = "Nobody can tell which of them is meant, and the fitter takes the one that lies nearer."
WRONG = """
[[fasteners]]
id = "F1"
name = "cover screws"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }, { item = "M6 x 25", at = [4] }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["100 %"]
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
screws = [{ item = "M6 x 20", at = [1, 2, 3] }, { item = "M6 x 25", at = [4] }]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
rounds = ["100 %"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[str, int]] = set()
    for variant, pump in subject.pumps.items():
        for group in pump.groups.values():
            first: dict[int, Screws] = {}
            for place, screws in screws_at(group, variant):
                other = first.setdefault(place, screws)
                number = group.screws.index(screws)
                if other is not screws and (group.id, number) not in told:
                    told.add((group.id, number))
                    yield subject.finding(
                        "position-with-two-screws",
                        SEVERITY,
                        screws,
                        ("at",) if screws.at else ("item",),
                        f"Position {place} of `{group.id}` takes {other.item} "
                        f"({subject.line(other, 'item')}) and {screws.item}.",
                        "Let each position stand in one line only.",
                    )
