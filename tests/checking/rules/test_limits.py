"""Limits of readings: exchanged, of two kinds, without a unit, too strict for a new part."""

from __future__ import annotations

import pytest

from benchcheck.store.library import Unreadable
from tests.checking.small_pump import assert_as_marked, parsed, rules_found, small_pump

ASK = 'ask = [{ what = "runout at the seal track", max = "0.05 mm", with = "dial indicator" }]'
VARIANTS = ('models = ["XMPL-S1"]', 'models = ["XMPL-S1"]\nvariants = ["R", "L"]')


def asked(told: str, mark: str = "") -> str:
    return small_pump((ASK, f'ask = [{{ what = "runout", {told} }}]{mark}'))


@pytest.mark.parametrize(
    ("told", "at"),
    [
        ('min = "25.00 mm", max = "24.98 mm"', '"25.00 mm"'),
        ('min = "1 in", max = "2 mm"', '"1 in"'),
        ('as_new = ["0.06 mm", "0.02 mm"], max = "0.1 mm"', '"0.06 mm"'),
    ],
)
def test_limits_between_which_nothing_lies(told: str, at: str) -> None:
    assert_as_marked(asked(told, f"  # ← limits-reversed at {at}"))


def test_limits_that_meet_are_right() -> None:
    assert rules_found(asked('min = "25 mm", max = "25 mm"')) == []
    assert rules_found(asked('min = "1 mm", max = "1 in"')) == []


def test_other_limits_are_looked_at_too() -> None:
    running = 'prevailing = { min = "2 N·m", max = "1 N·m", add = "never" }  # ← limits-reversed at "2 N·m"'
    friction = 'friction = { condition = "oiled", nut_factor = 0.15 }'
    assert_as_marked(small_pump((friction, f"{friction}\n{running}")))
    times = 'least = "2 h"\nmost = "5 min"'
    clock = f'\n[[clock]]\nid = "soak"\nstarts = "cover-on"\n{times}\nbars = "leak"\n'
    assert "limits-reversed" in rules_found(small_pump(more=clock))


@pytest.mark.parametrize(
    ("told", "at"),
    [
        ('min = "0 mm", max = "0.05 bar"', '"0.05 bar"'),
        ('unit = "in", max = "0.05 psi"', '"0.05 psi"'),
        ('max = "0.05 mm", equal_within = "1 °"', '"1 °"'),
        ('max = "0.05 mm", as_new = ["0 s", "1 s"]', '"0 s"'),
    ],
)
def test_limits_of_two_kinds(told: str, at: str) -> None:
    assert_as_marked(asked(told, f"  # ← limits-of-two-kinds at {at}"))


def test_a_unit_that_is_none() -> None:
    assert_as_marked(asked('unit = "furlong"', '  # ← unit-unknown at "furlong"'))
    for unit in ("in", "mm", "turns", "drops/min", "°C", "lbf in"):
        assert rules_found(asked(f'unit = "{unit}"')) == []


@pytest.mark.parametrize(
    ("told", "at"),
    [
        ('as_new = ["0.02 mm", "0.06 mm"], max = "0.05 mm"', '"0.06 mm"'),
        ('as_new = ["0.02 mm", "0.06 mm"], min = "0.03 mm"', '"0.02 mm"'),
    ],
)
def test_a_new_part_that_would_not_pass(told: str, at: str) -> None:
    assert_as_marked(asked(told, f"  # ← new-part-outside-the-limits at {at}"))


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ('max = "0.05"', "has no unit"),
        ("max = 0.05", "its unit between quotes"),
        ('max = "0,05 mm"', '"0.05 mm"'),
        ('max = "5e-2 mm"', "exponent"),
        ('max = "0.05 mn"', "not known"),
        ('hold = "24"', "has no unit"),
    ],
)
def test_what_is_no_quantity_is_a_fault_of_reading(told: str, said: str) -> None:
    with pytest.raises(Unreadable) as unreadable:
        parsed(asked(told))
    (finding,) = unreadable.value.findings
    assert said in finding.message + finding.remedy


# PG-01: 0 to 250 psi, a mark every 2 psi, off by 1 % of 250 psi; PG-02: 0 to 25 psi, 0.5 psi, 1 % of 25 psi.
# MI-01: a micrometer, 0 to 1 in, 0.0001 in.
@pytest.mark.parametrize(
    ("told", "at", "why"),
    [
        (
            'min = "260 psi", max = "280 psi", with = "pressure gauge"',
            '"280 psi"',
            "reads from 0 psi to 250 psi",
        ),
        (
            'min = "20.6 psi", max = "20.9 psi", with = "pressure gauge"',
            '"20.9 psi"',
            "PG-02 has a mark every 0.5 psi",
        ),
        ('min = "148 psi", max = "152 psi", with = "pressure gauge"', '"152 psi"', "PG-01 may be off by 1 %"),
        ('max = "5 mbar", with = "a pressure gauge"', '"5 mbar"', "PG-02 has a mark every 0.5 psi"),
        ('min = "1.2 in", with = "micrometer"', '"1.2 in"', "MI-01 reads from 0 in to 1 in"),
        ('max = "0.001 mm", with = "depth micrometer"', '"0.001 mm"', "MI-01 has a mark every 0.0001 in"),
    ],
)
def test_limits_that_no_gauge_can_tell_apart(told: str, at: str, why: str) -> None:
    (finding,) = assert_as_marked(asked(told, f"  # ← limits-finer-than-any-gauge at {at}"))
    assert why in finding.message


@pytest.mark.parametrize(
    "told",
    [
        'min = "147 psi", max = "153 psi", with = "pressure gauge"',
        'min = "24.5 psi", max = "25 psi", with = "pressure gauge"',
        'max = "0 psi", with = "pressure gauge"',
        'max = "0.02 mm", with = "inside and outside micrometers"',
        'min = "50 °C", max = "70 °C", with = "thermometer"',
        'max = "0.001 mm"',
        'max = "0.01 mm", with = "feelers"',
    ],
)
def test_limits_that_a_gauge_can_tell_or_that_name_none(told: str) -> None:
    assert rules_found(asked(told)) == []


def test_a_reading_that_names_its_gauge_wants_one_of_the_register() -> None:
    told = 'min = "500 kPa", max = "600 kPa", gauge = "pressure gauge"'
    (finding,) = assert_as_marked(asked(told, '  # ← reading-without-its-gauge at "pressure gauge"'))
    assert "PG-01 shows psi; this is read in kPa" in finding.message
    told = 'max = "0.2 mm", gauge = "feeler strip"'
    (finding,) = assert_as_marked(asked(told, '  # ← reading-without-its-gauge at "feeler strip"'))
    assert "there is none of that kind" in finding.message
    told = 'max = "0.2 mm", gauge = "feelers", guarded = true'
    (finding,) = assert_as_marked(asked(told, '  # ← reading-without-its-gauge at "feelers"'))
    assert "how far it may be off" in finding.message


def test_a_gauge_that_serves_is_right() -> None:
    assert (
        rules_found(asked('min = "73 psi", max = "87 psi", gauge = "pressure gauge", guarded = true')) == []
    )
    assert rules_found(asked('max = "0.2 mm", gauge = "Feelers"')) == []


@pytest.mark.parametrize(
    "told", ['max = "0.2 mm", guarded = true', 'unit = "mm", gauge = "feelers", guarded = true']
)
def test_what_is_guarded_has_a_limit_and_a_gauge(told: str) -> None:
    with pytest.raises(Unreadable) as unreadable:
        parsed(asked(told))
    assert "guarded has a limit, and a gauge" in str(unreadable.value)
