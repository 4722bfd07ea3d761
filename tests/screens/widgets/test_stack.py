"""The stack: in order from its named end, with the part in hand always among those shown."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.widgets.cells import line_width
from benchcheck.screens.widgets.signs import Sign
from benchcheck.screens.widgets.stack import Stacked, draw_stack
from tests.screens.pictures import as_text, picture


def test_parts_in_order_with_the_way_they_face() -> None:
    parts = [
        Stacked("nut", Sign.TO_COME, "flat"),
        Stacked("washer"),
        Stacked("impeller", Sign.NOW, "eye"),
        Stacked("head", Sign.DONE, "carbon face"),
    ]
    assert as_text(draw_stack("shaft", "threaded end", parts, 40, 18)) == picture("""
        |on the shaft, from the threaded end|
        |  │ nut        flat ▲              |
        |  │ washer                         |
        |  │►impeller◄  eye ▲               |
        |  │═head═      carbon face ▲       |
    """)


@given(st.integers(1, 30), st.integers(0, 29), st.integers(2, 20))
def test_what_is_left_out_is_counted_and_the_part_in_hand_never_is(count: int, now: int, height: int) -> None:
    parts = [Stacked(f"part {index}") for index in range(count)]
    parts[now % count] = Stacked("in hand", Sign.NOW)
    lines = draw_stack("shaft", "drive end", parts, 40, height)
    text = as_text(lines)
    assert len(lines) <= height
    assert "►in hand◄" in text
    if height > 2 or count == 1:
        named = len(re.findall(r"part \d+|in hand", text))
        assert named + sum(int(found) for found in re.findall(r"(\d+) more", text)) == count


def test_long_names_keep_both_ends_and_stay_inside() -> None:
    parts = [Stacked("external retaining ring of the bearing, 25 mm", Sign.NOW, "sharp edge")]
    lines = draw_stack("shaft with a very long name indeed", "threaded end", parts, 36, 5)
    assert all(line_width(line) <= 36 for line in lines)
    assert "25 mm" in as_text(lines)
