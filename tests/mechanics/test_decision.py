"""Decision rules against ILAC-G8 and the normal tail."""

from __future__ import annotations

import pytest
import scipy.stats  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.decision import (
    false_accept_probability,
    guarded_outcome,
    proof_of_conformity,
    uncertainty_ratio,
)


@pytest.mark.parametrize(
    ("reading", "outcome"),
    [
        # Target 100 N·m ±5 %, U = 1.5 N·m, guard w = U; the zones are those of ILAC-G8:09/2019, the numbers
        # derived.
        (100.0, "pass"),
        (103.5, "pass"),
        (96.5, "pass"),
        (104.0, "conditional pass"),
        (95.0, "conditional pass"),
        (105.5, "conditional fail"),
        (107.0, "fail"),
        (93.0, "fail"),
    ],
)
def test_zones_of_the_guard_band(reading: float, outcome: str) -> None:
    assert guarded_outcome(reading, 95, 105, 1.5) == outcome


def test_simple_acceptance_has_no_zone_between() -> None:
    assert guarded_outcome(105, 95, 105, 0) == "pass"
    assert guarded_outcome(105.001, 95, 105, 0) == "fail"


@pytest.mark.parametrize(
    ("reading", "proof"),
    [(100, "conforms"), (104, "not proved"), (106, "not proved"), (107, "does not conform")],
)
def test_what_is_proved(reading: float, proof: str) -> None:
    # ISO 14253-1, from memory of the standard
    assert proof_of_conformity(reading, 95, 105, 1.5) == proof


@pytest.mark.parametrize(("standard_uncertainties", "risk"), [(2, 0.02275), (1.64, 0.0505), (0, 0.5)])
def test_risk_of_false_acceptance(standard_uncertainties: float, risk: float) -> None:
    # ILAC-G8: w = U (2 u) under 2.5 %, w = 0 up to 50 %; digits from the normal table
    assert false_accept_probability(10 - standard_uncertainties * 0.3, 10, 0.3) == pytest.approx(
        risk, abs=5e-5
    )


@given(st.floats(-100, 100), st.floats(-100, 100), st.floats(0.01, 50))
def test_risk_against_scipy(value: float, limit: float, uncertainty: float) -> None:
    expected = scipy.stats.norm.sf(limit, loc=value, scale=uncertainty)
    assert false_accept_probability(value, limit, uncertainty) == pytest.approx(
        expected, rel=1e-9, abs=1e-300
    )


def test_uncertainty_ratio() -> None:
    # 5 / 1.5 = 3.33, below the usual 4 (derived)
    assert uncertainty_ratio(95, 105, 1.5) == pytest.approx(10 / 3)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="lower one first"):
        guarded_outcome(1, 9, 7, 0.1)
    with pytest.raises(ValueError, match="0 or more"):
        proof_of_conformity(1, 7, 9, -0.1)
    with pytest.raises(ValueError, match="more than 0"):
        false_accept_probability(1, 2, 0)
    with pytest.raises(ValueError, match="no measurement is exact"):
        uncertainty_ratio(1, 2, 0)
