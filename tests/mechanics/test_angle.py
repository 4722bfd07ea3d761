"""Torque then angle: our own demonstration data, the two limits of stiffness, and what must always hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.angle import AngleError, after_angle, in_series, preload_of_angle, rod_stiffness
from benchcheck.mechanics.preload import preload_by_nut_factor
from benchcheck.mechanics.strength import strength
from benchcheck.mechanics.thread import parse_thread

M10 = parse_thread("M10")


def test_stiffness_of_the_demonstration_screw() -> None:
    # VV07: M10 over a grip of 70 mm, 170 N/µm; joint four times as stiff: 136 N/µm together
    screw = rod_stiffness(M10.stress_area_square_millimetre, 70)
    assert screw == pytest.approx(170_000, rel=2e-3)
    assert in_series(170_000, 4 * 170_000) == pytest.approx(136_000)


@pytest.mark.parametrize(
    ("angle", "preload_kilonewton", "share"), [(45, 38.8, 0.81), (50, 41.7, 0.87), (60, 47.3, 0.98)]
)
def test_angles_of_the_demonstration(angle: float, preload_kilonewton: float, share: float) -> None:
    # VV07: snug 20 N·m at K 0.15, then 45°: 81 % of the proof load of M10 10.9; 50°: 87 %; 60°: 98 %
    snug = preload_by_nut_factor(20, 0.15, 10)
    result = after_angle(snug, angle, M10, strength("10.9", 10), 170_000, 680_000)
    assert result.preload_newton / 1000 == pytest.approx(preload_kilonewton, abs=0.05)
    assert result.share_of_proof == pytest.approx(share, abs=0.006)
    assert result.margin_to_yield == pytest.approx(1 - result.share_of_proof * 830 / 940)


def test_a_quarter_turn_on_a_rigid_joint_stretches_the_screw_by_a_quarter_pitch() -> None:
    # elementary: F = k ΔL
    rigid = in_series(100_000, 1e15)
    assert preload_of_angle(90, 1.5, rigid) == pytest.approx(100_000 * 1.5 / 4, rel=1e-6)


positive = st.floats(1, 1e7)


@given(positive, positive)
def test_in_series_is_softer_than_either(one: float, other: float) -> None:
    assert in_series(one, other) <= min(one, other)
    assert in_series(one, other) == pytest.approx(in_series(other, one))


@given(st.floats(0, 400), st.floats(0, 400), positive)
def test_angles_add_up(one: float, other: float, stiffness: float) -> None:
    both = preload_of_angle(one + other, 1.5, stiffness)
    assert both == pytest.approx(
        preload_of_angle(one, 1.5, stiffness) + preload_of_angle(other, 1.5, stiffness)
    )


def test_nonsense_is_refused() -> None:
    with pytest.raises(AngleError, match="length of 0"):
        rod_stiffness(58, 0)
    with pytest.raises(AngleError, match="area of -1"):
        rod_stiffness(-1, 70)
    with pytest.raises(AngleError, match="stiffness of 0"):
        in_series(0, 1)
