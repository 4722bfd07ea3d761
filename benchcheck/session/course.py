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

    pump: str
    """Serial number of the pump it was on."""
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
        under_way: dict[tuple[str, int], list[happened.PositionTightened]] = {}
        done: list[tuple[tuple[str, int], list[happened.PositionTightened], bool]] = []
        for event in self.events:
            match event:
                case happened.PositionTightened() if event.number not in corrected:
                    key = (event.group, event.round)
                    if key not in under_way:
                        under_way[key] = []
                        done.append((key, under_way[key], True))
                    same = under_way[key]
                    same[:] = [each for each in same if each.position != event.position] + [event]
                case happened.GroupStarted() | happened.GroupLoosened():
                    for key in [key for key in under_way if key[0] == event.group]:
                        undone = under_way.pop(key)
                        done = [(of, same, up and same is not undone) for of, same, up in done]
        return tuple(Round(group, number, tuple(same), up) for (group, number), same, up in done)

    def shown(self, *, stands: bool = True) -> tuple[Shown, ...]:
        """The complete rounds of indicating wrenches, those that stand or those that were undone."""
        return tuple(
            Shown(self.state.header.serial, each.group, each.number, each.shown[0].unit, _in_places(each))
            for each in self.rounds
            if each.stands is stands and each.shown
            if len(each.shown) == self.state.pump.groups[each.group].count
            if len({reading.unit for reading in each.shown}) == 1
        )


def _in_places(done: Round) -> tuple[float, ...]:
    return tuple(each.value for each in sorted(done.shown, key=lambda each: each.position))


def _on_its_clock(time: datetime, zone: str) -> datetime:
    """A time on the clock of its bench; as it was written where this system does not know the zone."""
    try:
        return time.astimezone(ZoneInfo(zone))
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return time
