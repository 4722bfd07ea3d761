"""Spread of readings: charts for individual values, capability against limits, and sets too even to be true.

Here belongs what a set of readings says by itself. Whether one reading passes is in wrench.py; the scatter of
preload that a tightening method brings is in preload.py.
Values and limits are in any one unit; shares and probabilities are of one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from statistics import fmean, stdev


class ScatterError(ValueError):
    """One sentence: which input makes no sense, and what was expected."""


# Control chart constants for ranges of two values, rounded as NIST prints and uses them. In full: 2/√π, and
# 1 + 3·√(2 − 4/π)/(2/√π).
D2_OF_TWO = 1.128
D4_OF_TWO = 3.267


@dataclass(frozen=True, slots=True)
class IndividualsChart:
    """Centre and limits of a chart of individual values, and of their moving ranges; what lies outside.

    `outside`: index of each value beyond a limit; `ranges_outside`: of each range, the first being that of
    the second value from the first.
    """

    mean: float
    lower_limit: float
    upper_limit: float
    mean_moving_range: float
    moving_range_upper_limit: float
    outside: tuple[int, ...]
    ranges_outside: tuple[int, ...]


def moving_ranges(values: Sequence[float]) -> tuple[float, ...]:
    """How far each value lies from the one before it."""
    return tuple(abs(after - before) for before, after in pairwise(values))


def individuals_chart(values: Sequence[float]) -> IndividualsChart:
    """Limits at three standard deviations, worked out from the mean moving range of two values.

    Raises ScatterError for fewer than two values. Source: NIST/SEMATECH e-Handbook, 6.3.2.2.
    """
    _check(values)
    mean, ranges = fmean(values), moving_ranges(values)
    mean_range = fmean(ranges)
    reach = 3 * mean_range / D2_OF_TWO
    range_limit = D4_OF_TWO * mean_range
    return IndividualsChart(
        mean=mean,
        lower_limit=mean - reach,
        upper_limit=mean + reach,
        mean_moving_range=mean_range,
        moving_range_upper_limit=range_limit,
        outside=tuple(i for i, value in enumerate(values) if abs(value - mean) > reach),
        ranges_outside=tuple(i for i, value in enumerate(ranges) if value > range_limit),
    )


@dataclass(frozen=True, slots=True)
class Spread:
    """Mean and sample standard deviation (n − 1), and the extremes."""

    count: int
    mean: float
    standard_deviation: float
    lowest: float
    highest: float


def spread(values: Sequence[float]) -> Spread:
    """Mean, sample standard deviation and extremes. Raises ScatterError for fewer than two values."""
    _check(values)
    return Spread(len(values), fmean(values), stdev(values), min(values), max(values))


@dataclass(frozen=True, slots=True)
class Capability:
    """How limits compare with a spread.

    `potential` (Cp): width of the limits over six standard deviations. `actual` (Cpk): room to the nearer
    limit over three. `off_centre` (k): how far the mean lies from the middle, as a share of half the width.
    `expected_outside`: share beyond either limit if the values are normal.
    """

    potential: float
    actual: float
    off_centre: float
    expected_outside: float


def capability(mean: float, standard_deviation: float, lower: float, upper: float) -> Capability:
    """Capability indices of a spread against its limits.

    Raises ScatterError for limits in the wrong order or a spread of nothing.
    Source: NIST/SEMATECH e-Handbook, 6.1.6.
    """
    if not lower < upper:
        raise ScatterError(
            f"found limits {lower:g} to {upper:g}, expected the lower one first and below the upper"
        )
    if not 0 < standard_deviation < math.inf or not math.isfinite(mean):
        raise ScatterError("capability needs a mean and a standard deviation above zero")
    above, below = (upper - mean) / standard_deviation, (mean - lower) / standard_deviation
    middle, half = (lower + upper) / 2, (upper - lower) / 2
    return Capability(
        potential=(upper - lower) / (6 * standard_deviation),
        actual=min(above, below) / 3,
        off_centre=abs(mean - middle) / half,
        expected_outside=_normal(-above) + _normal(-below),
    )


@dataclass(frozen=True, slots=True)
class Unlikely:
    """How often honest readings would be as even as these, at most, and the sentence that says so."""

    probability: float
    sentence: str


def honest_deviation(target: float, accuracy: float) -> float:
    """Standard deviation to expect, at least, between honest readings of one wrench [unit of the target].

    The permissible deviation covers the wrench's bias and its repeatability. If plus and minus two standard
    deviations fill it, and half of it is repeatability, a quarter of it is left: 1 % of the target for a
    class of 4 %. A hand that stops at a mark is hardly steadier. Common practice, and chosen low on purpose.
    """
    if not (0 < target < math.inf and 0 < accuracy < 1):
        raise ScatterError("expected a target above zero and an accuracy between 0 and 1")
    return accuracy * target / 4


def too_even(readings: Sequence[float], graduation: float, deviation: float) -> Unlikely:
    """How likely it is that honest readings lie as close together as these.

    Honest readings are normal with a standard deviation of at least `deviation` and are read to the nearest
    graduation. For such readings the chance that n of them span r graduations or fewer is known exactly: over
    all windows of r + 1 graduations, the chance that all lie in the window less that they all lie in it but
    for its first. Where the mean lies between two graduations is not known, so the place that makes it most
    likely counts: the true probability is at most the one given.
    A small number is a reason to ask, never a proof. Raises ScatterError.
    """
    _check(readings)
    count = len(readings)
    steps = round((max(readings) - min(readings)) / _checked(graduation, deviation))
    probability = max(
        _within(_shares(graduation, deviation, offset / 10), steps, count) for offset in range(6)
    )
    span = "the same" if steps == 0 else f"within {steps} graduation{'s' if steps > 1 else ''}"
    return Unlikely(probability, f"{count} readings are {span}: {_odds(probability)}")


def copied(
    readings: Sequence[float], earlier: Sequence[float], graduation: float, deviation: float
) -> Unlikely:
    """How likely it is that honest readings match an earlier set at as many positions as these do.

    Two honest readings agree with a chance of the sum of squared shares of all graduations,
    each position by itself; so the number of matches is binomial, and its tail is the answer. As in
    `too_even` the most likely place of the mean counts. Raises ScatterError.
    """
    _check(readings)
    if len(readings) != len(earlier):
        raise ScatterError(f"found {len(readings)} readings against {len(earlier)}, expected as many in both")
    step = _checked(graduation, deviation)
    matches = sum(round((one - other) / step) == 0 for one, other in zip(readings, earlier, strict=True))
    probability = _tail(matches, len(readings), _coincidence(graduation, deviation))
    return Unlikely(
        probability,
        f"{matches} of {len(readings)} readings are those of the earlier set: {_odds(probability)}",
    )


def repeating(readings: Sequence[float], graduation: float, deviation: float) -> Unlikely:
    """How likely it is that honest readings repeat themselves at a fixed distance as these do.

    For each distance up to half the set, the readings are compared with themselves so far on, as in `copied`.
    The least likely distance counts, times the number of distances tried, since one of them had to be the
    least likely. Raises ScatterError.
    """
    _check(readings)
    step = _checked(graduation, deviation)
    chance = _coincidence(graduation, deviation)
    distances = range(1, len(readings) // 2 + 1)
    found = []
    for distance in distances:
        pairs = list(zip(readings, readings[distance:], strict=False))
        matches = sum(round((one - other) / step) == 0 for one, other in pairs)
        found.append((_tail(matches, len(pairs), chance), distance, matches, len(pairs)))
    probability, distance, matches, pairs_compared = min(found)
    probability = min(1.0, probability * len(distances))
    every = "the one before" if distance == 1 else f"the one {distance} before"
    return Unlikely(
        probability, f"{matches} of {pairs_compared} readings are {every} again: {_odds(probability)}"
    )


def _odds(probability: float) -> str:
    if probability > 0.05:
        return "nothing unusual"
    if probability < 1e-9:
        return "honest readings do that less than once in a thousand million sets"
    digits = 10 ** max(0, math.floor(math.log10(1 / probability)) - 1)
    sets = round(1 / probability / digits) * digits
    return f"honest readings do that once in {sets:,} sets at most".replace(",", " ")


def _check(values: Sequence[float]) -> None:
    if len(values) < 2 or not all(math.isfinite(value) for value in values):
        raise ScatterError(f"found {len(values)} values, expected two numbers or more")


# Finer than this, a graduation no longer rounds anything, and the sums would only grow long.
_FINEST = 1 / 1000


def _checked(graduation: float, deviation: float) -> float:
    if not (0 < graduation < math.inf and 0 < deviation < math.inf):
        raise ScatterError("expected a graduation and a standard deviation above zero")
    if graduation < _FINEST * deviation:
        raise ScatterError("the graduation is so fine that no two readings ever agree: nothing can be said")
    return graduation


def _normal(z: float) -> float:
    """Share of a normal distribution below z."""
    return math.erfc(-z / math.sqrt(2)) / 2


def _shares(graduation: float, deviation: float, offset: float) -> list[float]:
    """Share of honest readings at each graduation, the mean lying `offset` graduations beside one of them."""
    reach = math.ceil(8 * deviation / graduation) + 1
    edges = [_normal((k - 0.5 - offset) * graduation / deviation) for k in range(-reach, reach + 2)]
    return [after - before for before, after in pairwise(edges)]


def _within(shares: Sequence[float], steps: int, count: int) -> float:
    """Chance that `count` draws from these shares span at most `steps` of them."""
    padded = [0.0] * steps + list(shares) + [0.0] * steps
    total = 0.0
    window = sum(padded[: steps + 1])
    for k in range(len(padded) - steps):
        total += max(window, 0.0) ** count - max(window - padded[k], 0.0) ** count
        window += (padded[k + steps + 1] if k + steps + 1 < len(padded) else 0.0) - padded[k]
    return min(1.0, max(0.0, total))


@lru_cache(maxsize=1024)
def _coincidence(graduation: float, deviation: float) -> float:
    """Chance that two honest readings show the same graduation, at the likeliest place of their mean."""
    return max(sum(share**2 for share in _shares(graduation, deviation, offset / 10)) for offset in range(6))


def _tail(matches: int, of: int, chance: float) -> float:
    """Chance of at least so many matches, each with this chance."""
    return min(
        1.0, sum(math.comb(of, k) * chance**k * (1 - chance) ** (of - k) for k in range(matches, of + 1))
    )
