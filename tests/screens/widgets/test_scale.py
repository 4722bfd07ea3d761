"""Limits on a line: a reading is never drawn on the wrong side of one."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import line_width, plain_text
from benchcheck.screens.widgets.scale import Limit, Reading, Zones, draw_band, draw_zones
from tests.screens.pictures import as_text, picture

WEAR = Zones(
    (Limit(0.009, "0.009"), Limit(0.013, "0.013"), Limit(0.018, "0.018")),
    ("too close", "as new", "worn, may stay", "reject"),
    good=1,
    reject_from=2,
)


def test_a_reading_in_its_tolerance() -> None:
    line = draw_band(172.8, 211.2, 192, [Reading(190), Reading(192, "►")], 37)
    assert plain_text(line) == "   ├────────────●─►──────────────┤   "


def test_a_reading_outside_stands_outside_and_has_the_hue() -> None:
    line = draw_band(172.8, 211.2, 192, [Reading(167.0)], 37)
    assert plain_text(line).index("●") < plain_text(line).index("├")
    assert [run.text for run in line if run.tone is Tone.WRONG] == ["●"]


def test_named_zones_with_the_reading_above_them() -> None:
    assert as_text(draw_zones(WEAR, 0.0195, 64)) == picture("""
        |                                                         you    |
        | too close        as new         worn, may stay          ►◄     |
        |────────────══════════════════─────────────────────┼──────●─────|
        |          0.009            0.013                 0.018          |
    """)


def test_a_limit_belongs_to_the_good_zone() -> None:
    for value, tone in ((0.009, Tone.NOW), (0.013, Tone.NOW), (0.0131, Tone.WRONG), (0.0089, Tone.WRONG)):
        mark = [run for line in draw_zones(WEAR, value, 64) for run in line if run.text == "►◄"]
        assert [run.tone for run in mark] == [tone], value


def test_without_a_reading_there_is_no_mark() -> None:
    assert "►" not in as_text(draw_zones(WEAR, None, 64))


def test_limits_have_to_rise_and_to_be_named() -> None:
    with pytest.raises(ValueError, match="rise"):
        draw_band(2, 1, None, [], 40)
    with pytest.raises(ValueError, match="need 2 names"):
        draw_zones(Zones((Limit(1, "1"),), ("good",), good=0), 0.5, 40)


@given(
    st.lists(st.integers(0, 10_000), min_size=1, max_size=4, unique=True),
    st.integers(-5000, 20_000),
    st.integers(50, 110),
)
def test_a_reading_is_on_its_own_side_of_every_limit(values: list[int], reading: int, width: int) -> None:
    limits = tuple(Limit(float(value), str(value)) for value in sorted(values))
    lines = draw_zones(Zones(limits, ("zone",) * (len(limits) + 1), good=0), float(reading), width)
    assert {line_width(line) for line in lines} == {width}
    at = plain_text(lines[2]).index("●")
    bare = draw_zones(Zones(limits, ("",) * (len(limits) + 1), good=len(limits)), None, width)
    if len(limits) == 1:
        edge = plain_text(bare[2]).index("═")
        assert (at < edge) == (reading < limits[0].value)


@given(st.floats(0, 100), st.integers(20, 80))
def test_a_band_shows_inside_and_outside_rightly(value: float, width: int) -> None:
    text = plain_text(draw_band(40, 60, None, [Reading(value)], width))
    at = text.index("●")
    if value < 40:
        assert at < text.index("├")
    elif value > 60:
        assert at > text.index("┤")
    else:
        assert 3 <= at <= width - 4
