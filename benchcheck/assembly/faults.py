"""The single faults that the model of a pump can express: one thing wrong, all else done with care.

Pure. A fault says in which act it is made and, where the pump itself differs by it, how: `true` turns the
assembly that the record has into the one on the bench. Which there are is in `every_fault.py`; what a person
then sees, and whether the procedure catches it, is worked out by the session.
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


# ---------------------------------------------------------------------- parts


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut(Fault):
    """A part, ring or group of screws is never taken in hand; where only a yes is asked, yes is said."""

    kind: ClassVar[str] = "left out"

    def words(self, pump: Pump) -> str:
        return f"{_called(pump, self.thing)} left out"

    def true(self, now: Assembly) -> Assembly:
        return _without(now, self.thing)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOver(Fault):
    """A part or ring was in hand and seen, and yet is not in its place: it lies on the mat, or fell out."""

    kind: ClassVar[str] = "left over"

    def words(self, pump: Pump) -> str:
        return f"{_called(pump, self.thing)} recorded as in, and not there"

    def true(self, now: Assembly) -> Assembly:
        return _without(now, self.thing)


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
        return _seats(now, {part: replace(seat, turn=-seat.turn) for part, seat in _seated(now, self.parts)})


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
        moved = {part: replace(seat, end=self.end, turn=turn) for part, seat in _seated(now, (self.thing,))}
        return _seats(now, moved)


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
            for part, seat in _seated(now, (self.thing,))
            if seat.angle is not None
        }
        return _seats(now, turned)


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
        return f"{_called(pump, self.thing)}: the old one goes in again"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToolLeftInside(Fault):
    """A temporary tool is recorded as out, and is still in."""

    kind: ClassVar[str] = "tool left inside"
    seat: Seat
    """Where it sits; the record no longer knows."""

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} is still inside"

    def true(self, now: Assembly) -> Assembly:
        return now if self.thing in now.seated else _seats(now, {self.thing: self.seat})


# ---------------------------------------------------------------------- rings and screws


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherRing(Fault):
    """A ring of another size or rubber goes into a groove."""

    kind: ClassVar[str] = "another ring"
    size: str
    material: str

    def words(self, pump: Pump) -> str:
        return f"a {self.size}, {self.material}, in {self.thing}"

    def true(self, now: Assembly) -> Assembly:
        rings = now.sealed.get(self.thing, ())
        wrong = tuple(replace(ring, size=self.size, material=self.material) for ring in rings)
        return _sealed(now, {self.thing: wrong})


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoInOne(Fault):
    """Two rings lie in one groove and none in its neighbour; the count is right."""

    kind: ClassVar[str] = "two rings in one groove"
    full: str

    def words(self, pump: Pump) -> str:
        return f"two rings in {self.full}, none in {self.thing}"

    def true(self, now: Assembly) -> Assembly:
        both = (*now.sealed.get(self.full, ()), *now.sealed.get(self.thing, ()))
        return _sealed(now, {self.full: both, self.thing: ()})


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherScrew(Fault):
    """Screws of another length go in."""

    kind: ClassVar[str] = "another screw"
    number: int
    """Which line of the group's screws."""
    item: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: {self.item} instead of {screws_of(pump, self.thing)[self.number]}"


def screws_of(pump: Pump, group: str) -> tuple[str, ...]:
    """What goes into a group in this variant, line by line."""
    return tuple(
        each.item for each in pump.groups[group].screws if not each.for_ or pump.variant in each.for_
    )


# ---------------------------------------------------------------------- tightening


