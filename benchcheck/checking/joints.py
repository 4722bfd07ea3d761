"""Torque against thread and strength, as the rules look at it: sizes of things, and units that would fit.

Rules say what is wrong with a group; what several of them work out stands here. The mechanics themselves are
in `mechanics`, the shares of proof load in `assembly.tightening`.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from functools import lru_cache

from benchcheck.assembly.tightening import shares_of_proof
from benchcheck.mechanics.preload import preload_by_nut_factor
from benchcheck.mechanics.strength import (
    HIGHEST_USUAL_SHARE,
    LOWEST_USUAL_SHARE,
    Strength,
    StrengthError,
    known_grades,
    proof_load_newton,
    strength,
)
from benchcheck.mechanics.tables.nut_factors import SURVEY
from benchcheck.mechanics.thread import Thread, ThreadError, parse_thread
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.model import Fasteners
from benchcheck.procedure.wording import listed

MIXED_UP = ("N·m", "lbf·ft", "lbf·in", "kgf·m", "kgf·cm")
"""Units of torque that are taken for one another: x12, x1.36, x9.8, x10.2."""

LEAST_ON_PURPOSE = 0.10
"""Share of proof load below which a torque hardly seats a screw, even where it is low on purpose. Common
practice."""


def thread_of(group: Fasteners) -> Thread | None:
    """The group's thread; None where none is told or it is not known."""
    return _thread(group.thread) if group.thread is not None else None


@lru_cache(maxsize=256)
def _thread(designation: str) -> Thread | None:
    with suppress(ThreadError):
        return parse_thread(designation)
    return None


def strength_of(group: Fasteners, thread: Thread) -> Strength | None:
    """The group's strength at the diameter of its thread; None where none is told or it is not known."""
    try:
        return strength(group.strength, thread.diameter_millimetre) if group.strength is not None else None
    except StrengthError:
        return None


@dataclass(frozen=True, slots=True)
class Shares:
    """Shares of proof load at the bottom of the tolerance, at the target, and at its top."""

    bottom: float
    target: float
    top: float

    @property
    def usual(self) -> bool:
        return LOWEST_USUAL_SHARE <= self.target <= HIGHEST_USUAL_SHARE and self.top <= 1


def shares_of(group: Fasteners) -> Shares | None:
    """None where torque, thread, strength or nut factor is left out or not known."""
    shares = shares_of_proof(group)
    return Shares(*shares) if shares is not None else None


def usual_targets(group: Fasteners, shares: Shares) -> tuple[Quantity, Quantity]:
    """The targets between which this joint is tightened as usual, in the target's unit."""
    assert group.torque is not None
    target = group.torque.target
    low = float(target.value) * LOWEST_USUAL_SHARE / shares.target
    high = float(target.value) * min(HIGHEST_USUAL_SHARE / shares.target, 1 / shares.top)
    return rounded(low, target.unit, up=True), rounded(high, target.unit, up=False)


def rounded(value: float, unit: str, *, up: bool) -> Quantity:
    """A bound on three figures that does not pass it."""
    exact = Decimal(repr(value))
    step = Decimal(1).scaleb(exact.adjusted() - 2)
    steps = (exact / step).to_integral_value(ROUND_CEILING if up else ROUND_FLOOR)
    return Quantity(Decimal(f"{(steps * step).normalize():f}"), unit)


def in_other_units(target: Quantity) -> list[tuple[Quantity, float]]:
    """The same number in each other unit that is taken for the target's, and how many times as much it is."""
    if target.unit not in MIXED_UP:
        return []
    others = (Quantity(target.value, unit) for unit in MIXED_UP if unit != target.unit)
    return [(other, other.si / target.si) for other in others] if target.value else []


def units_that_fit(group: Fasteners, shares: Shares) -> list[tuple[Quantity, Shares]]:
    """The same number in units in which it would be a usual torque, the most usual first."""
    assert group.torque is not None
    found = [
        (other, Shares(shares.bottom * times, shares.target * times, shares.top * times))
        for other, times in in_other_units(group.torque.target)
    ]
    middle = (LOWEST_USUAL_SHARE + HIGHEST_USUAL_SHARE) / 2
    return sorted((each for each in found if each[1].usual), key=lambda each: abs(each[1].target - middle))


def unit_hint(group: Fasteners, shares: Shares) -> str:
    """What is to be said of units that would fit; empty if none would. Begins with a blank."""
    fitting = units_that_fit(group, shares)
    if not fitting:
        return ""
    words = listed(f"{percent(share.target)} as {other}" for other, share in fitting)
    return f" Check the unit: it would be {words}."


def possible_shares(group: Fasteners) -> tuple[float, float] | None:
    """The least and the most share of proof load that the target can be.

    What the file leaves out is taken from the weakest to the strongest grade, and from the least to the most
    nut factor of a published survey. None without torque or thread.
    """
    thread = thread_of(group)
    if thread is None or group.torque is None:
        return None
    told = strength_of(group, thread)
    grades = (told,) if told else _grades(thread.diameter_millimetre)
    loads = [proof_load_newton(thread, each) for each in grades]
    nut_factor = group.friction.nut_factor if group.friction else None
    factors = (nut_factor, nut_factor) if nut_factor is not None else SURVEY
    most, least = (
        preload_by_nut_factor(group.torque.target.si, each, thread.diameter_millimetre) for each in factors
    )
    return (least / max(loads), most / min(loads)) if loads else None


@lru_cache(maxsize=64)
def _grades(diameter_millimetre: float) -> tuple[Strength, ...]:
    """Every grade that covers a diameter."""
    found = []
    for grade in known_grades():
        with suppress(StrengthError):
            found.append(strength(grade, diameter_millimetre))
    return tuple(found)


def percent(share: float) -> str:
    """A share in words: 0.481 is "48 %"."""
    return f"{100 * share:.0f} %"
