"""Calibrations: their last day, and readings worked out again for an error."""

from __future__ import annotations

from datetime import date

import pytest

from benchcheck.mechanics.calibration import out_of_date, true_value
from benchcheck.mechanics.units import QuantityError, parse

DUE = date(2026, 11, 24)


def test_the_last_day_still_counts() -> None:
    assert out_of_date(DUE, DUE) is None
    assert out_of_date(DUE, date(2026, 11, 25)) == "calibration ended 24 Nov 2026, 1 day ago"
    assert out_of_date(DUE, date(2026, 12, 24)) == "calibration ended 24 Nov 2026, 30 days ago"


@pytest.mark.parametrize(
    ("shown", "unit", "error", "true"),
    [
        # by hand: 109 / 1.09, 96 / 0.96
        (109.0, "lbf·in", "+9 %", 100.0),
        (96.0, "psi", "-4 %", 100.0),
        # by hand: 150 - 4; 0.0900 + 0.0005; 1 in of error is 25.4 mm (exact)
        (150.0, "psi", "+4 psi", 146.0),
        (0.0900, "in", "-0.0005 in", 0.0905),
        (30.0, "mm", "+1 in", 4.6),
        (70.0, "°C", "+2 °C", 68.0),
    ],
)
def test_what_there_was(shown: float, unit: str, error: str, true: float) -> None:
    assert true_value(shown, unit, parse(error, signed=True)) == pytest.approx(true)


@pytest.mark.parametrize(("unit", "error"), [("psi", "-100 %"), ("psi", "+2 mm"), ("°C", "+2 °F")])
def test_an_error_that_is_none_of_it(unit: str, error: str) -> None:
    with pytest.raises(QuantityError):
        true_value(1.0, unit, parse(error, signed=True))
