"""Times that must pass, or must not: cures, second passes, and the clocks a procedure names.

A clock's rule comes from the file; when it was started is in the state. Time of day is handed in; what has
passed is counted between two such times, so a clock goes on while the program does not run.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.pump import Pump
from benchcheck.mechanics.units import Quantity
from benchcheck.session.state import State


@dataclass(frozen=True, slots=True)
class ClockRule:
    """One clock of a procedure."""

    id: str
    called: str
    least: timedelta | None
    most: timedelta | None
    bars: tuple[str, ...]
    """Phases, or steps, that may not begin."""
    group: str = ""
    """The fastener group whose last position starts it."""
    step: str = ""
    """The step whose end starts it."""
    because: str = ""


def _span(duration: Quantity | None) -> timedelta | None:
    return None if duration is None else timedelta(seconds=duration.si)


def _names(bars: str | tuple[str, ...]) -> tuple[str, ...]:
    return (bars,) if isinstance(bars, str) else bars


def clock_rules(pump: Pump) -> Iterator[ClockRule]:
    """Every clock there is: those a group makes, and those the file names."""
    for group in pump.groups.values():
        if group.threadlocker is not None:
            locker = group.threadlocker
            yield ClockRule(
                f"{group.id} cure",
                f"thread-locker, {locker.strength}, on the {group.called}",
                _span(locker.cure),
                None,
                _names(locker.bars),
                group=group.id,
                because="thread-locker that is turned or loaded before it is cured does not hold",
            )
        if group.again is not None:
            yield ClockRule(
                f"{group.id} again",
                f"second pass on the {group.called}",
                _span(group.again.after),
                None,
                _names(group.again.before),
                group=group.id,
            )
    for clock in pump.procedure.clock:
        yield ClockRule(
            clock.id,
            clock.name or clock.id,
            _span(clock.least),
            _span(clock.most),
            _names(clock.bars),
            step=clock.starts,
            because=clock.because or "",
        )


def clock_rule(pump: Pump, name: str) -> ClockRule | None:
    return next((rule for rule in clock_rules(pump) if rule.id == name), None)


def ends(state: State, rule: ClockRule) -> datetime | None:
    """When the clock is over; None while it is not started or has no least time."""
    running = state.clocks.get(rule.id)
    if running is None or rule.least is None:
        return None
    return running.at + rule.least


def running(state: State, now: datetime) -> tuple[tuple[ClockRule, datetime], ...]:
    """The clocks that are not over yet, each with its end."""
    found = []
    for rule in clock_rules(state.pump):
        end = ends(state, rule)
        if end is not None and end > now:
            found.append((rule, end))
    return tuple(found)


def barring(state: State, act: Act, now: datetime) -> tuple[ClockRule, datetime] | None:
    """The clock that forbids an act now, with the time at which it no longer does."""
    if act.verb is Verb.WAIT:
        return None
    for rule, end in running(state, now):
        if act.phase.value in rule.bars or act.step.id in rule.bars:
            return rule, end
    return None


def too_late(state: State, act: Act, now: datetime) -> ClockRule | None:
    """The clock whose most time has passed before this act."""
    for rule in clock_rules(state.pump):
        begun = state.clocks.get(rule.id)
        if begun is None or rule.most is None:
            continue
        if (act.phase.value in rule.bars or act.step.id in rule.bars) and now > begun.at + rule.most:
            return rule
    return None
