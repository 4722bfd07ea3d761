"""Run rules: what a control chart says beside its limits, from how its points follow each other.

Each rule takes the points in their order, the centre line and the standard deviation that the chart's limits
were made with. The limits themselves are in `scatter`. Points are counted from 0 here and from 1 in words.

Sources: the four rules of the Western Electric Statistical Quality Control Handbook (1956), and the two trend
rules, as the NIST/SEMATECH e-Handbook lists them in section 6.3.2 (its wording from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Signal:
    """A rule that fired: for points `first` to `last`, and the sentence that says so."""

    rule: str
    first: int
    last: int
    sentence: str


BEYOND_LIMIT = "beyond a limit"
TWO_OF_THREE = "two of three"
FOUR_OF_FIVE = "four of five"
EIGHT_ON_ONE_SIDE = "eight on one side"
SIX_RISING_OR_FALLING = "six in a row"
FOURTEEN_ALTERNATING = "fourteen alternating"

Fired = Iterator[tuple[int, str]]
"""The last point of each place where a rule fired, and which way."""


def signals(values: Sequence[float], centre: float, deviation: float) -> tuple[Signal, ...]:
    """Every rule that fires, in the order of the points. Where one fires on and on, it is told once.

    Raises ValueError for a deviation that is not above zero.
    """
    if not deviation > 0:
        raise ValueError(f"found a standard deviation of {deviation:g}, expected more than 0")
    apart = [(value - centre) / deviation for value in values]
    found: list[Signal] = []
    for rule, length, fires, words in _RULES:
        found += _joined(rule, length, fires(apart), words)
    return tuple(sorted(found, key=lambda signal: (signal.last, signal.first)))


def _joined(rule: str, length: int, fired: Fired, words: str) -> Iterator[Signal]:
    """Places that follow each other at once, the same way, are one."""
    first = last = -2
    way = ""
    for at, this_way in fired:
        if at != last + 1 or this_way != way:
            if last >= 0:
                yield _signal(rule, first, last, words, way)
            first, way = max(0, at - length + 1), this_way
        last = at
    if last >= 0:
        yield _signal(rule, first, last, words, way)


def _signal(rule: str, first: int, last: int, words: str, way: str) -> Signal:
    points = f"Point {last + 1}" if first == last else f"Points {first + 1} to {last + 1}"
    return Signal(rule, first, last, f"{points}: {words.format(way=way)}.")


# ---------------------------------------------------------------------- the rules


def _beyond(values: Sequence[float], deviations: float, many: int, of: int) -> Fired:
    """Whether, of each so many points, enough lie beyond so many deviations on one side, the last one too."""
    for at, last in enumerate(values):
        if abs(last) <= deviations:
            continue
        sign, way = (1, "above") if last > 0 else (-1, "below")
        if sum(sign * value > deviations for value in values[max(0, at - of + 1) : at + 1]) >= many:
            yield at, way


def _beyond_limit(values: Sequence[float]) -> Fired:
    return _beyond(values, 3, 1, 1)


def _two_of_three(values: Sequence[float]) -> Fired:
    return _beyond(values, 2, 2, 3)


def _four_of_five(values: Sequence[float]) -> Fired:
    return _beyond(values, 1, 4, 5)


def _eight_on_one_side(values: Sequence[float]) -> Fired:
    return _beyond(values, 0, 8, 8)


def _six_in_a_row(values: Sequence[float]) -> Fired:
    steps = [after - before for before, after in pairwise(values)]
    for at in range(5, len(values)):
        window = steps[at - 5 : at]
        for sign, way in ((1, "higher"), (-1, "lower")):
            if all(sign * step > 0 for step in window):
                yield at, way


def _fourteen_alternating(values: Sequence[float]) -> Fired:
    steps = [after - before for before, after in pairwise(values)]
    turns = [one * other < 0 for one, other in pairwise(steps)]
    for at in range(13, len(values)):
        if all(turns[at - 13 : at - 1]):
            yield at, ""


_RULES: tuple[tuple[str, int, Callable[[Sequence[float]], Fired], str], ...] = (
    (BEYOND_LIMIT, 1, _beyond_limit, "beyond the control limit, three standard deviations {way} the mean"),
    (
        TWO_OF_THREE,
        3,
        _two_of_three,
        "two of three lie more than two standard deviations {way} the mean",
    ),
    (
        FOUR_OF_FIVE,
        5,
        _four_of_five,
        "four of five lie more than one standard deviation {way} the mean",
    ),
    (EIGHT_ON_ONE_SIDE, 8, _eight_on_one_side, "eight in a row, or more, lie {way} the mean"),
    (SIX_RISING_OR_FALLING, 6, _six_in_a_row, "six in a row, or more, each {way} than the one before"),
    (FOURTEEN_ALTERNATING, 14, _fourteen_alternating, "fourteen in a row, or more, go up and down in turn"),
)
