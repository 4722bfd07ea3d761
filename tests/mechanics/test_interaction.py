"""Elastic interaction against theory: no consistent published matrix with its measured result was found.

So the checks are an arithmetic example worked by hand, closed forms for two bolts, the algebra of circulant
matrices, the exact inverse, and what must hold for any group.
"""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.interaction import (
    Influence,
    InteractionError,
    check_passes_worth_doing,
    circle_influence,
    measured_influence,
    points_influence,
    simulate,
    uniform_settings,
)

CROSS_OF_EIGHT = (1, 5, 3, 7, 2, 6, 4, 8)
ratios = st.floats(0.05, 50)


def circle(positions: int) -> list[tuple[float, float]]:
    return [
        (math.cos(2 * math.pi * k / positions), math.sin(2 * math.pi * k / positions))
        for k in range(positions)
    ]


@pytest.mark.parametrize(
    ("order", "left"),
    # Worked by hand: four bolts, each tightened once to 100; 5 % taken from a neighbour, 2 % from across.
    [((1, 3, 2, 4), (88, 98, 90, 100)), ((1, 2, 3, 4), (88, 93, 95, 100))],
)
def test_arithmetic_example(order: tuple[int, ...], left: tuple[float, ...]) -> None:
    (once,) = simulate(measured_influence(4, [0.05, 0.02]), order, [1.0], check_passes=0)
    assert [100 * held for held in once.preloads] == pytest.approx(left)


def test_arithmetic_example_compensated() -> None:
    # The same four bolts: set 112.302, 102, 110.1, 100 by position, and each ends at 100.
    settings = uniform_settings(measured_influence(4, [0.05, 0.02]), (1, 3, 2, 4))
    assert [100 * setting for setting in settings] == pytest.approx([112.302, 102, 110.1, 100])


@given(ratios, ratios)
def test_two_bolts_closed_form(joint: float, flange: float) -> None:
    # Two positions tied twice, round both sides of the circle. Solved by hand: with a = 1 + joint + 2·flange
    # and b = 2·flange, turning one nut changes the forces by 1 − a/(a² − b²) and −b/(a² − b²).
    a, b = 1 + joint + 2 * flange, 2 * flange
    found = circle_influence(2, joint_to_bolt=joint, flange_to_bolt=flange)
    assert found.columns[0][1] == pytest.approx(-b / (a * a - b * b - a))


@given(st.integers(2, 12), ratios)
def test_a_rigid_flange_closed_form(positions: int, joint: float) -> None:
    # Solved by hand: a rigid flange on n joints and n bolts moves 1/(n(joint + 1)) for a unit of nut travel,
    # so each other bolt loses 1/(n(joint + 1) − 1) of what the tightened one gains.
    found = circle_influence(positions, joint_to_bolt=joint, flange_to_bolt=1e7)
    for loss in found.columns[0][1:]:
        assert -loss == pytest.approx(1 / (positions * (joint + 1) - 1), rel=1e-3)


@given(st.integers(1, 40), ratios, ratios)
def test_the_closed_form_is_the_inverse(positions: int, joint: float, flange: float) -> None:
    # Rebuild (1 + M)⁻¹ from the influence and multiply it by 1 + M: the result is the unit matrix. The
    # rows of the inverse sum to 1/(1 + joint), since M turns a uniform compression into joint times itself.
    column = circle_influence(positions, joint_to_bolt=joint, flange_to_bolt=flange).columns[0]
    others = -sum(column[1:])
    own = (1 / (1 + joint) - others) / (1 - others)
    inverse = [own, *(-value * (1 - own) for value in column[1:])]
    diagonal = 1 + joint + 2 * flange
    for k in range(positions):
        product = diagonal * inverse[k]
        product -= flange * (inverse[k - 1] + inverse[(k + 1) % positions])
        assert product == pytest.approx(1.0 if k == 0 else 0.0, abs=1e-8)


@given(st.integers(1, 24), ratios, ratios)
def test_a_circle_is_circulant_and_symmetric(positions: int, joint: float, flange: float) -> None:
    columns = circle_influence(positions, joint_to_bolt=joint, flange_to_bolt=flange).columns
    for j in range(positions):
        for i in range(positions):
            assert columns[j][i] == columns[0][(i - j) % positions]
            assert columns[j][i] == pytest.approx(columns[i][j])


@given(st.integers(3, 24), ratios, ratios)
def test_a_farther_position_loses_less(positions: int, joint: float, flange: float) -> None:
    losses = [
        -value for value in circle_influence(positions, joint_to_bolt=joint, flange_to_bolt=flange).columns[0]
    ]
    half = losses[1 : positions // 2 + 1]
    assert half == sorted(half, reverse=True)
    assert all(loss >= 0 for loss in half)


def test_points_on_a_circle_of_three_are_the_circle() -> None:
    # With three positions each is the neighbour of each, so both models are the same.
    drawn, exact = points_influence(circle(3)), circle_influence(3)
    for one, other in zip(drawn.columns, exact.columns, strict=True):
        assert one == pytest.approx(other)


@given(st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)), min_size=2, max_size=10, unique=True))
def test_points_act_on_each_other_by_distance_alone(points: list[tuple[int, int]]) -> None:
    here = points_influence(points)
    elsewhere = points_influence([(25.4 * y + 7, -25.4 * x) for x, y in points])
    for one, other in zip(here.columns, elsewhere.columns, strict=True):
        assert one == pytest.approx(other)
    for j, column in enumerate(here.columns):
        assert column[j] == 1.0
        assert all(value < 0 for i, value in enumerate(column) if i != j)


