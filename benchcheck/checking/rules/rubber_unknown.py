"""A rubber that nobody knows."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.rubber import RubberError, family
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import shortened

SEVERITY = Severity.WARNING
WHAT = "The material of a groove's ring is no known family of rubber."
WHY = "Whether it bears its lubricant and its stretch cannot be told, and the bag says something else."
WRONG = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "NRB"
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
        try:
            family(groove.material)
        except RubberError as error:
            meant = str(error).rstrip("?").partition("; did you mean ")[2]
            yield subject.finding(
                "rubber-unknown",
                SEVERITY,
                groove,
                ("material",),
                f'"{shortened(groove.material)}" is no rubber that is known here.',
                f"Write the short name on the bag, such as {meant or 'NBR, FKM or EPDM'}.",
            )
