"""What every fault has: the act in which it is made, its words, and the assembly as it really is.

At the end, how an assembly is told with other seats or rings than the record has.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly, Ring, Seat


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault, made in one act."""

    kind: ClassVar[str] = ""
    act: str
    """The act in which it is made, as records name it."""
    thing: str = ""
    """The part, groove or group it is about: once that is covered, it is too late to see the fault."""

    def words(self, pump: Pump) -> str:
        """What is wrong, for a person."""
        raise NotImplementedError

    def true(self, now: Assembly) -> Assembly:
        """The assembly as it really is, where the record has `now`."""
        return now

    def harms(self, pump: Pump) -> bool:
        """Whether the pump is worse for it if nobody sees it."""
        return True


def seated(now: Assembly, parts: Iterable[str]) -> Iterator[tuple[str, Seat]]:
    """Those of the parts that the record has in, with their seats."""
    return ((part, now.seated[part]) for part in parts if part in now.seated)


def with_seats(now: Assembly, seats: Mapping[str, Seat]) -> Assembly:
    """The assembly with these seats in place of the record's."""
    return replace(now, seated={**now.seated, **seats}) if seats else now


def with_rings(now: Assembly, rings: Mapping[str, tuple[Ring, ...]]) -> Assembly:
    """The assembly with these rings in their grooves in place of the record's."""
    changed = {groove: held for groove, held in rings.items() if held != now.sealed.get(groove, ())}
    return replace(now, sealed={**now.sealed, **changed}) if changed else now


def without(now: Assembly, thing: str) -> Assembly:
    """The assembly without a part, or without the rings of a groove."""
    if thing in now.sealed:
        return with_rings(now, {thing: ()})
    if thing not in now.seated:
        return now
    return replace(now, seated={part: seat for part, seat in now.seated.items() if part != thing})