@dataclass(frozen=True, slots=True, kw_only=True)
class InRound(Fault):
    """A fault in one round of a group."""

    round: int

    def harms(self, pump: Pump) -> bool:
        """An earlier round is made good by the next, the last one by the pass after it, if there is one."""
        group = pump.groups[self.thing]
        return self.is_last(pump) and (group.angle is not None or not group.has_pass)

    def is_last(self, pump: Pump) -> bool:
        """Whether it is the round that the pass after it looks at."""
        return self.round >= max(1, len(pump.groups[self.thing].rounds))


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionSkipped(InRound):
    """A position never gets its pull in a round: another one got it twice, and nobody noticed."""

    kind: ClassVar[str] = "position skipped"
    position: int

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: position {self.position} skipped in round {self.round}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundLeftOut(InRound):
    """A round is passed over: its positions get the torque of its neighbour."""

    kind: ClassVar[str] = "round left out"
    instead: int
    """The round whose torque they get."""

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: round {self.round} at the torque of round {self.instead}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionOutOfTurn(Fault):
    """Another position than the one that is due is pulled, and named."""

    kind: ClassVar[str] = "position out of turn"
    round: int
    position: int
    """The one pulled."""
    due: int

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}, round {self.round}: position {self.position} where {self.due} is due"


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueReading(Fault):
    """A wrench shows so many times what is wanted: pulled short, pulled too far, or read in another unit."""

    kind: ClassVar[str] = "torque reading"
    round: int
    factor: float
    because: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}, round {self.round}: {self.because}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningTorque(Fault):
    """A locking nut turns too easily or too hard, or was on its seat already when it was read."""

    kind: ClassVar[str] = "running torque"
    answer: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: running torque {self.answer}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnSkipped(Fault):
    """A position is never turned on by its angle: another one was turned twice, and nobody noticed."""

    kind: ClassVar[str] = "turn skipped"
    position: int

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: position {self.position} not turned on"


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnReading(Fault):
    """A position is turned on by so many times its angle."""

    kind: ClassVar[str] = "turn"
    factor: float
    because: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: {self.because}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherWrench(Fault):
    """Some wrench of the shop is taken, fit or not."""

    kind: ClassVar[str] = "unfit wrench"
    wrench: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} with {self.wrench}"


# ---------------------------------------------------------------------- order, time, facts


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfOrder(Fault):
    """An act is put off, and one that comes after it is done first."""

    kind: ClassVar[str] = "order"
    first: str
    """The act that is done before its time."""

    def words(self, pump: Pump) -> str:
        return f"{self.first} before {self.act}"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutShort(Fault):
    """A time that has to pass is not waited for: a clock, or the hold of a reading."""

    kind: ClassVar[str] = "time cut short"
    clock: str = ""

    def words(self, pump: Pump) -> str:
        return f"{self.clock or self.act} not waited for to the end"


@dataclass(frozen=True, slots=True, kw_only=True)
class TooLate(Fault):
    """A time that must not pass has passed."""

    kind: ClassVar[str] = "time overrun"
    clock: str

    def words(self, pump: Pump) -> str:
        return f"{self.clock} overrun"


@dataclass(frozen=True, slots=True, kw_only=True)
class FactOutside(Fault):
    """A reading outside its limits, or an answer that is not one of the good ones."""

    kind: ClassVar[str] = "fact outside"
    answer: str
    what: str

    def words(self, pump: Pump) -> str:
        return f"{self.what}: {self.answer}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherVariant(Fault):
    """The pump is of another variant than its stamp is read as."""

    kind: ClassVar[str] = "another variant"
    variant: str

    def words(self, pump: Pump) -> str:
        return f"it is a {self.variant}, taken for a {pump.variant}"


# ---------------------------------------------------------------------- small things


def _called(pump: Pump, thing: str) -> str:
    return f"the ring of {thing}" if thing in pump.grooves else pump.the(thing)


def _seated(now: Assembly, parts: Iterable[str]) -> Iterator[tuple[str, Seat]]:
    return ((part, now.seated[part]) for part in parts if part in now.seated)


def _seats(now: Assembly, seats: Mapping[str, Seat]) -> Assembly:
    return replace(now, seated={**now.seated, **seats}) if seats else now


def _sealed(now: Assembly, rings: Mapping[str, tuple[Ring, ...]]) -> Assembly:
    changed = {groove: held for groove, held in rings.items() if held != now.sealed.get(groove, ())}
    return replace(now, sealed={**now.sealed, **changed}) if changed else now


def _without(now: Assembly, thing: str) -> Assembly:
    if thing in now.sealed:
        return _sealed(now, {thing: ()})
    if thing not in now.seated:
        return now
    return replace(now, seated={part: seat for part, seat in now.seated.items() if part != thing})
