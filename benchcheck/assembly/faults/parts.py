"""A part is missing, reversed, turned, elsewhere, not home, or another piece than it should be."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from benchcheck.assembly.faults.fault import Fault, seated, with_seats, without
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly, Seat


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut(Fault):
    """A part, ring or group of screws is never taken in hand; where only a yes is asked, yes is said."""

    kind: ClassVar[str] = "left out"

    def words(self, pump: Pump) -> str:
        return f"{pump.in_hand(self.thing)} left out"

    def true(self, now: Assembly) -> Assembly:
        return without(now, self.thing)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOver(Fault):
    """A part or ring was in hand and seen, and yet is not in its place: it lies on the mat, or fell out."""

    kind: ClassVar[str] = "left over"

    def words(self, pump: Pump) -> str:
        return f"{pump.in_hand(self.thing)} recorded as in, and not there"

    def true(self, now: Assembly) -> Assembly:
        return without(now, self.thing)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reversed(Fault):
    """A part, or a part and what carries it, went in the other way round."""

    kind: ClassVar[str] = "reversed"
    carrier: str = ""

    @property
    def parts(self) -> tuple[str, ...]:
        return (self.thing, self.carrier) if self.carrier else (self.thing,)

    def words(self, pump: Pump) -> str:
        return f"{' and '.join(pump.the(part) for part in self.parts)} the other way round"

    def true(self, now: Assembly) -> Assembly:
        return with_seats(
            now, {part: replace(seat, turn=-seat.turn) for part, seat in seated(now, self.parts)}
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherEnd(Fault):
    """A part went into a like seat at the other end of its body."""

    kind: ClassVar[str] = "other end"
    end: str

    def words(self, pump: Pump) -> str:
        body = pump.the(pump.parts[self.thing].into or "")
        return f"{pump.the(self.thing)} goes in from the {self.end} of {body}"

    def true(self, now: Assembly) -> Assembly:
        turn = now.pump.turn(self.thing, self.end, now.pump.planned_seen.get(self.thing, ""))
        moved = {part: replace(seat, end=self.end, turn=turn) for part, seat in seated(now, (self.thing,))}
        return with_seats(now, moved)


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned(Fault):
    """A part that goes on in several ways stands turned about its axis."""

    kind: ClassVar[str] = "turned"
    degree: int
    own: str
    """The mark that should stand over another."""
    mark: str
    """The mark that stands there instead; empty for none."""

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} turned by {self.degree}°"

    def true(self, now: Assembly) -> Assembly:
        turned = {
            part: replace(seat, angle=(seat.angle + self.degree) % 360)
            for part, seat in seated(now, (self.thing,))
            if seat.angle is not None
        }
        return with_seats(now, turned)


@dataclass(frozen=True, slots=True, kw_only=True)
class NotHome(Fault):
    """A pressed or heated part does not reach its seat."""

    kind: ClassVar[str] = "not home"

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} does not reach its seat"


@dataclass(frozen=True, slots=True, kw_only=True)
class LikeExchanged(Fault):
    """Two parts of one item change places: the same piece of stores, so the pump is the same."""

    kind: ClassVar[str] = "like parts exchanged"
    other: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} and {pump.the(self.other)} change places"

    def harms(self, pump: Pump) -> bool:
        return False


@dataclass(frozen=True, slots=True, kw_only=True)
class OldForNew(Fault):
    """A used up piece is kept out of the scrap tray and fitted again; the new one is left over."""

    kind: ClassVar[str] = "old for new"

    def words(self, pump: Pump) -> str:
        return f"{pump.in_hand(self.thing)}: the old one goes in again"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolLeftInside(Fault):
    """A temporary tool is recorded as out, and is still in."""

    kind: ClassVar[str] = "tool left inside"
    seat: Seat
    """Where it sits; the record no longer knows."""

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} is still inside"

    def true(self, now: Assembly) -> Assembly:
        return now if self.thing in now.seated else with_seats(now, {self.thing: self.seat})
