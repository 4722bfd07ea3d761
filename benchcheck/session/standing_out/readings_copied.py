"""Readings that are those of an earlier tightening, position by position.

For each round the chance of so many equal readings comes from `mechanics.scatter`; the rounds are taken
together by Fisher's method (R. A. Fisher 1925, from memory: twice the sum of the logarithms follows a
chi-square distribution, whose tail is a sum for an even count of degrees). Readings at the very target say
nothing, for there a careful hand stops each time. What is looked at is counted: one honest session in ten
thousand stands out, however many it is compared with.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from benchcheck.assembly.tightening import round_target
from benchcheck.mechanics.scatter import ScatterError, copied, honest_deviation
from benchcheck.mechanics.units import QuantityError
from benchcheck.mechanics.wrench import Wrench
from benchcheck.session.course import Course, Shown
from benchcheck.session.remarks import Remark, Weight
from benchcheck.session.standing_out.readings_too_even import SELDOM

WHY = "Two honest tightenings hardly show the same row of numbers (common practice)."


def look(course: Course) -> Iterator[Remark]:
    sources: dict[str, list[Shown]] = {}
    for each in (*course.shown(stands=False), *course.earlier):
        sources.setdefault(each.where, []).append(each)
    here = {(each.group, each.round, each.unit, len(each.values)): each for each in course.shown()}
    found: list[tuple[float, str, int, int]] = []
    for where, sets in sources.items():
        compared = [
            _compared(course, here[key], each)
            for each in sets
            if (key := (each.group, each.round, each.unit, len(each.values))) in here
        ]
        known = [each for each in compared if each is not None]
        if known:
            chances, equal, of = zip(*known, strict=True)
            found.append((together(chances), where, sum(equal), sum(of)))
    if found:
        chance, where, equal_ones, of_them = min(found)
        if chance * len(found) < SELDOM:
            last = [each.tightened[-1].number for each in course.rounds if each.stands and each.shown]
            yield Remark(
                "readings copied",
                Weight.DEPARTS,
                f"{equal_ones} of {of_them} readings beside the target are those of {where}.",
                max(last),
            )


def together(chances: Sequence[float]) -> float:
    """The chance of chances as small as these, by Fisher's method."""
    half = -sum(math.log(max(each, 1e-300)) for each in chances)
    term = total = math.exp(-half)
    for step in range(1, len(chances)):
        term *= half / step
        total += term
    return min(1.0, total)


def _compared(course: Course, here: Shown, earlier: Shown) -> tuple[float, int, int] | None:
    """The chance of readings so alike, how many are equal, and of how many; None if nothing can be said."""
    group = course.state.pump.groups[here.group]
    wrench = _wrench(course, here)
    if wrench is None or group.torque is None:
        return None
    try:
        graduation = wrench.graduation.to(here.unit)
        target = round_target(group, here.round).target.to(here.unit)
        pairs = [
            (one, other)
            for one, other in zip(here.values, earlier.values, strict=True)
            if abs(other - target) > graduation / 2
        ]
        ours, theirs = [one for one, _ in pairs], [other for _, other in pairs]
        found = copied(ours, theirs, graduation, honest_deviation(target, float(wrench.accuracy)))
    except (ScatterError, QuantityError):
        return None
    equal = sum(round((one - other) / graduation) == 0 for one, other in pairs)
    return found.probability, equal, len(pairs)


def _wrench(course: Course, here: Shown) -> Wrench | None:
    """The wrench of a round that was done with one."""
    done = next(
        each
        for each in course.rounds
        if each.stands and (each.group, each.number) == (here.group, here.round)
    )
    names = {each.wrench for each in done.shown}
    return course.state.job.registers.wrench(names.pop()) if len(names) == 1 else None
