"""The times of a pump that must pass, or must not: cures, second passes, and the clocks a file names.

Rules only, as the file gives them: when a clock was started and whether it is over is for the session.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from benchcheck.assembly.pump import Pump
from benchcheck.mechanics.units import Quantity


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
    second_pass: bool = False
    """Whether it is the time after which a group is gone over once more."""


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
                because="a gasket settles under its screws",
                second_pass=True,
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
