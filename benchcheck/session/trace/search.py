"""A search over many records: which pumps are touched, how each stands now, and what could not be searched.

Where a pump was on the bench again later, what an earlier record put into it may be out since: the later
record says so.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from benchcheck.session.arrival import same_serial
from benchcheck.session.closing import WITHOUT_RELEASE
from benchcheck.session.state import Registers
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.uses import Undone, Use, takes_apart, uses
from benchcheck.session.trace.wanted import Wanted

_ABOUT_ANOTHER_PUMP = ("opened by mistake", "wrong serial")
assert set(_ABOUT_ANOTHER_PUMP) <= set(WITHOUT_RELEASE)


class Standing(StrEnum):
    """How a touched pump stands, the worst first."""

    OUTSIDE = "outside the limits"
    """A screw as it is now, or a reading that stands, is outside its limits."""
    NOT_KNOWN = "limits not known"
    """A screw as it is now, or a reading that stands, has no limits that it can be held against."""
    TOUCHED = "touched"
    IN_THE_PUMP = "in the pump"
    INSIDE = "inside the limits"
    READ_ANEW = "read anew"
    """Of a gauge: every reading was taken back."""
    NOT_IN_THE_PUMP = "not in the pump"
    """Every use was taken back, or another tightening followed."""


@dataclass(frozen=True)
class Touched:
    """A record with what is searched for in it."""

    past: Past
    uses: tuple[Use, ...]
    wanted: Wanted

    @property
    def standing(self) -> Standing:
        if self.wanted.kind not in ("instrument", "lot"):
            return Standing.TOUCHED
        inside = [use for use in self.uses if is_in_the_pump(use)]
        only_read = all(use.reading is not None for use in self.uses)
        if not inside:
            return Standing.READ_ANEW if only_read else Standing.NOT_IN_THE_PUMP
        if self.wanted.error is None:
            return Standing.TOUCHED if only_read else Standing.IN_THE_PUMP
        if any(use.recalibrated is not None and use.recalibrated.beyond for use in inside):
            return Standing.OUTSIDE
        if any(use.recalibrated is None for use in inside):
            return Standing.NOT_KNOWN
        return Standing.INSIDE


def is_in_the_pump(use: Use) -> bool:
    """Whether a use still counts: not taken back, and of a tightening, the last that its position had."""
    return use.undone is None and (use.tightening is None or use.tightening.is_last_word)


@dataclass(frozen=True, slots=True)
class Gap:
    """A record, or the end of one, that was not searched."""

    file: str
    serial: str
    """Empty where not even the header can be read."""
    beyond: int
    """Events up to this one were searched; 0: none was."""
    why: str
    damaged: bool = True
    """False where the record may be sound, and cannot be read here."""


@dataclass(frozen=True)
class Trace:
    """What a search found."""

    wanted: Wanted
    on: datetime
    """When it was made."""
    records: int
    """How many records there are, those that could not be searched too."""
    touched: tuple[Touched, ...]
    gaps: tuple[Gap, ...]
    by_index: bool = False
    """Whether an index said which records are to be opened, instead of the records themselves."""
    misspelt: bool = False
    """Whether nothing is known by that name: neither a record nor a register has it."""
    like: tuple[str, ...] = ()
    """Names that are like one that is not known."""
    not_reached: int = 0
    """Records that were to be looked into, and were not because the search was stopped."""

    def standing(self, standing: Standing) -> tuple[Touched, ...]:
        return tuple(each for each in self.touched if each.standing is standing)


def touched(past: Past, wanted: Wanted, registers: Registers) -> Touched | None:
    """What a record has of what is searched for; None if nothing."""
    found = uses(past, wanted, registers)
    return None if found is None else Touched(past, found, wanted)


def with_later_records(found: Iterable[Touched], pasts: Iterable[Past]) -> tuple[Touched, ...]:
    """The same, with what was taken apart in later records of the same pumps; worst first, then by serial."""
    others = [past for past in pasts if past.outcome not in _ABOUT_ANOTHER_PUMP]
    whole = [replace(each, uses=tuple(_later(each.past, use, others) for use in each.uses)) for each in found]
    order = list(Standing)
    return tuple(
        sorted(
            whole,
            key=lambda each: (
                order.index(each.standing),
                each.past.header.practice,
                each.past.header.serial,
                each.past.opened,
            ),
        )
    )


def _later(past: Past, use: Use, others: Iterable[Past]) -> Use:
    if use.undone is not None:
        return use
    for other in sorted((each for each in others if _is_later(past, each)), key=lambda each: each.opened):
        for event in other.events:
            if takes_apart(use.event, event):
                return replace(use, undone=Undone(event, other.file))
    return use


def _is_later(past: Past, other: Past) -> bool:
    """Whether a record is of the same pump, by the same procedure, opened later."""
    return (
        other.file != past.file
        and same_serial(other.header.serial, past.header.serial)
        and other.header.procedure == past.header.procedure
        and other.header.practice == past.header.practice
        and other.opened > past.opened
    )
