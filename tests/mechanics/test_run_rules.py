"""Run rules: each rule on points that just fire it and points that just do not; how often chance does it."""

from __future__ import annotations

import random
from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics import run_rules, scatter
from benchcheck.mechanics.run_rules import Signal, signals
from tests.published_tables import rows


def fired(*values: float) -> list[tuple[str, int, int]]:
    """The rules that fire on points given in standard deviations from the mean."""
    return [(each.rule, each.first, each.last) for each in signals(values, 0.0, 1.0)]


# The rules as published (see the module); by hand, the last point is the one that fires or does not.
CASES: list[tuple[str, tuple[float, ...], tuple[float, ...]]] = [
    (run_rules.BEYOND_LIMIT, (0, 3.01), (0, 3.0)),
    (run_rules.BEYOND_LIMIT, (0, -3.01), (0, -3.0)),
    (run_rules.TWO_OF_THREE, (2.1, 0, 2.1), (2.1, 0, 0, 2.1)),
    (run_rules.TWO_OF_THREE, (-2.1, -2.1), (-2.1, 2.1)),
    (run_rules.FOUR_OF_FIVE, (1.1, 1.1, 0, 1.1, 1.1), (1.1, 1.1, 0, -0.1, 1.1, 1.1)),
    (run_rules.FOUR_OF_FIVE, (-1.1,) * 4, (-1.1,) * 3),
    (run_rules.EIGHT_ON_ONE_SIDE, (0.1,) * 8, (0.1,) * 7),
    (run_rules.EIGHT_ON_ONE_SIDE, (-0.1,) * 8, (-0.1,) * 7 + (0.0,)),
    (run_rules.SIX_RISING_OR_FALLING, (-0.5, -0.3, -0.1, 0.1, 0.3, 0.5), (-0.3, -0.1, 0.1, 0.3, 0.5)),
    (run_rules.SIX_RISING_OR_FALLING, (0.5, 0.3, 0.1, -0.1, -0.3, -0.5), (0.5, 0.3, 0.1, 0.1, -0.3, -0.5)),
    (run_rules.FOURTEEN_ALTERNATING, (0.1, -0.1) * 7, (0.1, -0.1) * 6 + (0.1,)),
]


@pytest.mark.parametrize(("rule", "fires", "nearly"), CASES)
def test_each_rule_fires_and_nearly_does(
    rule: str, fires: tuple[float, ...], nearly: tuple[float, ...]
) -> None:
    assert [(each[0], each[2]) for each in fired(*fires)] == [(rule, len(fires) - 1)]
    assert fired(*nearly) == []


def test_a_rule_that_fires_on_and_on_is_told_once_with_all_its_points() -> None:
    assert fired(*(0.0, *(0.1,) * 12)) == [(run_rules.EIGHT_ON_ONE_SIDE, 1, 12)]


def test_the_sentence_says_which_points_and_which_way() -> None:
    assert signals([0, 4], 0, 1) == (
        Signal(
            run_rules.BEYOND_LIMIT,
            1,
            1,
            "Point 2: beyond the control limit, three standard deviations above the mean.",
        ),
    )
    (said,) = signals([-0.1] * 8, 0, 1)
    assert said.sentence == "Points 1 to 8: eight in a row, or more, lie below the mean."


def test_the_nist_example_is_in_control_by_its_limits() -> None:
    # NIST/SEMATECH e-Handbook 6.3.2.2 says that the process is in control: no point is beyond its limits.
    values = [float(row["x"]) for row in rows("nist_individuals_flowrate")]
    chart = scatter.individuals_chart(values)
    found = signals(values, chart.mean, chart.mean_moving_range / scatter.D2_OF_TWO)
    assert run_rules.BEYOND_LIMIT not in {each.rule for each in found}


def test_a_deviation_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="more than 0"):
        signals([1, 1], 1, 0)


def test_chance_fires_the_first_four_rules_about_every_ninety_points() -> None:
    # Champ and Woodall (1987), as the NIST e-Handbook quotes it (from memory): with the four rules together a
    # false alarm comes every 91.75 points on average. 200 runs leave a standard error of about 6.
    chance = random.Random(1956)
    length = {
        run_rules.BEYOND_LIMIT: 1,
        run_rules.TWO_OF_THREE: 3,
        run_rules.FOUR_OF_FIVE: 5,
        run_rules.EIGHT_ON_ONE_SIDE: 8,
    }
    lasted: list[int] = []
    while len(lasted) < 200:
        points: list[float] = []
        alarms: list[int] = []
        while not alarms:
            points += (chance.gauss(0, 1) for _ in range(max(60, len(points))))
            found = signals(points, 0, 1)
            alarms = [each.first + length[each.rule] for each in found if each.rule in length]
        lasted.append(min(alarms))
    assert fmean(lasted) == pytest.approx(91.75, abs=15)


@given(st.lists(st.floats(-5, 5), min_size=1, max_size=30), st.floats(-100, 100), st.floats(0.1, 10))
def test_neither_unit_nor_zero_changes_what_fires(
    values: list[float], centre: float, deviation: float
) -> None:
    rounded = [round(value * 8) / 8 for value in values]
    scaled = [value * 4 + 16 for value in rounded]
    assert signals(rounded, 0, 1) == signals(scaled, 16, 4)
