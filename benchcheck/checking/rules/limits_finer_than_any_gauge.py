"""Limits of a reading that no gauge of the shop can tell apart."""

from __future__ import annotations

import math
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Ask
from benchcheck.procedure.registers import GaugeEntry

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

_SLACK = 1e-9


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            limits = [limit for limit in (ask.min, ask.max) if limit is not None]
            gauges = [gauge for gauge in subject.gauges if _is_meant(gauge, ask)]
            gauges = [gauge for gauge in gauges if gauge.range and _measures(gauge.range[0], limits)]
            if not limits or not gauges:
                continue
            reasons = [_why_not(gauge, ask.min, ask.max) for gauge in gauges]
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


def _is_meant(gauge: GaugeEntry, ask: Ask) -> bool:
    """Whether a question is to be answered with this kind of gauge."""
    return ask.with_ is not None and gauge.kind.casefold() in ask.with_.casefold()


def _measures(end: Quantity, limits: list[Quantity]) -> bool:
    return all(limit.kind == end.kind for limit in limits)


def _why_not(gauge: GaugeEntry, least: Quantity | None, most: Quantity | None) -> str | None:
    """Why a gauge cannot tell what is between limits from what is not; None if it can."""
    assert gauge.range is not None
    start, end = (limit.si for limit in gauge.range)
    low = least.si if least is not None else None
    high = most.si if most is not None else None
    if any(limit is not None and not start - _SLACK <= limit <= end * (1 + _SLACK) for limit in (low, high)):
        return f"reads from {gauge.range[0]} to {gauge.range[1]}"
    if gauge.graduation is not None and _between_marks(gauge.graduation.si, low, high):
        return f"has a mark every {gauge.graduation}"
    error = _error(gauge)
    if error is not None and low is not None and high is not None and (high - low) / 2 < error * (1 - _SLACK):
        return f"may be off by {gauge.accuracy}" + (" of its range" if "%" in str(gauge.accuracy) else "")
    return None


def _between_marks(step: float, low: float | None, high: float | None) -> bool:
    """Whether no mark lies inside: of one limit alone, whether it lies below the first mark above nothing."""
    if low is not None and high is not None:
        return math.ceil(low / step - _SLACK) > math.floor(high / step + _SLACK)
    return high is not None and 0 < high < step * (1 - _SLACK)


def _error(gauge: GaugeEntry) -> float | None:
    """How far a gauge may be off [base unit]; a share is one of the end of its range."""
    if gauge.accuracy is None or gauge.range is None:
        return None
    if gauge.accuracy.kind == "share":
        return gauge.accuracy.si * gauge.range[1].si
    return gauge.accuracy.si if gauge.accuracy.kind == gauge.range[0].kind else None
