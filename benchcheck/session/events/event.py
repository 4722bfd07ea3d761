"""What every event holds, and the way into a record's table and back.

Events are flat: scalars and tuples of scalars, so that each is one sealed `[[event]]` table. They say
what was done and seen, in the words of the act it belongs to; what follows from them is worked out by the
fold. The kinds are in the modules beside this one.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar

KINDS: dict[str, type[Event]] = {}
"""Each kind by its name, in the order in which the manual tells them."""


class UnknownEvent(ValueError):
    """A record holds an event this program does not know, or one with the wrong fields."""


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
    known = {field.name for field in dataclasses.fields(kind)}
    if unknown := set(values) - known:
        raise UnknownEvent(
            f"event {table.get('number')} has the key {min(unknown)!r}, which is not known here"
        )
    try:
        return kind(**values)
    except TypeError:
        raise UnknownEvent(f"event {table.get('number')} ({kind.kind}) lacks one of its keys") from None


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
