"""A groove whose ring is never pressed."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "At the end, the parts that close a groove are not together, or the group that presses it is not tight."
)
WHY = "The ring lies in its groove and seals nothing."
WRONG = """
[[part]]
id = "bush"
into = "shaft"
from = "keyed end"
temporary = true

[[groove]]
id = "G2"
in = "shaft"
where = "nearer the keyed end"
against = "bush"        # a tool, which no step puts on
takes = "-016"
material = "NBR"
gland = { bore = "0.750 in", depth = "0.052 in" }

[[step]]
id = "shaft-in"
rings = ["G2"]
part = "shaft"
"""
RIGHT = """
[[groove]]
id = "G2"
in = "shaft"
where = "nearer the keyed end"
against = "body"
takes = "-016"
material = "NBR"
gland = { shaft = "0.625 in", depth = "0.052 in" }

[kit]
holds = [{ ring = "-137", material = "NBR" }, { ring = "-016", material = "NBR" }, { part = "lip" }]

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft", "G2"]

[[step]]
id = "shaft-in"
rings = ["G2"]
part = "shaft"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop in subject.stopped_by("groove-left-open"):
        groove = stop.pump.grooves[stop.about]
        by = groove.closed_by
        lacks = (
            f"`{by}` is not tightened"
            if stop.before.hidden(groove.id) and by is not None
            else f"`{groove.in_}` and `{'`, `'.join(groove.closed_against)}` are not together"
        )
        yield Finding(
            "groove-left-open",
            SEVERITY,
            subject.place_of(stop),
            f"`{groove.id}` is open at the end: {lacks}{subject.when(stop.cases)}.",
            "Correct `in` and `against`, or the steps that bring them together.",
        )
