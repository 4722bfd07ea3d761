"""What stands out in one session, heaviest first, each with the event it leads to.

A kind of remark is a module of `session/standing_out`, found by being there: its name with blanks is the
kind's name. It has `WHY` (one sentence with its source), and `look(course)`, which yields remarks. A remark
is a reason to look or to ask, never a verdict. Which sessions there are is for the store.
"""

from __future__ import annotations

import pkgutil
from collections.abc import Iterable, Iterator
from datetime import date
from enum import IntEnum
from functools import cache
from importlib import import_module
from typing import NamedTuple, Protocol, cast

from benchcheck.session import standing_out
from benchcheck.session.course import Course, Shown
from benchcheck.session.events import Event
from benchcheck.session.state import State


class Weight(IntEnum):
    """How far up a remark puts its session."""

    ODD = 1
    """Unusual: a reason to ask."""
    DEPARTS = 2
    """Not as the procedure has it, and mended or decided on: to be read."""
    OPEN = 3
    """Cannot be accepted as it stands."""
    BROKEN = 4
    """The record itself does not hold."""


class Remark(NamedTuple):
    """One thing that stands out."""

    kind: str
    """Stable: the name of the module it comes from, with blanks; "damaged" for one that the store makes."""
    weight: Weight
    sentence: str
    event: int | None = None
    """The event it leads to; None where it is about the whole record."""


class Kind(Protocol):
    """What each module of `session/standing_out` offers."""

    WHY: str

    def look(self, course: Course) -> Iterator[Remark]: ...


DAMAGED = "damaged"
"""The kind of a remark on a record whose bytes contradict its seals; only the store can see that."""


@cache
def kinds() -> tuple[str, ...]:
    """The names of all kinds that are found in events."""
    found = (each.name for each in pkgutil.iter_modules(standing_out.__path__))
    return tuple(sorted(name.replace("_", " ") for name in found))


@cache
def kind(name: str) -> Kind:
    """Raises KeyError for a name that no kind has."""
    if name not in kinds():
        raise KeyError(name)
    return cast(Kind, import_module(f"benchcheck.session.standing_out.{name.replace(' ', '_')}"))


def remarks(
    state: State,
    events: tuple[Event, ...],
    *,
    today: date | None = None,
    earlier: tuple[Shown, ...] = (),
    damage: tuple[int, str] | None = None,
) -> tuple[Remark, ...]:
    """What stands out in a session, heaviest first; among equals, in the order of its events.

    Parameters: what the events add up to, and the events; the day of the look, without which nothing is said
    that a later day (or a newer register of instruments) would change; what wrenches showed on earlier pumps;
    the event at which damage begins, and the sentence on it.
    """
    course = Course(state, events, today, earlier)
    found = [remark for name in kinds() for remark in kind(name).look(course)]
    if damage is not None:
        found.append(damaged(*damage))
    return heaviest_first(found)


def damaged(event: int, sentence: str) -> Remark:
    """The remark on a record that contradicts its seals, or what is known of them."""
    return Remark(DAMAGED, Weight.BROKEN, sentence, event)


def heaviest_first(found: Iterable[Remark]) -> tuple[Remark, ...]:
    """Remarks in the order in which a person should read them."""
    given = tuple(found)
    if len(given) < 2:  # so it is with most records of a long list
        return given
    return tuple(sorted(given, key=lambda each: (-each.weight, each.event or 0, each.kind)))
