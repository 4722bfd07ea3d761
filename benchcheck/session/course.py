"""A session as a reviewer looks at it: what was done, in order, and which of the tightenings still stand.

The state says how things stand at the end; what was undone on the way is only in the events. What stands out
in them is for `remarks`, how it is laid out for the reports.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cached_property
from typing import TypeVar
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from benchcheck.session import events as happened
from benchcheck.session.events import Event
from benchcheck.session.state import State, moment

E = TypeVar("E", bound=Event)


@dataclass(frozen=True, slots=True)
class Round:
    """One round of a group, as it was done with one wrench; in the order in which it was done."""

    group: str
    number: int
    run: int
    """Which tightening of the group it belongs to, from 1; each loosening begins another."""
    tightened: tuple[happened.PositionTightened, ...]
    stands: bool
    """Whether the group was not loosened since."""

    @property
    def shown(self) -> tuple[happened.PositionTightened, ...]:
        """The readings of a wrench that indicates; a setting wrench only clicks."""
        return tuple(each for each in self.tightened if each.how == "showed")


@dataclass(frozen=True, slots=True)
class Shown:
    """What an indicating wrench showed at each position in one round; to be compared with other pumps."""

    where: str
    """On which tightening, in words: "pump 4471", "tightening 1 of the same screws"."""
    group: str
    round: int
    unit: str
    values: tuple[float, ...]
    """Position by position, from 1; all positions of the group."""


@dataclass(frozen=True)
class Course:
    """A session: its state, and the events that add up to it."""

    state: State
    events: tuple[Event, ...]
    today: date | None = None
    """The day of the look; None: only what holds on every day is looked for."""
    earlier: tuple[Shown, ...] = field(default=())
    """What wrenches showed on the pumps before this one."""

    def of(self, kind: type[E]) -> Iterator[E]:
        """The events of a kind, in order."""
        return (each for each in self.events if isinstance(each, kind))

    def at(self, number: int) -> Event | None:
        """An event by its number."""
        return self.events[number - 1] if 0 < number <= len(self.events) else None

    def day(self, event: Event) -> date:
        """The day on which something happened, by the clock of its bench."""
        return _on_its_clock(moment(event.at), self.state.header.time_zone).date()

    @cached_property
    def rounds(self) -> tuple[Round, ...]:
        """Every round of every group, in the order in which they were begun.

        A position that was done again in the same round counts as it was done last; what was corrected does
        not count.
        """
        corrected = {each.event for each in self.of(happened.Corrected)}
        run: dict[str, int] = {}
        done: dict[tuple[str, int, int], list[happened.PositionTightened]] = {}
        for event in self.events:
            match event:
                case happened.GroupStarted() | happened.GroupLoosened():
                    run[event.group] = run.get(event.group, 0) + 1
                case happened.PositionTightened() if event.number not in corrected:
                    same = done.setdefault((event.group, event.round, run.setdefault(event.group, 0)), [])
                    same[:] = [each for each in same if each.position != event.position] + [event]
        numbers = {group: sorted({each for of, _, each in done if of == group}) for group in run}
        return tuple(
            Round(group, number, numbers[group].index(each) + 1, tuple(same), each == run[group])
            for (group, number, each), same in done.items()
        )

    def shown(self, *, stands: bool = True) -> tuple[Shown, ...]:
        """The complete rounds of indicating wrenches, those that stand or those that were undone."""
        serial = self.state.header.serial
        return tuple(
            Shown(
                f"pump {serial}" if stands else f"tightening {each.run} of the same screws",
                each.group,
                each.number,
                each.shown[0].unit,
                tuple(reading.value for reading in sorted(each.shown, key=lambda each: each.position)),
            )
            for each in self.rounds
            if each.stands is stands and each.shown
            if len(each.shown) == self.state.pump.groups[each.group].count
            if len({reading.unit for reading in each.shown}) == 1
        )


def _on_its_clock(time: datetime, zone: str) -> datetime:
    """A time on the clock of its bench; as it was written where this system does not know the zone."""
    try:
        return time.astimezone(ZoneInfo(zone))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return time
