"""Readings that are those of an earlier tightening, position by position.

For each round the chance of so many equal readings comes from `mechanics.scatter`; the rounds are taken
together by Fisher's method. Readings at the very target say
nothing, for there a careful hand stops each time. What is looked at is counted: one honest session in ten
thousand stands out, however many it is compared with.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from benchcheck.assembly.tightening import round_target
from benchcheck.mechanics.scatter import ScatterError, copied, honest_deviation
from benchcheck.mechanics.units import QuantityError
from benchcheck.session.course import Course, Shown
from benchcheck.session.remarks import Remark, Weight
from benchcheck.session.standing_out.readings_too_even import SELDOM, resolution, together

WHY = "Two honest tightenings hardly show the same row of numbers (common practice)."


@dataclass(frozen=True, slots=True)
class Scaled:
    """A row of readings, and what to hold it against: all in the unit of the readings."""

    shown: Shown
    target: float
    graduation: float
    deviation: float
    """The standard deviation of honest readings."""
    event: int
    """The last reading of the row."""


def look(course: Course) -> Iterator[Remark]:
    earlier = (*course.shown(stands=False), *course.earlier)
    yield from likest(list(scaled(course)), earlier)


def scaled(course: Course) -> Iterator[Scaled]:
    """The rows of readings that stand and can be held against others."""
    last = {(each.group, each.number): each.tightened[-1] for each in course.rounds if each.stands}
    for each in course.shown():
        event = last[each.group, each.round]
        torque_group = course.state.pump.groups[each.group]
        wrench = course.state.job.registers.wrench(event.wrench)
        if wrench is None or torque_group.torque is None:
            continue
        try:
            target = round_target(torque_group, each.round).target.to(each.unit)
            deviation = honest_deviation(target, float(wrench.accuracy))
            yield Scaled(each, target, wrench.graduation.to(each.unit), deviation, event.number)
        except (ScatterError, QuantityError):
            continue


def likest(here: Sequence[Scaled], earlier: Iterable[Shown]) -> Iterator[Remark]:
    """The remark on the earlier tightening that these readings are most like, if they are too like it."""
    rows: dict[str, list[tuple[float, int, int]]] = {}
    ours = {(each.shown.group, each.shown.round, each.shown.unit): each for each in here}
    for other in earlier:
        one = ours.get((other.group, other.round, other.unit))
        compared = _compared(one, other) if one is not None else None
        if compared is not None:
            rows.setdefault(other.where, []).append(compared)
    found = [
        (
            together([each[0] for each in same]),
            where,
            sum(each[1] for each in same),
            sum(each[2] for each in same),
        )
        for where, same in rows.items()
    ]
    if found:
        chance, where, equal, of = min(found)
        if chance * len(found) < SELDOM:
            yield Remark(
                "readings copied",
                Weight.DEPARTS,
                f"{equal} of {of} readings beside the target are those of {where}.",
                max(each.event for each in here),
            )


def _compared(one: Scaled, other: Shown) -> tuple[float, int, int] | None:
    """The chance of readings so alike, how many are equal, and of how many; None if nothing can be said."""
    step = resolution((*one.shown.values, *other.values), one.graduation)
    pairs = [
        (ours, theirs)
        for ours, theirs in zip(one.shown.values, other.values, strict=False)
        if abs(theirs - one.target) > step / 2
    ]
    if len(one.shown.values) != len(other.values) or len(pairs) < 2:
        return None
    try:
        ours, theirs = zip(*pairs, strict=True)
        chance = copied(ours, theirs, step, one.deviation).probability
    except ScatterError:
        return None
    return chance, sum(round((a - b) / step) == 0 for a, b in pairs), len(pairs)
