"""Gauges: what they can tell, and where their own error decides."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from benchcheck.mechanics.gauge import Gauge, cannot_tell, is_guarded, why_not
from benchcheck.mechanics.units import Quantity, QuantityError, parse

# 0 to 250 psi, accurate to 1 % of full scale: off by 2.5 psi at most.
PSI = Gauge(
    id="PG-01",
    kind="pressure gauge",
    low=parse("0 psi"),
    high=parse("250 psi"),
    graduation=parse("2 psi"),
    accuracy=parse("1 %"),
    calibration_due=date(2027, 2, 15),
)
INCH = Gauge("MI-01", "micrometer", parse("0 in"), parse("1 in"), parse("0.0001 in"), parse("0.0002 in"))
FEELERS = Gauge("FG-01", "feelers")


def psi(value: str) -> Quantity:
    return Quantity(Decimal(value), "psi")


def test_a_share_is_one_of_full_scale() -> None:
    # 1 % of 250 psi is 2.5 psi; 1 psi = 6894.757 Pa (NIST SP 811)
    assert PSI.error == pytest.approx(2.5 * 6894.757, rel=1e-6)
    assert INCH.error == pytest.approx(0.0002 * 0.0254)
    assert FEELERS.error is None


@pytest.mark.parametrize(
    ("value", "guarded"),
    # Limits 147 to 153 psi, less 2.5 on both sides: 149.5 to 150.5 psi (ILAC-G8:09/2019, w = U).
    [("147", False), ("149.4", False), ("149.5", True), ("150", True), ("150.5", True), ("150.6", False)],
)
def test_the_guarded_part_is_inside_by_what_the_gauge_may_be_off(value: str, guarded: bool) -> None:
    assert is_guarded(PSI, psi(value), psi("147"), psi("153")) is guarded


def test_one_limit_alone_is_guarded_on_its_side() -> None:
    assert is_guarded(INCH, parse("0.0902 in"), parse("0.0900 in"), None)
    assert not is_guarded(INCH, parse("0.0901 in"), parse("0.0900 in"), None)
    assert not is_guarded(INCH, parse("0.0899 in"), None, parse("0.0900 in"))


def test_an_error_that_is_not_known_guards_nothing() -> None:
    with pytest.raises(QuantityError):
        is_guarded(FEELERS, parse("0.1 mm"), None, parse("0.2 mm"))
    assert why_not(FEELERS, "mm", None, parse("0.2 mm")) is None
    assert why_not(FEELERS, "mm", None, parse("0.2 mm"), guarded=True) is not None


@pytest.mark.parametrize(
    ("unit", "low", "high", "why"),
    [
        ("bar", None, "9 bar", "shows psi; this is read in bar"),
        ("psi", "240 psi", "260 psi", "reads from 0 psi to 250 psi"),
        ("psi", "20.6 psi", "20.9 psi", "has a mark every 2 psi"),
        ("psi", "148 psi", "152 psi", "may be off by 1 % of its range"),
    ],
)
def test_why_a_gauge_is_not_for_a_reading(unit: str, low: str | None, high: str, why: str) -> None:
    assert why_not(PSI, unit, parse(low) if low else None, parse(high)) == why


def test_what_it_can_tell() -> None:
    assert cannot_tell(PSI, psi("147"), psi("153")) is None
    assert cannot_tell(PSI, None, psi("0")) is None
    assert why_not(PSI, "psi", psi("147"), psi("153"), guarded=True) is None
    assert PSI.is_kind("Pressure gauge")
    assert not PSI.is_kind("gauge")


@pytest.mark.parametrize(
    ("low", "high", "graduation", "accuracy"),
    [
        ("0 psi", "1 in", "2 psi", "1 %"),
        ("5 psi", "5 psi", "2 psi", "1 %"),
        ("0 psi", "25 psi", "2 mm", "1 %"),
        ("0 psi", "25 psi", "2 psi", "1 mm"),
    ],
)
def test_numbers_that_make_no_sense(low: str, high: str, graduation: str, accuracy: str) -> None:
    with pytest.raises(QuantityError, match="gauge X"):
        Gauge("X", "gauge", parse(low), parse(high), parse(graduation), parse(accuracy))
