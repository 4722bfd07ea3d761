"""Charts and capability against NIST's handbook; evenness of readings against exact enumeration."""

from __future__ import annotations

import math
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics import scatter
from benchcheck.mechanics.scatter import ScatterError
from tests.published_tables import rows

# Shigley's Mechanical Engineering Design, 9th ed., Table 8-14: lubricated bolts, all torqued to 90 N·m.
LUBRICATED_KILONEWTON = (30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5)


def test_individuals_chart_of_the_nist_example() -> None:
    # NIST/SEMATECH e-Handbook 6.3.2.2, flow rate of ten batches, to the digits it prints.
    printed = rows("nist_individuals_flowrate")
    values = [float(row["x"]) for row in printed]
    printed_ranges = [float(row["moving_range"]) for row in printed if row["moving_range"]]
    assert scatter.moving_ranges(values) == pytest.approx(printed_ranges)
    chart = scatter.individuals_chart(values)
    assert round(chart.mean, 2) == 50.81
    assert round(chart.mean_moving_range, 4) == 1.8778
    assert round(chart.upper_limit, 4) == 55.8041
    assert round(chart.lower_limit, 4) == 45.8159
    assert round(chart.moving_range_upper_limit, 3) == 6.135  # 3.267 × 1.8778, derived
    assert chart.outside == () and chart.ranges_outside == ()


def test_constants_of_the_chart() -> None:
    # Closed forms for ranges of two normal values; NIST prints them rounded.
    d2, d3 = 2 / math.sqrt(math.pi), math.sqrt(2 - 4 / math.pi)
    assert pytest.approx(d2, abs=5e-4) == scatter.D2_OF_TWO
    assert pytest.approx(1 + 3 * d3 / d2, abs=5e-4) == scatter.D4_OF_TWO


def test_a_value_out_of_line_is_named() -> None:
    chart = scatter.individuals_chart([10, 10.2] * 8 + [14] + [10, 10.2] * 8)
    assert chart.outside == (16,)
    assert chart.ranges_outside == (15, 16)


def test_spread_of_the_published_preloads() -> None:
    # The book prints mean 34.18 and standard deviation 2.88 kN for Table 8-14.
    found = scatter.spread(LUBRICATED_KILONEWTON)
    assert (found.count, round(found.mean, 2), round(found.standard_deviation, 2)) == (10, 34.18, 2.88)
    assert (found.lowest, found.highest) == (30.3, 40.5)


def test_capability_of_the_nist_example() -> None:
    # NIST/SEMATECH e-Handbook 6.1.6, from memory: limits 8 and 20, mean 16, standard deviation 2.
    found = scatter.capability(16, 2, 8, 20)
    assert found.potential == pytest.approx(1.0)
    assert found.off_centre == pytest.approx(0.3333, abs=5e-5)
    assert found.actual == pytest.approx(0.6667, abs=5e-5)
    assert found.actual == pytest.approx((1 - found.off_centre) * found.potential)


def test_capability_of_a_printed_problem() -> None:
    # A printed problem gives mean 130, deviation 8, limits 100 and 150; the answers are derived: normal tails
    # of 2.5 and 3.75 standard deviations, 0.00621 and 0.00009.
    found = scatter.capability(130, 8, 100, 150)
    assert found.potential == pytest.approx(1.0417, abs=5e-5)
    assert found.actual == pytest.approx(0.8333, abs=5e-5)
    assert found.expected_outside == pytest.approx(0.00621 + 0.00009, abs=1e-5)


def test_limits_in_the_wrong_order_are_refused() -> None:
    # A public calculator answers −0.024 for limits 7 and 9 the wrong way round.
    with pytest.raises(ScatterError, match="found limits 9 to 7"):
        scatter.capability(8, 14, 9, 7)


@given(st.floats(-1e3, 1e3), st.floats(0.01, 100), st.floats(-1e3, 1e3), st.floats(0.01, 1e3))
def test_actual_capability_never_beats_the_potential(
    mean: float, deviation: float, low: float, width: float
) -> None:
    found = scatter.capability(mean, deviation, low, low + width)
    assert found.actual <= found.potential + 1e-9
    assert 0 <= found.expected_outside <= 1