@given(st.permutations(range(1, 9)), ratios, ratios)
def test_compensated_settings_end_uniform(order: list[int], joint: float, flange: float) -> None:
    # Exact inverse: feed the settings back as one pass, a position at a time, and all end at the target.
    influence = circle_influence(8, joint_to_bolt=joint, flange_to_bolt=flange)
    settings = uniform_settings(influence, order)
    held = [0.0] * 8
    for done, position in enumerate(order):
        setting = settings[position - 1]
        for earlier in order[:done]:
            held[earlier - 1] += setting * influence.columns[position - 1][earlier - 1]
        held[position - 1] = setting
    assert held == pytest.approx([1.0] * 8)
    assert settings[order[-1] - 1] == 1.0


@given(st.permutations(range(1, 13)), st.floats(0.5, 20), st.floats(0.1, 20))
def test_what_holds_for_any_order(order: list[int], joint: float, flange: float) -> None:
    influence = circle_influence(12, joint_to_bolt=joint, flange_to_bolt=flange)
    passes = simulate(influence, order, [0.3, 0.7, 1.0], check_passes=4)
    full = passes[2]
    # The last position keeps its value; nothing gains, so nothing ends above the target, or below zero.
    assert full.preloads[order[-1] - 1] == 1.0
    assert all(0 <= held <= 1 + 1e-12 for held in full.preloads)
    # Each check pass lifts the lowest and narrows the scatter. (Not so for a joint softer than half its
    # bolts: there a pass may take away more than it mends.)
    for before, after in pairwise(passes[2:]):
        assert after.lowest >= before.lowest - 1e-12
        assert after.scatter <= before.scatter + 1e-12


def test_a_group_without_interaction_is_done_after_its_rounds() -> None:
    apart = measured_influence(8, [])
    passes = simulate(apart, CROSS_OF_EIGHT, [0.3, 0.7, 1.0])
    assert passes[2].preloads == (1.0,) * 8
    assert passes[3].is_check and passes[3].moved == ()
    assert passes[2].moved == CROSS_OF_EIGHT
    assert check_passes_worth_doing(apart, CROSS_OF_EIGHT, [0.3, 0.7, 1.0]) == 0


def test_a_softer_joint_needs_more_check_passes() -> None:
    needed = [
        check_passes_worth_doing(circle_influence(8, joint_to_bolt=joint), CROSS_OF_EIGHT, [0.3, 0.7, 1.0])
        for joint in (20.0, 4.0, 1.0, 0.25)
    ]
    assert needed == sorted(needed)
    assert needed[0] < needed[-1]


def test_one_position_alone() -> None:
    assert simulate(circle_influence(1), (1,), [1.0])[0].preloads == (1.0,)


def test_a_gain_may_lift_a_position_over_the_target() -> None:
    (once,) = simulate(measured_influence(4, [0.0, -0.02]), (1, 3, 2, 4), [1.0], check_passes=0)
    assert once.highest == pytest.approx(1.02)


def test_a_joint_that_opens_does_not_pull() -> None:
    (once,) = simulate(measured_influence(3, [0.9]), (1, 2, 3), [1.0], check_passes=0)
    assert once.preloads == pytest.approx((0.0, 0.1, 1.0))


def test_assumptions_are_named() -> None:
    for influence in (circle_influence(8), points_influence(circle(8)), measured_influence(8, [0.05])):
        assert "estimate" in influence.assumptions[0]
    assert "4 times as stiff as its bolt" in circle_influence(8).assumptions[1]


def test_nonsense_is_refused() -> None:
    with pytest.raises(InteractionError, match="1 to 8 once"):
        simulate(circle_influence(8), (1, 2, 3, 4, 5, 6, 7, 7), [1.0])
    with pytest.raises(InteractionError, match="above 0 and not above"):
        simulate(circle_influence(2), (1, 2), [0.0])
    with pytest.raises(InteractionError, match="above 0 and not above"):
        simulate(circle_influence(2), (1, 2), [math.nan])
    with pytest.raises(InteractionError, match="farthest position is 4"):
        measured_influence(8, [0.1] * 5)
    with pytest.raises(InteractionError, match="less than 1"):
        measured_influence(8, [math.nan])
    with pytest.raises(InteractionError, match="same point"):
        points_influence([(0, 0), (0, 0)])
    with pytest.raises(InteractionError, match="above 0"):
        circle_influence(8, joint_to_bolt=0)
    with pytest.raises(InteractionError, match="at least one"):
        circle_influence(0)
    with pytest.raises(InteractionError, match="as many rows"):
        Influence(((1.0, 0.0),), ())
