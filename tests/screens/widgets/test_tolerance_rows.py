"""Readings of several rounds on one band: each on its side of its limits, the one that counts always seen."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import line_width, plain_text
from benchcheck.screens.widgets.tolerance_rows import BandRow, Mark, draw_rows, place_of
from tests.screens.pictures import as_text, picture

LIMITS = ("172.8", "192", "211.2")


def test_a_group_position_by_position() -> None:
    rows = (
        BandRow("position 1", (Mark(0.2, "1"), Mark(-0.1, "2"), Mark(0.0, "●")), "192"),
        BandRow("position 2", (Mark(0.5, "1"), Mark(0.9, "●")), "209"),
        BandRow("position 3", (Mark(-1.3, "●"),), "167"),
    )
    assert as_text(draw_rows(rows, 60, LIMITS)) == picture("""
        |            172.8               192               211.2     |
        |position 1    ├────────────────2─●───1──────────────┤    192|
        |position 2    ├──────────────────┼─────────1──────●─┤    209|
        |position 3 ●  ├──────────────────┼──────────────────┤    167|
    """)


def test_the_same_share_of_two_rounds_is_one_place() -> None:
    assert place_of(134, 126, 134, 142) == place_of(192, 172.8, 192, 211.2) == 0
    assert place_of(130, 126, 134, 142) == pytest.approx(-0.5)
    assert place_of(211.2 * (1 + 1e-12), 172.8, 192, 211.2) == 1
    with pytest.raises(ValueError, match="rise"):
        place_of(1, 2, 2, 3)


def test_words_that_have_no_room_lose_their_ends_and_the_band_stays() -> None:
    drawing = draw_rows((BandRow("position 1", (Mark(0, "●"),), "x" * 90),), 40, LIMITS)
    assert "├" in as_text(drawing) and "●" in as_text(drawing)
    assert {line_width(line) for line in drawing} == {40}


places = st.floats(-4, 4, allow_nan=False)


@given(st.lists(places, min_size=1, max_size=4), st.integers(40, 120))
def test_what_counts_is_seen_on_its_own_side_of_the_limits(found: list[float], width: int) -> None:
    signs = "1234"[: len(found) - 1] + "●"
    row = BandRow("position 12", tuple(map(Mark, found, signs)), "192 lbf·in")
    bare, drawn = draw_rows((replace(row, marks=()), row), width, LIMITS)[1:]
    assert line_width(drawn) == width
    at, last = plain_text(drawn).index("●"), found[-1]
    low, high = plain_text(bare).index("├"), plain_text(bare).index("┤")
    assert (at < low, at > high) == (last < -1, last > 1)
    hued = "".join(run.text for run in drawn if run.tone is Tone.WRONG)
    assert ("●" in hued) == (not -1 <= last <= 1)


@given(st.lists(places, min_size=2, max_size=6), st.integers(40, 120))
def test_a_larger_value_never_stands_left_of_a_smaller_one(found: list[float], width: int) -> None:
    rows = [BandRow("p", (Mark(place, "●"),), "9") for place in sorted(found)]
    columns = [plain_text(line).index("●") for line in draw_rows(rows, width)[1:]]
    assert columns == sorted(columns)


@given(
    st.floats(0.1, 1e4), st.floats(0.01, 0.4), st.floats(0.01, 0.4), st.floats(-0.5, 0.5), st.floats(0.05, 1)
)
def test_a_place_does_not_depend_on_the_unit_or_the_round(
    target: float, below: float, above: float, off: float, share: float
) -> None:
    low, high, value = target * (1 - below), target * (1 + above), target * (1 + off)
    whole = place_of(value, low, target, high)
    assert whole == pytest.approx(
        place_of(value * share, low * share, target * share, high * share), rel=1e-5, abs=1e-5
    )
    assert (whole < -1.00001) <= (value < low) and (whole > 1.00001) <= (value > high)
