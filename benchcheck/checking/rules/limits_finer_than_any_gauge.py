"""Limits of a reading that no gauge of the shop can tell apart."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gauge import Gauge, cannot_tell
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Ask

SEVERITY = Severity.WARNING
WHAT = "Limits lie beyond the range, between two marks, or within the error of every gauge that is meant."
WHY = "Whoever reads it has to guess, and guesses well: the number in the record proves nothing."
WRONG = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "99 psi", max = "100 psi", with = "pressure gauge" }]
# the gauge for it has a mark every 2 psi, and is accurate to 2.5 psi
"""
RIGHT = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "97 psi", max = "103 psi", with = "pressure gauge" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            limits = [limit for limit in (ask.min, ask.max) if limit is not None]
            gauges = [gauge for gauge in subject.gauges if _is_meant(gauge, ask)]
            gauges = [gauge for gauge in gauges if gauge.low is not None and _measures(gauge.low, limits)]
            if not limits or not gauges:
                continue
            reasons = [cannot_tell(gauge, ask.min, ask.max) for gauge in gauges]
            if all(reasons):
                why = "; ".join(f"{gauge.id} {reason}" for gauge, reason in zip(gauges, reasons, strict=True))
                yield subject.finding(
                    "limits-finer-than-any-gauge",
                    SEVERITY,
                    ask,
                    ("max" if ask.max is not None else "min",),
                    f"No registered gauge can tell this: {why}.",
                    "Write wider limits if the drawing allows it, or name a tool that can tell it.",
                )


def _is_meant(gauge: Gauge, ask: Ask) -> bool:
    """Whether a question is to be answered with this kind of gauge."""
    if ask.gauge is not None:
        return gauge.is_kind(ask.gauge)
    return ask.with_ is not None and gauge.kind.casefold() in ask.with_.casefold()


def _measures(end: Quantity, limits: list[Quantity]) -> bool:
    return all(limit.kind == end.kind for limit in limits)
