"""Limits between which nothing lies."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.table import Table

SEVERITY = Severity.ERROR
WHAT = "A least value is above its most."
WHY = "No reading is ever good, or the bench takes every one for bad; mostly the two were exchanged."
WRONG = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "diameter at the seal", min = "25.00 mm", max = "24.98 mm" }]
"""
RIGHT = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "diameter at the seal", min = "24.98 mm", max = "25.00 mm" }]
"""


Limits = tuple[Table, tuple[str | int, ...], Quantity, Quantity]
"""A table, the keys of the least value, the least and the most."""


def check(subject: Subject) -> Iterator[Finding]:
    for table, keys, least, most in _limits(subject.file):
        if least.kind == most.kind and least.si > most.si:
            yield subject.finding(
                "limits-reversed",
                SEVERITY,
                table,
                keys,
                f"The least, {least}, is above the most, {most}.",
                f'Write the smaller one first: "{most}" and "{least}".',
            )


def _limits(file: Procedure) -> Iterator[Limits]:
    for step in file.step:
        for ask in step.ask:
            if ask.min is not None and ask.max is not None:
                yield ask, ("min",), ask.min, ask.max
            if ask.as_new is not None:
                yield ask, ("as_new", 0), *ask.as_new
            for variant, (least, most) in ask.proves.items():
                yield ask, ("proves", variant, 0), least, most
    for group in file.fasteners:
        if group.prevailing is not None:
            yield group.prevailing, ("min",), group.prevailing.min, group.prevailing.max
    for clock in file.clock:
        if clock.least is not None and clock.most is not None:
            yield clock, ("least",), clock.least, clock.most
