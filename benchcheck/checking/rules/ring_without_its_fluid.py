"""A ring in a pump of several fluids, and not a word on which of them comes to it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ADVICE
WHAT = "The pump has several fluids, and a groove does not say which of them touch its ring."
WHY = "Its rubber is judged against none of them."
WRONG = """
[procedure]
fluids = { "oil side" = "hydraulic oil", "wet end" = "water" }
"""
RIGHT = """
[procedure]
fluids = { "oil side" = "hydraulic oil", "wet end" = "water" }

[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
touches = ["oil side"]
takes = "-137"
material = "NBR"
"""


def check(subject: Subject) -> Iterator[Finding]:
    sides = [f'"{side}"' for side in subject.file.procedure.fluids]
    if len(sides) < 2:
        return
    for groove in subject.file.groove:
        if not groove.touches:
            yield subject.finding(
                "ring-without-its-fluid",
                SEVERITY,
                groove,
                ("id",),
                f"`{groove.id}` does not say which fluids touch its ring: {listed(sides)}.",
                f"Write touches = [{sides[0]}], or whichever come to it.",
            )
