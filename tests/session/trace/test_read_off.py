"""What was read on an instrument that was wrong, worked out by hand; and what took a reading back."""

from __future__ import annotations

import pytest

from benchcheck.mechanics.units import parse
from benchcheck.session.events import Measured
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.read_off import ReadOff, read_off, recalibrated_reading
from benchcheck.session.trace.search import Standing, Touched, touched
from benchcheck.session.trace.wanted import Wanted
from tests.pumps import can_with, registers, tiny_job
from tests.session.bench import Bench

GAP = 'ask = [{ what = "gap under the cover", max = "0.05 mm" }]\noutside = "back to cover"'
ASKED = """ask = [
  { what = "pressure", min = "147 psi", max = "153 psi", places = 2, gauge = "pressure gauge" },
  { what = "washer", min = "0.0900 in", gauge = "micrometer" },
]"""


def past(*readings: str) -> Past:
    """The can with two pressures and a washer read on the demonstration's gauges."""
    bench = Bench(tiny_job(can_with((GAP, ASKED)))).until("gap/ask")
    bench.say("PG-01", *readings[:-1], "MI-01", readings[-1])
    return Past("can.toml", bench.state.header, tuple(bench.events()), bench.state.job)


def found(past: Past, name: str, error: str = "") -> Touched:
    wanted = Wanted("instrument", name, error=parse(error, signed=True) if error else None)
    touches = touched(past, wanted, registers())
    assert touches is not None
    return touches


def reading(shown: float, unit: str, low: float | None, high: float | None) -> ReadOff:
    event = Measured(act="t/ask:0", what="it", value=shown, unit=unit, si=0.0, verdict="inside")
    return ReadOff(event, low, high, None)


@pytest.mark.parametrize(
    ("shown", "unit", "low", "high", "error", "true", "beyond"),
    # By hand: shown / (1 + share), or shown − value; then how far that is outside.
    [
        (150.0, "psi", 147.0, 153.0, "+3 %", 145.63107, -1.36893),
        (150.0, "psi", 147.0, 153.0, "+2 psi", 148.0, 0.0),
        (150.0, "psi", 147.0, 153.0, "+3 psi", 147.0, 0.0),
        (150.0, "psi", 147.0, 153.0, "-4 psi", 154.0, 1.0),
        (0.0902, "in", 0.0900, None, "+0.0005 in", 0.0897, -0.0003),
        (0.0902, "in", 0.0900, None, "-0.0005 in", 0.0907, 0.0),
        (0.05, "mm", None, 0.05, "-10 %", 0.05556, 0.00556),
        # one limit given in another unit of length: 0.001 in is 0.0254 mm
        (1.0, "mm", 0.98, 1.02, "+0.001 in", 0.9746, -0.0054),
    ],
)
def test_a_reading_is_worked_out_anew_as_by_hand(
    shown: float, unit: str, low: float | None, high: float | None, error: str, true: float, beyond: float
) -> None:
    again = recalibrated_reading(reading(shown, unit, low, high), parse(error, signed=True))
    assert again is not None
    assert again.true == pytest.approx(true, abs=5e-6)
    assert again.beyond == pytest.approx(beyond, abs=5e-6)


def test_without_limits_or_with_an_error_of_another_kind_nothing_can_be_said() -> None:
    assert recalibrated_reading(reading(1.0, "psi", None, None), parse("3 %")) is None
    assert recalibrated_reading(reading(1.0, "psi", 0.0, 2.0), parse("3 mm")) is None


def test_readings_that_leave_their_limits_are_found_by_their_gauge() -> None:
    # 150 − 4 = 146, 1 below 147; 152 − 4 = 148 stays inside
    touches = found(past("150", "152", "0.0945"), "pg-01", "+4 psi")
    assert touches.standing is Standing.OUTSIDE
    assert [use.recalibrated and use.recalibrated.beyond for use in touches.uses] == [
        pytest.approx(-1.0),
        0.0,
    ]
    assert [use.event.number for use in touches.uses] == sorted(use.event.number for use in touches.uses)
    assert found(past("150", "152", "0.0945"), "PG-01", "+1 psi").standing is Standing.INSIDE
    assert found(past("150", "152", "0.0945"), "MI-01", "+0.0045 in").standing is Standing.INSIDE
    assert found(past("150", "152", "0.0945"), "MI-01", "+0.0046 in").standing is Standing.OUTSIDE
    assert found(past("150", "152", "0.0945"), "PG-01", "+1 mm").standing is Standing.NOT_KNOWN
    assert found(past("150", "152", "0.0945"), "PG-01").standing is Standing.TOUCHED


def test_a_gauge_that_read_nothing_touches_nothing() -> None:
    assert touched(past("150", "152", "0.0945"), Wanted("instrument", "PG-02"), registers()) is None


def test_a_reading_that_was_taken_anew_stands_no_more() -> None:
    of_it = past("160", "again", "150", "150", "0.0945")
    first, second, third = (each for each in read_off(of_it) if each.event.what == "pressure")
    assert first.undone is second.event and second.undone is None and third.undone is None
    # 160 psi is outside as it was; what stands is inside: 150 / 1.01 = 148.51
    assert found(of_it, "PG-01", "+1 %").standing is Standing.INSIDE


def test_a_running_torque_names_its_wrench_and_has_the_limits_of_its_nut() -> None:
    nut = ("layout", 'prevailing = { min = "1 N·m", max = "6 N·m", add = "never" }\nlayout')
    bench = Bench(tiny_job(can_with(nut))).until("F-tight/tighten:F running")
    bench.go_on()
    whole = Past("can.toml", bench.state.header, tuple(bench.events()), bench.state.job)
    (torque,) = (each for each in read_off(whole) if each.event.unit == "N·m")
    assert torque.event.instrument.startswith("TW-") and (torque.low, torque.high) == (1.0, 6.0)
