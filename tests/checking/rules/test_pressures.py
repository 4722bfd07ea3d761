"""Test pressures against what the parts that they reach bear."""

from __future__ import annotations

import pytest

from benchcheck.procedure.finding import Finding, Severity
from tests.checking.small_pump import assert_as_marked, changed, main_pump, rules_found, small_pump

COVER = 'id = "cover"\nends = ["outer face", "inner face"]'
BODY = 'id = "body"\nends = ["drive end", "water end"]'
WHAT = "drops at the drain in five minutes"
ASK = f'ask = [{{ what = "{WHAT}", one_of = ["none", "one or more"], good = ["none"] }}]'


def pressed(limits: str, mark: str = "", *, cover: str = "", body: str = "") -> str:
    """The small pump, tested with a pressure; what the two parts say they bear."""
    asked = f'ask = [{{ what = "pressure in the body", {limits}, with = "pressure gauge" }}]{mark}'
    return small_pump(
        (ASK, asked),
        (COVER, f'{COVER}\nbears = "{cover}"' if cover else COVER),
        (BODY, f'{BODY}\nbears = "{body}"' if body else BODY),
    )


def one(text: str) -> Finding:
    (finding,) = assert_as_marked(text)
    return finding


@pytest.mark.parametrize(
    ("limits", "at"),
    [
        ('min = "9 bar", max = "10 bar"', '"10 bar"'),
        # 140 psi are 9.65 bar (NIST SP 811: 1 psi = 6.894 757 kPa)
        ('min = "130 psi", max = "140 psi"', '"140 psi"'),
        ('min = "10 bar"', '"10 bar"'),
        # an upper limit alone lets it be reached
        ('max = "10 bar"', '"10 bar"'),
    ],
)
def test_the_weakest_part_is_pressed_too_hard(limits: str, at: str) -> None:
    mark = f"  # ← part-pressed-too-hard at {at}"
    finding = one(pressed(limits, mark, cover="6 bar", body="9 bar"))
    assert finding.severity is Severity.ERROR
    assert "`cover`" in finding.message and "bears 6 bar" in finding.message


@pytest.mark.parametrize(
    "limits", ['min = "5 bar", max = "6 bar"', 'min = "80 psi", max = "87 psi"', 'max = "0 bar"']
)
def test_a_pressure_that_every_part_bears(limits: str) -> None:
    assert rules_found(pressed(limits, cover="6 bar")) == []


def test_only_the_parts_that_it_reaches_count() -> None:
    limits = 'min = "9 bar", max = "10 bar", presses = ["body"]'
    assert rules_found(pressed(limits, cover="6 bar", body="16 bar")) == []
    mark = '  # ← pressure-stated-once at "10 bar"'
    assert "`presses`" in one(pressed(limits, mark, cover="6 bar")).message


def test_a_pressure_that_nothing_bounds_is_stated_once() -> None:
    mark = '  # ← pressure-stated-once at "10 bar"'
    assert one(pressed('min = "9 bar", max = "10 bar"', mark)).severity is Severity.ADVICE


@pytest.mark.parametrize("limits", ['max = "0 bar"', 'max = "5 mbar"', 'min = "2 mm", max = "3 mm"'])
def test_what_is_no_pressing_needs_no_bound(limits: str) -> None:
    # without the gauge, of which there is none for a length
    assert "pressure-stated-once" not in rules_found(pressed(limits))


def test_pounds_typed_for_bars_show_on_the_main_pump() -> None:
    slip = 'min = "147 psi", max = "153 bar"'
    text = changed(main_pump(), ('min = "147 psi", max = "153 psi"', slip))
    (finding,) = [each for each in rules_found(text) if each == "part-pressed-too-hard"]
    assert finding
