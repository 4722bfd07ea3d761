"""A ring whose size is none."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.rings import sizes_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.o_ring import UnknownSize, size
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A groove takes a size that AS568 does not have."
WHY = "No bag carries it: the person at the bench takes what looks nearest."
WRONG = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-179"        # the series ends at -178
material = "NBR"
"""
RIGHT = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "NBR"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for groove in subject.file.groove:
        for keys, taken in sizes_of(groove):
            try:
                size(taken)
            except UnknownSize as error:
                yield subject.finding(
                    "ring-size-unknown",
                    SEVERITY,
                    groove,
                    keys,
                    f"The ring of `{groove.id}`: {error}.",
                    "Write the dash number on the bag; silence this for a ring of another standard.",
                )
