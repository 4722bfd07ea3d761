"""Tightening orders: the published ones, and for every count what each family promises."""

from __future__ import annotations

import math
import random
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.pattern import (
    PatternError,
    check_permutation,
    circle_order,
    circle_order_remarks,
    circle_places,
    clockwise_pass,
    group_order,
    labels_clockwise,
    loosening_order,
    points_order,
    rectangle_order,
    rectangle_places,
    round_shares,
)
from benchcheck.mechanics.units import QuantityError, parse
from tests.published_tables import rows

EVERY_COUNT = range(1, 201)


def numbers(text: str) -> tuple[int, ...]:
    return tuple(map(int, text.replace("-", " ").split()))


@pytest.mark.parametrize("row", rows("bolt_sequences_cross"), ids=lambda row: row["n"])
def test_published_cross_orders_in_both_numberings(row: dict[str, str]) -> None:
    # A gasket maker's work sheet; the 8 in a robot manual too, the 12 on a further public page.
    order = circle_order(int(row["n"]))
    assert order == numbers(row["position_order"])
    assert labels_clockwise(order) == numbers(row["label_clockwise"])
    assert labels_clockwise(labels_clockwise(order)) == order


@pytest.mark.parametrize(
    "order",
    [
        # common practice; 5 and 6 also from memory of the bolted-flange guideline
        "1-2-3",
        "1-3-2-4",
        "1-3-5-2-4",
        "1-4-2-5-3-6",
        "1-4-7-3-6-2-5",
        "1-6-3-8-5-10-2-7-4-9",
    ],
)
def test_orders_of_common_practice(order: str) -> None:
    assert circle_order(len(numbers(order))) == numbers(order)


def test_real_flanges_have_an_order() -> None:
    # ASME B16.5 drilling: every count that occurs on a real flange is one of the published patterns
    counts = {int(row["n_bolts"]) for row in rows("asme_b16_5_drilling")}
    assert counts == {int(row["n"]) for row in rows("bolt_sequences_cross")}


