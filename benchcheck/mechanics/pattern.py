"""Tightening patterns: where positions sit, in which order they are tightened, and in what shares.

Positions are numbered from 1, clockwise as seen from a stated side. An order lists positions; the other way
of writing a pattern, the number met at each position going round, is its inverse (`labels_clockwise`).
What an order does to the preloads belongs to `interaction`, which wrench can do it to `wrench`.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from decimal import Decimal

from benchcheck.mechanics.units import Quantity, parse

Place = tuple[float, float]
"""Where a position sits: x to the right, y up."""

MOST_POSITIONS = 200

SAME_RING = 0.01
"""Points whose distances from the centre differ by less than this share of the largest stand on one ring."""


class PatternError(ValueError):
    """A layout, an order or a set of rounds that cannot be, in one sentence."""


def circle_order(count: int) -> tuple[int, ...]:
    """The criss-cross order for positions evenly spaced on a circle, 1 to 200 of them.

    Built from the order of a smaller circle: with 4 m positions, the m starts of a quarter, each followed
    by its opposite and by the pair square to it; with 2 m (m odd), the m starts of a half, each followed by
    its opposite. Odd counts have no opposites: up to 7 the star whose every move goes as nearly across as
    there is a position; above, the order of the next even count without its last position.

    Guaranteed, and tested for every count:

    - each position exactly once, the first is 1;
    - even counts: places 2k−1 and 2k of the order are diametrically opposite;
    - from 5 up: positions that follow one another are never neighbours on the circle;
    - from 8 up: the first four take one in each quarter centred on the first, its opposite and the sides;
      with a count divisible by four they are 90° apart.

    Source: for 4, 8, 12, 16, 20 and 24 equal to the published cross patterns of bolted flanges; 5, 6, 7 and
    10 common practice; others by the same halving rule. Raises PatternError for a count outside 1 to 200.
    """
    _check_count(count)
    if count % 4 == 0:
        quarter = count // 4
        steps = (0, 2 * quarter, quarter, 3 * quarter)
        return tuple(start + step for start in circle_order(quarter) for step in steps)
    if count % 2 == 0:
        half = count // 2
        return tuple(start + step for start in circle_order(half) for step in (0, half))
    if count < 8:
        return tuple(1 + step * (count // 2) % count for step in range(count))
    return tuple(position for position in circle_order(count + 1) if position <= count)


def points_order(points: Sequence[Place]) -> tuple[int, ...]:
    """The order for positions anywhere in a plane: from the centre outwards, and across it.

    Points at one distance from the centre (the mean of all) form a ring. The rings follow one another from
    the inside; each is crossed like a circle. A point of an uneven ring is followed by whichever remaining
    point lies nearest to straight across the centre. Guaranteed: each position once; where the layout is
    symmetric about its centre, every position off the centre is followed or preceded by its opposite; the
    innermost ring comes first; points evenly on one circle come in `circle_order`.

    Raises PatternError for no points, more than 200, or two in one place.
    """
    _check_count(len(points))
    _check_places(points)
    centre = (math.fsum(x for x, _ in points) / len(points), math.fsum(y for _, y in points) / len(points))
    order: list[int] = []
    left = set(range(1, len(points) + 1))
    for ring in _rings(points, centre):
        even = _is_even(ring, points, centre)
        for place in circle_order(len(ring)):
            position = ring[place - 1]
            if position not in left:
                continue
            order.append(position)
            left.remove(position)
            if left and len(ring) > 1 and not even:
                across = _nearest(_across(points[position - 1], centre), left, points)
                order.append(across)
                left.remove(across)
    return tuple(order)


def rectangle_order(rows: int, columns: int) -> tuple[int, ...]:
    """The order for a rectangle of positions: centre outwards, diagonals first, as `points_order`.

    Numbers run clockwise round the rim from the corner at the top left, inner positions follow row by row.
    Common practice for long covers. Raises PatternError for more than 200 positions or none.
    """
    return points_order(rectangle_places(rows, columns))


def loosening_order(order: Sequence[int]) -> tuple[int, ...]:
    """The order for undoing: the tightening order backwards, so that no single position carries the joint."""
    check_permutation(order, len(order))
    return tuple(reversed(order))


def clockwise_pass(count: int) -> tuple[int, ...]:
    """Once round from position 1, as after the last round of a pattern."""
    _check_count(count)
    return tuple(range(1, count + 1))


def labels_clockwise(order: Sequence[int]) -> tuple[int, ...]:
    """The number in the order met at each position going round from position 1: the inverse of the order."""
    check_permutation(order, len(order))
    labels = [0] * len(order)
    for number, position in enumerate(order, start=1):
        labels[position - 1] = number
    return tuple(labels)


def group_order(count: int, size: int) -> tuple[tuple[int, ...], ...]:
    """Many positions on a circle taken in groups of neighbours, the groups in criss-cross order.

    Source: ASME PCC-1 as described on a public page: 48 bolts as 12 groups of 4, in the order of 12.
    Raises PatternError if the groups do not come out even.
    """
    _check_count(count)
    if not 1 <= size <= count or count % size:
        raise PatternError(
            f"{count} positions do not make whole groups of {size}; choose a divisor of {count}"
        )
    return tuple(
        tuple(range((group - 1) * size + 1, group * size + 1)) for group in circle_order(count // size)
    )


def check_permutation(order: Sequence[int], count: int) -> None:
    """Raise PatternError unless the order visits each of the positions 1 to count exactly once."""
    missing = sorted(set(range(1, count + 1)) - set(order))
    strange = sorted(set(order) - set(range(1, count + 1)))
    twice = sorted({position for position in order if order.count(position) > 1})
    said = [
        f"{what} {', '.join(map(str, positions))}"
        for what, positions in (("lacks", missing), ("repeats", twice), ("names unknown", strange))
        if positions
    ]
    if said:
        raise PatternError(f"the order {' and '.join(said)}; each of the positions 1 to {count} comes once")


def circle_order_remarks(order: Sequence[int]) -> tuple[str, ...]:
    """What a bench engineer would object to in an order of somebody's own for a circle; empty when nothing.

    Published orders differ and are all accepted: only their common properties are looked at.
    """
    count = len(order)
    check_permutation(order, count)
    remarks = []
    if count >= 5:
        remarks += [
            f"{one} is followed by its neighbour {other}"
            for one, other in itertools.pairwise(order)
            if (one - other) % count in (1, count - 1)
        ]
    if count >= 4 and count % 2 == 0:
        remarks += [
            f"{one} is not followed by its opposite {(one - 1 + count // 2) % count + 1}"
            for one, other in zip(order[::2], order[1::2], strict=True)
            if (one - other) % count != count // 2
        ]
    return tuple(remarks)


def circle_places(count: int, start_fraction: float = 0.0) -> tuple[Place, ...]:
    """Places on a circle of radius 1 about the origin, clockwise; the datum is at the top.

    `start_fraction` is how far past the datum position 1 stands, in pitches: 0 at it, 0.5 half a pitch on.
    """
    _check_count(count)
    angles = (2 * math.pi * (index + start_fraction) / count for index in range(count))
    return tuple((math.sin(angle), math.cos(angle)) for angle in angles)


def rectangle_places(rows: int, columns: int) -> tuple[Place, ...]:
    """Places of a rectangle about the origin in true proportion, its longer side from −1 to 1.

    Clockwise round the rim from the top left corner, then the inner ones row by row.
    """
    if rows < 1 or columns < 1 or rows * columns > MOST_POSITIONS:
        raise PatternError(
            f"found a rectangle of {rows} x {columns}, expected 1 to {MOST_POSITIONS} positions"
        )
    top = [(0, column) for column in range(columns)]
    right = [(row, columns - 1) for row in range(1, rows)]
    bottom = [(rows - 1, column) for column in reversed(range(columns - 1))] if rows > 1 else []
    left = [(row, 0) for row in reversed(range(1, rows - 1))] if columns > 1 else []
    inner = [(row, column) for row in range(1, rows - 1) for column in range(1, columns - 1)]
    half = max(rows - 1, columns - 1, 1) / 2
    return tuple(
        ((column - (columns - 1) / 2) / half, ((rows - 1) / 2 - row) / half)
        for row, column in [*top, *right, *bottom, *left, *inner]
    )


def round_shares(rounds: Iterable[str | Quantity]) -> tuple[Decimal, ...]:
    """The rounds as shares of the target: ["30 %", "70 %", "100 %"] gives 0.30, 0.70, 1.00.

    Raises PatternError unless they rise and end at exactly 100 %; QuantityError for one that is no share.
    """
    shares = [parse(each, "share") if isinstance(each, str) else each for each in rounds]
    values = [share.value for share in shares]
    written = ", ".join(map(str, shares)) or "nothing"
    if not values or values[-1] != 100:
        raise PatternError(f'found rounds {written}, expected the last one to be "100 %"')
    if values[0] <= 0 or any(later <= earlier for earlier, later in itertools.pairwise(values)):
        raise PatternError(f"found rounds {written}, expected each to be more than the one before")
    return tuple(value / 100 for value in values)


def _rings(points: Sequence[Place], centre: Place) -> list[list[int]]:
    """Position numbers by ring, the innermost first; in each, clockwise from its lowest number."""
    distances = [math.dist(point, centre) for point in points]
    room = SAME_RING * max(distances)
    rings: list[list[int]] = []
    inside = -math.inf
    for distance, position in sorted((distance, index + 1) for index, distance in enumerate(distances)):
        if distance > inside + room:
            rings.append([])
            inside = distance
        rings[-1].append(position)
    return [_clockwise(ring, points, centre) for ring in rings]


def _clockwise(ring: Sequence[int], points: Sequence[Place], centre: Place) -> list[int]:
    first = _clock_angle(points[min(ring) - 1], centre)

    def turned(position: int) -> float:
        # rounded, so that the first one does not come out at almost a full turn
        return round(_clock_angle(points[position - 1], centre) - first, 9) % (2 * math.pi)

    return sorted(ring, key=lambda position: (turned(position), position))


def _clock_angle(point: Place, centre: Place) -> float:
    return math.atan2(point[0] - centre[0], point[1] - centre[1])


def _is_even(ring: Sequence[int], points: Sequence[Place], centre: Place) -> bool:
    """Whether the points of a ring divide it into equal parts, to within a tenth of a part."""
    part = 2 * math.pi / len(ring)
    first = _clock_angle(points[ring[0] - 1], centre)
    return all(
        abs(math.remainder(_clock_angle(points[position - 1], centre) - first - index * part, 2 * math.pi))
        < part / 10
        for index, position in enumerate(ring)
    )


def _across(point: Place, centre: Place) -> Place:
    return 2 * centre[0] - point[0], 2 * centre[1] - point[1]


def _nearest(place: Place, positions: Iterable[int], points: Sequence[Place]) -> int:
    return min(positions, key=lambda position: (round(math.dist(points[position - 1], place), 9), position))


def _check_count(count: int) -> None:
    if not 1 <= count <= MOST_POSITIONS:
        raise PatternError(f"found {count} positions, expected 1 to {MOST_POSITIONS}")


def _check_places(points: Sequence[Place]) -> None:
    seen: dict[Place, int] = {}
    for position, point in enumerate(points, start=1):
        if not all(map(math.isfinite, point)):
            raise PatternError(f"position {position} has no place; write two finite numbers, x and y")
        if point in seen:
            raise PatternError(f"positions {seen[point]} and {position} are in the same place")
        seen[point] = position
