"""How a wrench writes its readings: what is understood, and which patterns cannot be one."""

from __future__ import annotations

import pytest

from benchcheck.mechanics.units import QuantityError
from benchcheck.procedure.line_format import LineFormat

NAMED = {"Nm": "N·m", "ftlb": "lbf·ft"}


@pytest.mark.parametrize(
    ("pattern", "line", "shown"),
    [
        ("{value} {unit}", "16.2 Nm", "16.2 N·m"),
        ("{value} {unit}", "  16,2Nm ", "16.2 N·m"),
        ("{value} {unit}", "12 ftlb", "12 lbf·ft"),
        ("{value} {unit}", "188 lbf.in", "188 lbf·in"),
        ("{},{value},{unit}", "0007,16.20,Nm", "16.20 N·m"),
        ("PEAK {value} {unit} {}", "PEAK  16.2 Nm OK", "16.2 N·m"),
        ("{value} {unit}", "-3 Nm", "-3 N·m"),
    ],
)
def test_a_reading_is_understood(pattern: str, line: str, shown: str) -> None:
    assert str(LineFormat(pattern, units=NAMED).read(line)) == shown


@pytest.mark.parametrize(
    "line", ["", "16.2", "Nm", "16.2 furlong", "16.2.3 Nm", "16.2 Nm 4", "16.2 bar", "1e3 Nm"]
)
def test_any_other_line_is_none(line: str) -> None:
    assert LineFormat("{value} {unit}", units=NAMED).read(line) is None


def test_a_line_without_a_unit_has_that_of_the_register() -> None:
    assert str(LineFormat("{value}", "kgf·cm").read("221")) == "221 kgf·cm"


@pytest.mark.parametrize(
    ("pattern", "unit", "units"),
    [
        ("{unit}", "", {}),
        ("{value} {value}", "N·m", {}),
        ("{value}", "", {}),
        ("{value} {unit}", "N·m", {}),
        ("{value} {force}", "N·m", {}),
        ("{value}", "furlong", {}),
        ("{value}", "bar", {}),
        ("{value} {unit}", "", {"x": "furlong"}),
    ],
)
def test_a_pattern_that_cannot_be_one_is_refused(pattern: str, unit: str, units: dict[str, str]) -> None:
    with pytest.raises(QuantityError):
        LineFormat(pattern, unit, units)