@pytest.mark.parametrize("count", EVERY_COUNT)
def test_what_every_circle_order_promises(count: int) -> None:
    order = circle_order(count)
    assert sorted(order) == list(range(1, count + 1))
    assert order[0] == 1
    if count >= 5:
        assert all((one - other) % count not in (1, count - 1) for one, other in pairwise(order))
    if count % 2 == 0:
        pairs = zip(order[::2], order[1::2], strict=True)
        assert all((one - other) % count == count // 2 for one, other in pairs)
    if count >= 8:
        quarters = {round((position - 1) * 4 / count) % 4 for position in order[:4]}
        assert quarters == {0, 1, 2, 3}
    if count % 4 == 0:
        assert sorted(order[:4]) == [1 + quarter * count // 4 for quarter in range(4)]
    assert circle_order_remarks(order) == ()


@pytest.mark.parametrize("count", range(9, 201, 2))
def test_odd_counts_go_as_nearly_across_as_there_is_a_position(count: int) -> None:
    order = circle_order(count)
    nearest = {count // 2, count // 2 + 1}
    across = sum((other - one) % count in nearest for one, other in pairwise(order))
    # all pairs but the one that lost its partner
    assert across >= count // 2 - 1
    assert (order[1] - order[0]) % count in nearest


@pytest.mark.parametrize("count", EVERY_COUNT)
def test_points_on_a_circle_come_in_the_order_of_the_circle(count: int) -> None:
    places = circle_places(count, 0.5)
    assert points_order([(100 + 40 * x, -7 + 40 * y) for x, y in places]) == circle_order(count)


@pytest.mark.parametrize(
    ("rows_", "columns", "order"),
    [
        # our own demonstration data (GX18), common practice: centre outwards, diagonals
        (2, 4, "2-6-3-7-1-5-4-8"),
        (2, 2, "1-3-2-4"),
        (1, 5, "3-2-4-1-5"),
        (3, 3, "9-2-6-4-8-1-5-3-7"),
    ],
)
def test_rectangles(rows_: int, columns: int, order: str) -> None:
    assert rectangle_order(rows_, columns) == numbers(order)


def test_rectangle_numbers_run_clockwise_from_the_top_left() -> None:
    assert rectangle_places(2, 4) == (
        (-1, 1 / 3), (-1 / 3, 1 / 3), (1 / 3, 1 / 3), (1, 1 / 3),
        (1, -1 / 3), (1 / 3, -1 / 3), (-1 / 3, -1 / 3), (-1, -1 / 3),
    )  # fmt: skip
    assert rectangle_places(3, 3)[8] == (0, 0)
    assert rectangle_places(1, 1) == ((0, 0),)
    assert rectangle_places(1, 3) == ((-1, 0), (0, 0), (1, 0))
    assert rectangle_places(3, 1) == ((0, 1), (0, 0), (0, -1))


@pytest.mark.parametrize(
    ("rows_", "columns"),
    [
        (1, 2),
        (1, 7),
        (2, 3),
        (3, 2),
        (2, 5),
        (2, 10),
        (2, 100),
        (3, 4),
        (4, 3),
        (4, 5),
        (5, 5),
        (6, 9),
        (14, 14),
    ],
)
def test_what_every_rectangle_order_promises(rows_: int, columns: int) -> None:
    places = rectangle_places(rows_, columns)
    assert len(set(places)) == rows_ * columns
    order = rectangle_order(rows_, columns)
    assert sorted(order) == list(range(1, rows_ * columns + 1))
    # centre outwards, to within the width of a ring
    distances = [math.hypot(*places[position - 1]) for position in order]
    assert all(later >= earlier - 0.03 for earlier, later in pairwise(distances))
    # each is next to its opposite in the order
    where = {position: index for index, position in enumerate(order)}
    for position, (x, y) in enumerate(places, start=1):
        opposite = min(range(1, len(places) + 1), key=lambda other: math.dist(places[other - 1], (-x, -y)))
        assert abs(where[position] - where[opposite]) <= 1


def test_two_rings_are_crossed_from_the_inside() -> None:
    inner = [(40 * x, 40 * y) for x, y in circle_places(4)]
    outer = [(100 * x, 100 * y) for x, y in circle_places(8, 0.5)]
    order = points_order([*outer, *inner])
    assert order == (9, 11, 10, 12, *circle_order(8))


def test_an_oblong_flange() -> None:
    # six holes: two on the long axis, four nearer in
    order = points_order([(-30, 20), (30, 20), (80, 0), (30, -20), (-30, -20), (-80, 0)])
    assert order == (1, 4, 2, 5, 3, 6)


place = st.tuples(st.integers(-50, 50), st.integers(-50, 50)).map(lambda xy: (float(xy[0]), float(xy[1])))


@given(st.lists(place, min_size=1, max_size=24, unique=True))
def test_any_layout_is_visited_once(points: list[tuple[float, float]]) -> None:
    assert sorted(points_order(points)) == list(range(1, len(points) + 1))


@given(st.lists(place.filter(lambda xy: xy > (0.0, 0.0)), min_size=1, max_size=10, unique=True))
def test_a_symmetric_layout_is_taken_in_opposite_pairs(half: list[tuple[float, float]]) -> None:
    points = [*half, *((-x, -y) for x, y in half)]
    order = points_order(points)
    for one, other in zip(order[::2], order[1::2], strict=True):
        assert points[one - 1] == tuple(-each for each in points[other - 1])


def test_loosening_runs_backwards() -> None:
    assert loosening_order(circle_order(6)) == (6, 3, 5, 2, 4, 1)
    with pytest.raises(PatternError, match="repeats 1"):
        loosening_order((1, 1))


def test_a_pass_goes_round() -> None:
    assert clockwise_pass(6) == (1, 2, 3, 4, 5, 6)


def test_many_bolts_in_groups() -> None:
    # A page on ASME PCC-1-2019: 48 bolts as 12 groups of 4, in the 12-bolt order.
    groups = group_order(48, 4)
    assert groups[:3] == ((1, 2, 3, 4), (25, 26, 27, 28), (13, 14, 15, 16))
    assert len(groups) == 12
    assert sorted(position for group in groups for position in group) == list(range(1, 49))
    with pytest.raises(PatternError, match="whole groups"):
        group_order(10, 4)


def test_published_variants_are_accepted_as_they_are() -> None:
    # An older 12-bolt order of a gasket handbook (from memory), and another 6 of common practice.
    assert circle_order_remarks(numbers("1 7 4 10 3 9 6 12 2 8 5 11")) == ()
    assert circle_order_remarks(numbers("1 4 6 3 5 2")) == ()


def test_a_poor_order_is_remarked_on() -> None:
    remarks = circle_order_remarks((1, 2, 3, 4, 5, 6))
    assert "1 is followed by its neighbour 2" in remarks
    assert "1 is not followed by its opposite 4" in remarks


def test_an_order_that_is_no_permutation() -> None:
    # our own demonstration data: HC40 with 3 twice and 5 never
    with pytest.raises(PatternError, match="lacks 5 and repeats 3; each of the positions 1 to 6"):
        check_permutation((1, 4, 2, 3, 3, 6), 6)
    with pytest.raises(PatternError, match="names unknown 7"):
        check_permutation((1, 4, 2, 5, 3, 6, 7), 6)


@pytest.mark.parametrize("count", [0, -1, 201])
def test_counts_that_cannot_be(count: int) -> None:
    for make in (circle_order, circle_places, clockwise_pass):
        with pytest.raises(PatternError, match="expected 1 to 200"):
            make(count)


def test_layouts_that_cannot_be() -> None:
    with pytest.raises(PatternError, match="positions 1 and 3 are in the same place"):
        points_order([(0, 0), (1, 0), (0, 0)])
    with pytest.raises(PatternError, match="position 2 has no place"):
        points_order([(0, 0), (math.nan, 0)])
    with pytest.raises(PatternError, match="expected 1 to 200"):
        points_order([])
    with pytest.raises(PatternError, match="15 x 15"):
        rectangle_order(15, 15)


def test_places_on_a_circle_start_at_the_datum_and_go_clockwise() -> None:
    top, right, bottom, left = circle_places(4)
    assert top == pytest.approx((0, 1))
    assert right == pytest.approx((1, 0))
    assert bottom == pytest.approx((0, -1))
    assert left == pytest.approx((-1, 0))
    first = circle_places(6, 1.0)[0]
    assert first == pytest.approx((math.sin(math.pi / 3), 0.5))


def test_rounds_become_shares() -> None:
    assert round_shares(["30 %", "70 %", "100 %"]) == (Decimal("0.3"), Decimal("0.7"), Decimal(1))
    assert round_shares([parse("100 %")]) == (Decimal(1),)


@pytest.mark.parametrize(
    ("rounds", "said"),
    [
        (["30 %", "70 %"], 'found rounds 30 %, 70 %, expected the last one to be "100 %"'),
        ([], "found rounds nothing"),
        (["70 %", "30 %", "100 %"], "more than the one before"),
        (["0 %", "100 %"], "more than the one before"),
        (["50 %", "100 %", "100 %"], "more than the one before"),
        (["120 %", "100 %"], "more than the one before"),
    ],
)
def test_rounds_that_cannot_be(rounds: list[str], said: str) -> None:
    with pytest.raises(PatternError, match=said):
        round_shares(rounds)
    with pytest.raises(QuantityError, match="expected a share"):
        round_shares(["5 N·m"])


def test_a_shuffled_layout_keeps_its_opposites() -> None:
    places = list(circle_places(12))
    random.Random(7).shuffle(places)
    order = points_order(places)
    for one, other in zip(order[::2], order[1::2], strict=True):
        assert math.dist(places[one - 1], places[other - 1]) == pytest.approx(2)
