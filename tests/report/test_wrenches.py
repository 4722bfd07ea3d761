"""What is said of a shop's wrenches and one target, as text and for programs."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from benchcheck.mechanics.units import QuantityError, parse
from benchcheck.mechanics.wrench import Kind, Wrench
from benchcheck.report.wrenches import answer, as_json, as_text, crow_foot, crow_foot_json

DAY = date(2026, 11, 24)


def wrench(name: str, kind: Kind, low: str, high: str, step: str, accuracy: str, due: date) -> Wrench:
    unit = parse(step).unit
    return Wrench(
        name, kind, parse(low), parse(high), parse(step), Decimal(accuracy), (unit,), ("right",), 450.0, due
    )


# Three of the invented register of the demonstration workshop.
REGISTER = (
    wrench("TW-01", "setting", "10 lbf·ft", "50 lbf·ft", "0.5 lbf·ft", "0.04", date(2027, 3, 31)),
    wrench("TW-02", "dial", "20 lbf·in", "250 lbf·in", "2 lbf·in", "0.03", date(2027, 1, 15)),
    wrench("TW-06", "setting", "5 N·m", "25 N·m", "0.25 N·m", "0.04", date(2026, 10, 31)),
)


def test_the_best_one_first_then_the_others_and_why() -> None:
    assert as_text(answer(REGISTER, "16 lbf·ft", "10 %", on=DAY)).splitlines() == [
        "16 lbf·ft wanted, 14.4 to 17.6 lbf·ft allowed",
        "",
        "TW-02  pull until it shows 192 lbf·in",
        "  good: 178 to 204 lbf·in",
        "  true torque: 15.53 to 16.49 lbf·ft",
        "  14.4 [---------------------------------------------------] 17.6 lbf·ft",
        "                          =======#========",
        "",
        "Others",
        "  TW-01  16.0 lbf·ft, misses by 4.2 % at most",
        "  TW-06  calibration ended 31 Oct 2026, 24 days ago",
        "",
        "Assumed",
        "  calibration judged on 2026-11-24",
        "  accuracy as the register says, both ways",
    ]


def test_the_one_asked_about_stands_first() -> None:
    text = as_text(answer(REGISTER, "16 lbf·ft", "10 %", on=DAY, wrench="TW-01"))
    assert "TW-01  set, pull once to the click, 16.0 lbf·ft" in text
    numbers: Any = as_json(answer(REGISTER, "16 lbf·ft", "10 %", on=DAY, wrench="TW-01"))
    json.dumps(numbers)
    assert numbers["wrench"] == "TW-01"
    assert numbers["setting"] == {"value": 16.0, "unit": "lbf·ft"}
    # 16/1.04 and 16/0.96
    assert numbers["true_torque_low"] == {"value": 15.38, "unit": "lbf·ft"}
    assert numbers["true_torque_high"] == {"value": 16.67, "unit": "lbf·ft"}
    assert numbers["refused"] is None
    assert [other["wrench"] for other in numbers["others"]] == ["TW-02", "TW-06"]


def test_a_refused_one() -> None:
    said = answer(REGISTER, "4.8 lbf·ft", "10 %", on=DAY, wrench="TW-01")
    assert not said.is_able
    assert "REFUSED  TW-01  starts at 10 lbf·ft; the target is 4.8 lbf·ft" in as_text(said)
    numbers = as_json(said)
    assert numbers["setting"] is None
    assert numbers["refused"] == "starts at 10 lbf·ft; the target is 4.8 lbf·ft"


def test_none_can_do_it() -> None:
    said = answer(REGISTER, "30 lbf·ft", "0.01 lbf·ft", on=DAY)
    assert not said.is_able
    assert "No wrench of the register can do it" in as_text(said)


def test_through_a_crow_foot_of_measured_length() -> None:
    said = answer(
        REGISTER, "20 lbf·ft", "10 %", on=DAY, wrench="TW-01", extension="3 in", length="14 in", angle="0°"
    )
    # two vehicle manuals: 20 lbf·ft, L 14, E 3: 16.5
    assert "16.5 lbf·ft" in as_text(said)
    assert "through 3 in at 0°" in as_text(said)


def test_the_crow_foot_alone() -> None:
    # metric torque page: 130 N·m at 500 and 150 mm: set 100
    wanted, shown = crow_foot("130 N·m", "150 mm", "500 mm", None)
    assert str(shown) == "100 N·m"
    assert crow_foot_json(wanted, shown)["setting"] == {"value": 100.0, "unit": "N·m"}
    # a helicopter manual: 135 lbf·in pointing back: 158.82
    assert str(crow_foot("135 lbf·in", "1.5 in", "10 in", "180°")[1]) == "158.82 lbf·in"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"target": "16"}, "has no unit"),
        ({"target": "0 N·m"}, "tightens nothing"),
        ({"tolerance": "10"}, 'for example "10 %"'),
        ({"wrench": "TW-99"}, "is not in the register; it holds TW-01, TW-02, TW-06"),
        ({"wrenches": ()}, "holds no wrench"),
        ({"length": "400 mm"}, "name it"),
        ({"angle": "90°"}, "belongs to an extension"),
        ({"extension": "50"}, "has no unit"),
    ],
)
def test_nonsense_is_refused_in_one_sentence(changes: dict[str, Any], said: str) -> None:
    asked: dict[str, Any] = {"wrenches": REGISTER, "target": "16 lbf·ft", "tolerance": "10 %"} | changes
    with pytest.raises(QuantityError) as refusal:
        answer(**asked, on=DAY)
    assert said in str(refusal.value)