@pytest.mark.parametrize("steps", [0, 1, 2, 3])
@pytest.mark.parametrize("count", [2, 3, 4])
def test_closeness_against_enumeration(steps: int, count: int) -> None:
    # Every possible set of readings, with its probability, counted one by one.
    ratio = 0.9  # graduation over standard deviation
    reach = 7

    def below(z: float) -> float:
        return math.erfc(-z / math.sqrt(2)) / 2

    best = 0.0
    for tenths in range(6):
        share = {
            k: below((k + 0.5 - tenths / 10) * ratio) - below((k - 0.5 - tenths / 10) * ratio)
            for k in range(-reach, reach + 1)
        }
        total = sum(
            math.prod(share[k] for k in readings)
            for readings in product(share, repeat=count)
            if max(readings) - min(readings) <= steps
        )
        best = max(best, total)
    readings = [16.0] * (count - 1) + [16.0 + steps * 0.9]
    assert scatter.too_even(readings, 0.9, 1.0).probability == pytest.approx(best, abs=1e-6)


def test_two_of_the_same_are_a_coincidence() -> None:
    # Two readings, both measures: the chance of one graduation twice.
    even = scatter.too_even([20.0, 20.0], 0.5, 1.0).probability
    assert scatter.copied([20.0, 21.0], [20.0, 21.0], 0.5, 1.0).probability == pytest.approx(even**2)


def test_a_coarse_scale_explains_like_readings() -> None:
    # 16 lbf·ft at 4 % and a scale in halves: six times the same is what one expects to see.
    deviation = scatter.honest_deviation(16, 0.04)
    assert deviation == pytest.approx(0.16)
    found = scatter.too_even([16.0] * 6, 0.5, deviation)
    assert found.probability > 0.05
    assert found.sentence == "6 readings are the same: nothing unusual"


def test_a_fine_scale_does_not() -> None:
    deviation = scatter.honest_deviation(21.7, 0.02)
    found = scatter.too_even([21.7] * 12, 0.1, deviation)
    assert found.probability < 1e-5
    assert "12 readings are the same: honest readings do that once in" in found.sentence
    assert "less than once in a thousand million" in scatter.too_even([21.7] * 40, 0.1, deviation).sentence


def test_readings_copied_from_an_earlier_pump() -> None:
    earlier = [21.5, 21.8, 21.7, 21.6, 21.9, 21.7]
    honest = [21.7, 21.6, 21.8, 21.8, 21.6, 21.5]
    assert scatter.copied(earlier, earlier, 0.1, 0.11).probability < 1e-3
    assert scatter.copied(honest, earlier, 0.1, 0.11).probability == 1.0
    assert "6 of 6 readings" in scatter.copied(earlier, earlier, 0.1, 0.11).sentence


def test_readings_that_repeat_themselves() -> None:
    pattern = [21.5, 21.8, 21.7, 21.9] * 4
    found = scatter.repeating(pattern, 0.1, 0.11)
    assert found.probability < 1e-5
    assert "12 of 12 readings are the one 4 before again" in found.sentence
    assert scatter.repeating([21.5, 21.8, 21.7, 21.9, 21.6, 21.4], 0.1, 0.11).probability == 1.0


@given(
    st.lists(st.integers(-5, 5), min_size=2, max_size=12),
    st.floats(0.05, 5),
    st.integers(1, 3),
)
def test_probabilities(steps: list[int], ratio: float, closer: int) -> None:
    readings = [20 + step * 0.1 for step in steps]
    for found in (
        scatter.too_even(readings, 0.1, 0.1 * ratio),
        scatter.repeating(readings, 0.1, 0.1 * ratio),
        scatter.copied(readings, readings[::-1], 0.1, 0.1 * ratio),
    ):
        assert 0 <= found.probability <= 1
    # Pulling the readings together makes them no likelier, and neither does a steadier hand less likely.
    together = [20 + (step // closer) * 0.1 for step in steps]
    even = scatter.too_even(readings, 0.1, 0.1 * ratio).probability
    assert scatter.too_even(together, 0.1, 0.1 * ratio).probability <= even + 1e-9
    assert scatter.too_even(readings, 0.1, 0.1 * ratio / 2).probability >= even - 1e-9


def test_nonsense_is_refused() -> None:
    with pytest.raises(ScatterError, match="two numbers or more"):
        scatter.individuals_chart([1.0])
    with pytest.raises(ScatterError, match="two numbers or more"):
        scatter.spread([1.0, math.nan])
    with pytest.raises(ScatterError, match="above zero"):
        scatter.capability(1, 0, 0, 2)
    with pytest.raises(ScatterError, match="as many in both"):
        scatter.copied([1, 2], [1], 0.1, 0.1)
    with pytest.raises(ScatterError, match="above zero"):
        scatter.too_even([1, 2], 0, 0.1)
    with pytest.raises(ScatterError, match="so fine"):
        scatter.too_even([1, 2], 1e-9, 0.1)
    with pytest.raises(ScatterError, match="accuracy between 0 and 1"):
        scatter.honest_deviation(16, 4)
