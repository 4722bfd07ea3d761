"""What every event holds, and the way into a record's table and back.

Events are flat: scalars and tuples of scalars, so that each is one sealed `[[event]]` table. They say
what was done and seen, in the words of the act it belongs to; what follows from them is worked out by the
fold. The kinds are in the modules beside this one.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, ClassVar, NamedTuple

KINDS: dict[str, type[Event]] = {}
"""Each kind by its name, in the order in which the manual tells them."""


_TYPES: dict[str, tuple[type, ...]] = {"str": (str,), "int": (int,), "float": (float, int), "bool": (bool,)}
"""What a record may hold in a field, by the name of its type; a whole number is written without a point."""


class UnknownEvent(ValueError):
    """A record holds an event this program cannot make sense of: its kind, a field, or where it stands."""


@dataclass(frozen=True, kw_only=True)
class Event:
    """What every event holds. Number, time and person are put on as it is written."""

    kind: ClassVar[str] = ""
    number: int = 0
    at: str = ""
    """RFC 3339 with offset."""
    by: str = ""
    """The person signed on."""

    def __init_subclass__(cls, **keywords: object) -> None:
        super().__init_subclass__(**keywords)
        if cls.kind:
            assert cls.kind not in KINDS, cls.kind
            KINDS[cls.kind] = cls

    def as_table(self) -> dict[str, Any]:
        """The event as it goes into the record."""
        table: dict[str, Any] = {"number": self.number, "kind": self.kind, "at": self.at, "by": self.by}
        for field in dataclasses.fields(self):
            if field.name not in table:
                value = getattr(self, field.name)
                table[field.name] = list(value) if isinstance(value, tuple) else value
        return table


def from_table(table: Mapping[str, Any]) -> Event:
    """An event out of a record. Raises UnknownEvent."""
    kind = KINDS.get(str(table.get("kind")))
    if kind is None:
        raise UnknownEvent(
            f"event {table.get('number')} is of the kind {table.get('kind')!r}, which is not known here"
        )
    values: dict[str, Any] = {
        key: tuple(value) if isinstance(value, list) else value
        for key, value in table.items()
        if key != "kind"
    }
    holds = _holds(kind.kind)
    for key, value in values.items():
        if key not in holds:
            raise UnknownEvent(f"event {table.get('number')} has the key {key!r}, which is not known here")
        if not holds[key].fits(value):
            raise UnknownEvent(f"event {table.get('number')} ({kind.kind}) cannot hold {value!r} as {key!r}")
    try:
        return kind(**values)
    except TypeError:
        raise UnknownEvent(f"event {table.get('number')} ({kind.kind}) lacks one of its keys") from None


class _Holds(NamedTuple):
    """What a field may hold: one value of these types, or several."""

    types: tuple[type, ...]
    several: bool

    def fits(self, value: object) -> bool:
        if self.several:
            return type(value) is tuple and all(type(each) in self.types for each in value)
        return type(value) in self.types


@cache
def _holds(name: str) -> dict[str, _Holds]:
    each = {field.name: str(field.type) for field in dataclasses.fields(KINDS[name])}
    return {
        name: _Holds(
            _TYPES[written.removeprefix("tuple[").removesuffix(", ...]")], written.startswith("tuple")
        )
        for name, written in each.items()
    }


@dataclass(frozen=True, kw_only=True)
class ActEvent(Event):
    """An event that belongs to an act; `done` says that it completes the act."""

    act: str
    done: bool = False


def stamped(events: tuple[Event, ...], *, after: int, at: str, by: str) -> tuple[Event, ...]:
    """The events with number, time and person put on."""
    return tuple(
        dataclasses.replace(event, number=after + place, at=at, by=event.by or by)
        for place, event in enumerate(events, 1)
    )
