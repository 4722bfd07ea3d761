"""A unit that is none."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import QuantityError, parse
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import shortened

SEVERITY = Severity.ERROR
WHAT = "A question is to be answered in a unit that is not known."
WHY = "At the bench no answer would be taken, or one without meaning."
WRONG = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "runout at the seal track", unit = "furlong" }]
"""
RIGHT = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "runout at the seal track", unit = "in" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            if ask.unit is None:
                continue
            try:
                parse(f"1 {ask.unit}")
            except QuantityError as error:
                meant = str(error).rstrip("?").partition("; did you mean ")[2]
                yield subject.finding(
                    "unit-unknown",
                    SEVERITY,
                    ask,
                    ("unit",),
                    f'"{shortened(ask.unit)}" is no unit that is known here.',
                    f"Write one such as {meant or 'mm, in, bar, psi, min or turns'}.",
                )
