"""How long each step of a session took, and how long it takes as a rule.

Only the time at the work counts: a pause, and the wait for a clock, belong to no step. It works on the
events as a record holds them, so that many records can be looked at without knowing what they add up to.
Whether a time is too short to be true is for the remarks.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from statistics import median
from typing import Any

from benchcheck.session.events import WaitOver

Times = Mapping[str, float]
"""Seconds at the work, by step, in the order in which the steps were begun."""

LEAST_RECORDS = 3
"""Fewer records have no rule."""
_FAR = 3.0
"""How many times longer or shorter than usual is worth a look: common practice, a rule of thumb."""


@dataclass(frozen=True, slots=True)
class StepTime:
    """One step beside its usual time."""

    step: str
    seconds: float
    usual_seconds: float | None
    """None where too few records have it."""

    @property
    def odd(self) -> str:
        """In words how it departs from the usual; empty where it does not, or there is none."""
        if not self.usual_seconds:
            return ""
        if self.seconds > _FAR * self.usual_seconds:
            return "long"
        return "short" if self.seconds * _FAR < self.usual_seconds else ""


def step_times(events: Iterable[Mapping[str, Any]]) -> Times:
    """The times of one session, from the tables of its events."""
    found: dict[str, float] = {}
    before: datetime | None = None
    for event in events:
        at = datetime.fromisoformat(event["at"])
        step = str(event.get("act", "")).partition("/")[0]
        if step and before is not None and event["kind"] != WaitOver.kind:
            found[step] = found.get(step, 0.0) + max(0.0, (at - before).total_seconds())
        before = at
    return found


def beside_usual(times: Times, others: Sequence[Times]) -> tuple[StepTime, ...]:
    """Each step with the median of what other sessions by the same procedure took for it."""
    return tuple(StepTime(step, seconds, _usual(step, others)) for step, seconds in times.items())


def _usual(step: str, others: Sequence[Times]) -> float | None:
    known = [times[step] for times in others if step in times]
    return median(known) if len(known) >= LEAST_RECORDS else None
