"""Readings that lie closer together, or repeat themselves more, than honest ones do.

Round by round, else all rounds of a session together. The chance is worked out from the wrench's graduation
and accuracy, as `mechanics.scatter` says; less than one honest set in ten thousand stands out. In hundreds of
sessions with a few sets each, that is one false call in some years (common practice: few enough that each is
asked about).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from benchcheck.mechanics.scatter import ScatterError, Unlikely, honest_deviation, repeating, too_even
from benchcheck.mechanics.units import QuantityError
from benchcheck.mechanics.wrench import Wrench
from benchcheck.session.course import Course, Round
from benchcheck.session.events import PositionTightened
from benchcheck.session.remarks import Remark, Weight

WHY = "Readings that were taken scatter; readings that were made up seldom do (common practice)."
SELDOM = 1e-4
"""Share of honest sets that stand out all the same."""
FEWEST = 3
_CLOSE = 1e-6


def look(course: Course) -> Iterator[Remark]:
    found: list[tuple[Round, int, Unlikely, float]] = []
    for done in course.rounds:
        by_wrench: dict[tuple[str, str], list[PositionTightened]] = {}
        for event in done.shown if done.stands else ():
            by_wrench.setdefault((event.wrench, event.unit), []).append(event)
        for (name, unit), shown in by_wrench.items():
            wrench = course.state.job.registers.wrench(name)
            if wrench is None or len(shown) < FEWEST:
                continue
            chances = _chances([each.value for each in shown], wrench, unit)
            if chances is not None:
                least = min(chances, key=lambda each: each.probability)
                found.append((done, shown[-1].number, least, chances[0].probability))
    seldom = [each for each in found if each[2].probability < SELDOM]
    for done, event_number, least, _ in seldom:
        called = course.state.pump.called(done.group)
        sentence = f"{called[:1].upper()}{called[1:]}, round {done.number}: {least.sentence}."
        yield _remark(sentence, event_number)
    if not seldom and found and together([each[3] for each in found]) < SELDOM:
        sentence = f"The readings of {len(found)} rounds, taken together, lie closer than honest ones do."
        yield _remark(sentence, found[-1][1])


def together(chances: Sequence[float]) -> float:
    """The chance of chances as small as these, by Fisher's method.

    Source: R. A. Fisher 1925, from memory: minus twice the sum of the logarithms follows a chi-square
    distribution with twice as many degrees of freedom, whose tail is a sum.
    """
    half = -sum(math.log(max(each, 1e-300)) for each in chances)
    term = total = math.exp(-half)
    for step in range(1, len(chances)):
        term *= half / step
        total += term
    return min(1.0, total)


def resolution(values: Iterable[float], graduation: float) -> float:
    """To what readings were read: the graduation, or half, a fifth or a tenth of it where the eye divided it.

    Where none fits, the graduation: then less is said.
    """
    read = tuple(values)
    for part in (1, 2, 5, 10):
        step = graduation / part
        if all(abs(each / step - round(each / step)) < _CLOSE for each in read):
            return step
    return graduation


def _chances(values: list[float], wrench: Wrench, unit: str) -> tuple[Unlikely, Unlikely] | None:
    """How likely honest readings are so close, and repeat themselves so; None where nothing can be said."""
    try:
        step = resolution(values, wrench.graduation.to(unit))
        deviation = honest_deviation(sum(values) / len(values), float(wrench.accuracy))
        return too_even(values, step, deviation), repeating(values, step, deviation)
    except (ScatterError, QuantityError):
        return None


def _remark(sentence: str, event: int) -> Remark:
    return Remark("readings too even", Weight.ODD, sentence, event)
