"""Thread engagement: two published examples, closed forms, and screws that bottom."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.engagement import (
    EngagementError,
    engagement,
    needed_engagement,
    reach,
    screw_shear_area,
    tapped_shear_area,
)
from benchcheck.mechanics.thread import known_threads, parse_thread

M10 = parse_thread("M10")


def test_a_fastener_handbook_example_with_limits_of_size() -> None:
    # Handbook chapter abstract: M10 x 1.5 of class 10.9 in 310 aluminium, 69 600 N, 130 MPa in shear,
    # smallest major
    # diameter 9.968 mm, largest pitch diameter 9.206 mm: 21.6 mm
    needed = needed_engagement(
        69_600, M10, 130, least_major_millimetre=9.968, greatest_pitch_diameter_millimetre=9.206
    )
    assert needed == pytest.approx(21.6, abs=0.06)


def test_a_calculators_example_at_basic_sizes() -> None:
    # Public calculator's worked example: M10, 830 MPa screw, tapped 310 MPa, shear 0.6 of tensile: about
    # 9.4 mm
    load = M10.stress_area_square_millimetre * 830
    assert needed_engagement(load, M10, 0.6 * 310) == pytest.approx(9.4, abs=0.05)
    just_enough = engagement(M10, 10, 830, 310)
    assert just_enough.first_to_fail == "screw breaks"
    assert engagement(M10, 9, 830, 310).first_to_fail == "tapped thread strips"


@given(st.sampled_from(known_threads()), st.floats(1, 100))
def test_closed_forms_at_basic_sizes(thread: object, length: float) -> None:
    # FED-STD-H28 areas reduce to 0.875 π d L and 0.75 π D1 L (derived)
    of = parse_thread(str(thread))
    assert tapped_shear_area(of, length) == pytest.approx(0.875 * math.pi * of.diameter_millimetre * length)
    assert screw_shear_area(of, length) == pytest.approx(
        0.75 * math.pi * of.minor_diameter_millimetre * length
    )


def test_tolerances_take_area_away() -> None:
    assert tapped_shear_area(M10, 10, least_major_millimetre=9.8) < tapped_shear_area(M10, 10)
    assert tapped_shear_area(M10, 10, greatest_pitch_diameter_millimetre=9.2) < tapped_shear_area(M10, 10)
    assert screw_shear_area(M10, 10, least_pitch_diameter_millimetre=8.9) < screw_shear_area(M10, 10)


def test_equal_steels_break_the_screw_within_one_diameter() -> None:
    # common practice: one diameter in steel of the screw's own strength is enough
    assert engagement(M10, 10, 800, 800).first_to_fail == "screw breaks"
    assert engagement(M10, 3, 800, 800).first_to_fail == "screw thread strips"


def test_the_demonstration_pump() -> None:
    # HC40: tapped 0.95 in deep; grip 2.000 or 2.250 in; 2-3/4 and 3 in screws
    for length, grip in ((2.75, 2.000), (3.00, 2.250)):
        into, verdict = reach(length * 25.4, grip * 25.4, 0.95 * 25.4)
        assert verdict == "holds"
        assert into == pytest.approx(0.75 * 25.4)
    assert reach(3.00 * 25.4, 2.000 * 25.4, 0.95 * 25.4) == (0.95 * 25.4, "bottoms")
    into, _ = reach(2.75 * 25.4, 2.250 * 25.4, 0.95 * 25.4)
    five_sixteenths = parse_thread("5/16-18")
    assert engagement(five_sixteenths, into, 1034, 827).engagement_in_diameters == pytest.approx(1.6)
    assert 0.75 * 25.4 / five_sixteenths.diameter_millimetre == pytest.approx(2.4)


def test_lengths_that_cannot_be() -> None:
    with pytest.raises(EngagementError, match="does not reach through 60 mm"):
        reach(55, 60, 20)
    with pytest.raises(EngagementError, match="engagement of 0 mm"):
        engagement(M10, 0, 800, 300)
