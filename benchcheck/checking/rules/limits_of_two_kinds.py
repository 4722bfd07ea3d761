"""Limits that cannot be of one reading."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import Quantity, QuantityError, parse
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Ask

SEVERITY = Severity.ERROR
WHAT = "The limits of one question, or its unit and a limit, measure different things."
WHY = (
    "A length is never between a pressure and a length: no answer can be good, and one of the units is wrong."
)
WRONG = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "runout at the seal track", min = "0 mm", max = "0.05 min" }]
"""
RIGHT = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "runout at the seal track", min = "0 mm", max = "0.05 mm" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            told = list(_told(ask))
            for keys, unit, kind in told[1:]:
                _, first_unit, first_kind = told[0]
                if kind != first_kind:
                    yield subject.finding(
                        "limits-of-two-kinds",
                        SEVERITY,
                        ask,
                        keys,
                        f"`{keys[0]}` is in {unit}, and the question is answered in {first_unit}.",
                        "Write all limits of one question in units of one kind.",
                    )
                    break


def _told(ask: Ask) -> Iterator[tuple[tuple[str | int, ...], str, str]]:
    """Each place where a question tells its unit: keys, unit, and what that measures."""
    if ask.unit is not None:
        with suppress(QuantityError):  # said by the rule on unknown units
            told = parse(f"1 {ask.unit}")
            yield ("unit",), told.unit, told.kind
    for key in ("min", "max", "equal_within"):
        value: Quantity | None = getattr(ask, key)
        if value is not None:
            yield (key,), value.unit, value.kind
    for index, value in enumerate(ask.as_new or ()):
        yield ("as_new", index), value.unit, value.kind
    for variant, pair in ask.proves.items():
        for index, value in enumerate(pair):
            yield ("proves", variant, index), value.unit, value.kind
