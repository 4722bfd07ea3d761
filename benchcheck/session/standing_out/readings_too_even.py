"""Readings of one round that lie closer together, or repeat themselves more, than honest ones do.

The chance is worked out from the wrench's graduation and accuracy, as `mechanics.scatter` says; less than one
honest set in ten thousand stands out. In hundreds of sessions with a few sets each, that is one false call in
some years (common practice: few enough that each is asked about).
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.mechanics.scatter import ScatterError, Unlikely, honest_deviation, repeating, too_even
from benchcheck.mechanics.units import QuantityError
from benchcheck.mechanics.wrench import Wrench
from benchcheck.session.course import Course
from benchcheck.session.events import PositionTightened
from benchcheck.session.remarks import Remark, Weight

WHY = "Readings that were taken scatter; readings that were made up seldom do (common practice)."
SELDOM = 1e-4
"""Share of honest sets that stand out all the same."""
FEWEST = 3


def look(course: Course) -> Iterator[Remark]:
    for done in course.rounds:
        by_wrench: dict[tuple[str, str], list[PositionTightened]] = {}
        for event in done.shown:
            by_wrench.setdefault((event.wrench, event.unit), []).append(event)
        for (name, unit), shown in by_wrench.items():
            wrench = course.state.job.registers.wrench(name)
            if not done.stands or wrench is None or len(shown) < FEWEST:
                continue
            found = _least_likely([each.value for each in shown], wrench, unit)
            if found is not None and found.probability < SELDOM:
                called = course.state.pump.called(done.group)
                yield Remark(
                    "readings too even",
                    Weight.ODD,
                    f"{called[:1].upper()}{called[1:]}, round {done.number}: {found.sentence}.",
                    shown[-1].number,
                )


def _least_likely(values: list[float], wrench: Wrench, unit: str) -> Unlikely | None:
    """The less likely of the two ways to be too regular; None where nothing can be said."""
    try:
        graduation = wrench.graduation.to(unit)
        deviation = honest_deviation(sum(values) / len(values), float(wrench.accuracy))
        both = (too_even(values, graduation, deviation), repeating(values, graduation, deviation))
    except (ScatterError, QuantityError):
        return None
    return min(both, key=lambda each: each.probability)
