"""Rectangles and free points: in proportion where there is room, never touching, else refused."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.widgets.pattern import Pattern, Points
from benchcheck.screens.widgets.ring import draw, place
from benchcheck.screens.widgets.signs import Sign
from tests.screens.pictures import as_text, complaints_about, picture, signs_for

REAR_COVER = Points(((0, 80), (50, 80), (90, 80), (140, 80), (140, 0), (90, 0), (50, 0), (0, 0)))
"""A cover of 2 by 4 screws, numbered clockwise from its stamped corner; millimetres."""


def test_a_rectangle_with_screw_lengths_outside_its_holes() -> None:
    pattern = Pattern(
        REAR_COVER,
        signs_for(8, 3, 7, done=[2, 6]),
        datum="stamped corner",
        notes=("60", "75", "75", "60", "60", "75", "75", "60"),
    )
    assert as_text(draw(pattern, 31, 12, 8)) == picture("""
        | ▼ stamped corner              |
        |60        75      75        60 |
        | 1        ═2═     ►3◄        4 |
        |                  ·            |
        |                 ·             |
        |                ·              |
        |               ·               |
        |              ·                |
        |             ·                 |
        |            ↙                  |
        | 8        (7)     ═6═        5 |
        |60        75      75        60 |
    """)


def test_seen_from_the_other_side_left_and_right_change_and_numbers_stay() -> None:
    pattern = Pattern(REAR_COVER, signs_for(8, 3, 7), datum="stamped corner", mirrored=True)
    text = as_text(draw(pattern, 36, 11, 8))
    top = next(line for line in text.splitlines() if "►3◄" in line)
    assert top.split() == ["4", "►3◄", "2", "1"]
    assert text.splitlines()[0].endswith("stamped corner ▼")


def test_turned_by_a_quarter_the_top_row_stands_at_the_right() -> None:
    pattern = Pattern(Points(((0, 1), (1, 1), (1, 0), (0, 0))), signs_for(4, 1, 3), quarter_turns=1)
    rows = [line.split() for line in as_text(draw(pattern, 20, 7, 8)).splitlines() if line.strip(" ·↗↙↘↖")]
    assert rows[0] == ["4", "►1◄"]
    assert rows[-1] == ["(3)", "2"]


def test_a_way_along_a_row_passes_below_the_numbers_between() -> None:
    places = tuple((float(column), 0.0) for column in range(4))
    close = place(Pattern(Points(places), signs_for(4, 1, 4)), 18, 3, 8)
    assert close is not None and close.way
    assert {mark.row for mark in close.way} == {close.labels[0].row + 1}
    wide = place(Pattern(Points(places), signs_for(4, 1, 4)), 60, 3, 8)
    assert wide is not None
    assert {mark.row for mark in wide.way} == {wide.labels[0].row}


def test_points_of_one_place_cannot_be_drawn() -> None:
    assert draw(Pattern(Points(((0, 0), (0, 0))), signs_for(2, 1, 2)), 40, 15, 8) is None


def test_points_too_near_for_proportion_are_stretched() -> None:
    flat = Points(((0, 0), (1, 0), (0, 30), (1, 30)))
    assert draw(Pattern(flat, signs_for(4, 1, 4)), 30, 9, 8) is not None


def test_a_row_and_a_column_can_be_drawn() -> None:
    row = Points(tuple((float(index), 0.0) for index in range(5)))
    column = Points(tuple((0.0, float(index)) for index in range(5)))
    for layout in (row, column):
        pattern = Pattern(layout, (Sign.TO_COME,) * 5)
        placement = place(pattern, 40, 11, 8)
        assert placement is not None and complaints_about(pattern, placement) == []


@given(
    places=st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), min_size=2, max_size=24, unique=True),
    turns=st.integers(0, 3),
    mirrored=st.booleans(),
    width=st.integers(10, 70),
    height=st.integers(5, 30),
    datum=st.sampled_from(["", "stamped corner", "the long name of a corner that is stamped"]),
    noted=st.booleans(),
)
def test_no_label_touches_and_no_way_crosses(
    places: list[tuple[int, int]],
    turns: int,
    mirrored: bool,
    width: int,
    height: int,
    datum: str,
    noted: bool,
) -> None:
    count = len(places)
    pattern = Pattern(
        Points(tuple((float(right), float(up)) for right, up in places)),
        signs_for(count, 1, count),
        datum,
        turns,
        mirrored,
        ("M8 x 60",) * count if noted else (),
    )
    placement = place(pattern, width, height, 8)
    if placement is not None:
        assert complaints_about(pattern, placement) == []
