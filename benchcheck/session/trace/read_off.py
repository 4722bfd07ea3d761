"""Every reading of a record that names its instrument, between which limits, and what became of it.

Worked out from the events alone, as `tightenings` are. A reading is taken back when it was corrected, or read
anew at the same place. What an instrument that was wrong should have shown is in `recalibrated_reading`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchcheck.assembly.acts import Verb
from benchcheck.mechanics.calibration import true_value
from benchcheck.mechanics.units import Quantity, QuantityError
from benchcheck.session import events as happened
from benchcheck.session.events import Event, Measured
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.tightenings import Recalibrated

Limits = tuple[Quantity | None, Quantity | None]


@dataclass(frozen=True, slots=True)
class ReadOff:
    """One reading."""

    event: Measured
    low: float | None
    high: float | None
    """Its limits, in the unit that was read; None: none on that side."""
    undone: Event | None
    """What took it back: it was corrected, or read anew."""

    def beyond(self, value: float) -> float:
        """How far a value lies outside: below zero under the lower limit, above zero over the upper one."""
        room = 1e-9 * max(abs(each) for each in (value, self.low or 0.0, self.high or 0.0))
        if self.low is not None and value < self.low - room:
            return value - self.low
        return value - self.high if self.high is not None and value > self.high + room else 0.0


def read_off(past: Past) -> Iterator[ReadOff]:
    """The readings of a record that name their instrument, in their order."""
    for event in past.of(Measured):
        if event.instrument:
            low, high = (
                limit.to(event.unit) if limit is not None else None for limit in _limits(past, event)
            )
            yield ReadOff(event, low, high, _taken_back(past, event))


def _limits(past: Past, event: Measured) -> Limits:
    """As the text that was followed then has them."""
    act = past.act(event)
    if act is not None and act.verb is Verb.ASK:
        question = act.question
        return question.proves.get(event.verdict, (question.min, question.max))
    if act is not None and act.verb is Verb.TIGHTEN:
        group = past.job_at(event).pump(past.variant).groups[act.target]
        if group.prevailing is not None:
            return group.prevailing.min, group.prevailing.max
    return None, None


def _taken_back(past: Past, event: Measured) -> Event | None:
    for later in past.events[event.number :]:
        match later:
            case happened.Corrected(event=number) if number == event.number:
                return later
            case Measured(act=event.act, place=event.place):
                return later
    return None


def recalibrated_reading(reading: ReadOff, error: Quantity) -> Recalibrated | None:
    """A reading worked out again for an instrument that showed so much more than there was.

    None where it has no limits to be held against, and for an error of another kind than the reading.
    """
    if reading.low is None and reading.high is None:
        return None
    try:
        true = true_value(reading.event.value, reading.event.unit, error)
    except QuantityError:
        return None
    return Recalibrated(true, reading.beyond(true))
