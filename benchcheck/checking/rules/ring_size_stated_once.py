"""A ring whose size nothing else confirms."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = (
    "The size of a ring is said by `takes` alone: its groove has no `gland`, and no line of the "
    "kit has that size."
)
WHY = "A slip of one dash number goes through; neighbouring sizes look alike in the hand."
WRONG = """
[[groove]]
id = "G2"
in = "shaft"
where = "in the bore of the keyed end"
against = "body"
takes = "-016"          # and how large is its groove?
material = "NBR"

[kit]
holds = [{ ring = "-137", material = "NBR" }, { part = "lip" }]

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
RIGHT = """
[[groove]]
id = "G2"
in = "shaft"
where = "in the bore of the keyed end"
against = "body"
takes = "-016"
material = "NBR"
gland = { shaft = "0.625 in", depth = "0.050 in" }

[kit]
holds = [{ ring = "-016", material = "NBR" }, { ring = "-137", material = "NBR" }, { part = "lip" }]

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
    on_the_bag = {line.ring for line in subject.file.kit.holds} if subject.file.kit else set()
    for groove in subject.file.groove:
        sizes = {groove.takes} if isinstance(groove.takes, str) else set(groove.takes.values())
        if groove.gland is None and not sizes <= on_the_bag:
            yield subject.finding(
                "ring-size-stated-once",
                SEVERITY,
                groove,
                ("takes",),
                f"Only `takes` says which ring goes into `{groove.id}`.",
                "Write the `gland`, from the drawing.",
            )
