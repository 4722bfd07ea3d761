"""Rings: the pictures as agreed, and what must hold for every count, turn, side and size."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import line_width, plain_text
from benchcheck.screens.widgets.pattern import Circle, Pattern, direction_words
from benchcheck.screens.widgets.ring import (
    LARGEST_RADIUS_AT_80_BY_24,
    LARGEST_RADIUS_AT_120_BY_40,
    circle_cells,
    draw,
    place,
)
from tests.screens.pictures import as_text, complaints_about, picture, signs_for

RING_OF_3 = """
|                  ►1◄                   |
|                    ·                   |
|                     ·                  |
|                       ·                |
|                        ·               |
|                         ·              |
|                          ·             |
|                           ·            |
|                            ·           |
|                             ·          |
|                               ·        |
|                                ↘       |
|     3                          (2)     |
|                                        |
|                                        |
|                                        |
|                                        |
"""

RING_OF_24 = """
|               24     1                 |
|            23           2              |
|        22                   3          |
|     21                         4       |
|                                        |
|   20                           ► 5◄    |
|                            ·  ·        |
|  19                  ·  ·         6    |
|                   ·                    |
|  18         ·  ·                  7    |
|       ←  ·                             |
|  (17)                            8     |
|                                        |
|     16                         9       |
|        15                  10          |
|            14          11              |
|               13    12                 |
"""

RING_OF_12 = """
|               12   ► 1◄                |
|           11        ·    2             |
|                     ·                  |
|                    ·                   |
|        10          ·        3          |
|                   ·                    |
|         9        ·          4          |
|                  ·                     |
|                 ·                      |
|            8    ↓        5             |
|              ( 7)    6                 |
"""

RING_OF_12_FROM_THE_OTHER_SIDE = """
|              ► 1◄   12                 |
|            2    ·       11             |
|                 ·                      |
|                  ·                     |
|         3        ·         10          |
|                   ·                    |
|         4          ·        9          |
|                    ·                   |
|                     ·                  |
|            5        ↓    8             |
|                6   ( 7)                |
"""

RING_OF_6_WITH_ITS_DATUM = """
|          bypass boss                  |
|               ▼                       |
|         6          ═1═                |
|                                       |
|                                       |
|                                       |
|                                       |
|   5                      (2)          |
|                        ↗              |
|                  ·  ·                 |
|               ·                       |
|            ·                          |
|        ►4◄          3                 |
|                                       |
|                                       |
"""


def test_three_positions_with_the_first_at_the_datum() -> None:
    assert as_text(draw(Pattern(Circle(3, first_at_datum=True), signs_for(3, 1, 2)), 40, 17, 8)) == picture(
        RING_OF_3
    )


def test_twenty_four_positions_fill_the_smaller_window() -> None:
    pattern = Pattern(Circle(24), signs_for(24, 5, 17))
    assert as_text(draw(pattern, 40, 17, LARGEST_RADIUS_AT_80_BY_24)) == picture(RING_OF_24)


def test_twelve_positions_from_both_sides() -> None:
    seen = Pattern(Circle(12), signs_for(12, 1, 7))
    opposite = Pattern(Circle(12), signs_for(12, 1, 7), mirrored=True)
    assert as_text(draw(seen, 40, 11, 8)) == picture(RING_OF_12)
    assert as_text(draw(opposite, 40, 11, 8)) == picture(RING_OF_12_FROM_THE_OTHER_SIDE)
    assert direction_words(seen, "plate end") == "seen from the plate end: numbers run clockwise"
    assert (
        direction_words(opposite, "suction end") == "seen from the suction end: numbers run counter-clockwise"
    )


def test_the_datum_stands_outside_the_ring() -> None:
    pattern = Pattern(Circle(6), signs_for(6, 4, 2, done=[1]), datum="bypass boss")
    assert as_text(draw(pattern, 31, 15, 8)) == picture(RING_OF_6_WITH_ITS_DATUM)


def test_turned_to_a_side_the_name_says_which_sign_it_means() -> None:
    pattern = Pattern(Circle(6), signs_for(6, 4, 2), datum="bypass boss", quarter_turns=1)
    drawn = draw(pattern, 31, 15, 8)
    assert drawn is not None
    text = as_text(drawn)
    assert "◆ bypass boss" in text.splitlines()[0]
    assert text.count("◆") == 2


def test_only_the_position_in_hand_has_the_hue() -> None:
    drawn = draw(Pattern(Circle(8), signs_for(8, 2, 6, done=[1, 5])), 40, 17, 8)
    assert drawn is not None
    hued = [run.text for line in drawn for run in line if run.tone is not Tone.INK]
    assert hued == ["►2◄"]


def test_neighbours_have_no_way_between_them() -> None:
    placement = place(Pattern(Circle(24), signs_for(24, 1, 2)), 40, 17, 8)
    assert placement is not None and placement.way == ()


def test_least_radius_for_a_count() -> None:
    """The least radius that works at every quarter turn and from both sides, worked out by hand first."""
    for radius, up_to in ((2, 9), (3, 14), (4, 16), (5, 18), (6, 22), (7, 24)):
        for count in range(3, up_to + 1):
            for first_at_datum in (False, True):
                for turns in range(4):
                    assert circle_cells(Circle(count, first_at_datum), radius, turns, False) is not None


def test_rings_of_up_to_48_find_room_in_the_larger_window() -> None:
    for count in range(3, 49):
        pattern = Pattern(Circle(count), signs_for(count, 1, 1 + count // 2), datum="the boss")
        assert draw(pattern, 66, 33, LARGEST_RADIUS_AT_120_BY_40) is not None, count


def test_without_room_there_is_no_picture() -> None:
    assert draw(Pattern(Circle(24), signs_for(24, 1, 13)), 40, 13, 8) is None
    assert draw(Pattern(Circle(3), signs_for(3, 1, 2)), 8, 17, 8) is None
    assert draw(Pattern(Circle(3), signs_for(3, 1, 2)), 40, 2, 8) is None


def test_each_position_needs_its_sign() -> None:
    with pytest.raises(ValueError, match="6 positions, 5 signs"):
        draw(Pattern(Circle(6), signs_for(5, 1, 2)), 40, 17, 8)


@given(
    count=st.integers(3, 24),
    first_at_datum=st.booleans(),
    turns=st.integers(0, 3),
    mirrored=st.booleans(),
    width=st.integers(20, 60),
    height=st.integers(9, 27),
    datum=st.sampled_from(["", "boss", "the cast mark beside the bypass boss"]),
    pair=st.tuples(st.integers(0, 23), st.integers(1, 23)),
)
def test_nothing_touches_and_nothing_is_crossed(
    count: int,
    first_at_datum: bool,
    turns: int,
    mirrored: bool,
    width: int,
    height: int,
    datum: str,
    pair: tuple[int, int],
) -> None:
    now = pair[0] % count
    next_one = (now + 1 + pair[1] % (count - 1)) % count
    signs = signs_for(count, now + 1, next_one + 1)
    pattern = Pattern(Circle(count, first_at_datum), signs, datum, turns, mirrored)
    placement = place(pattern, width, height, LARGEST_RADIUS_AT_120_BY_40)
    turned = place(Pattern(Circle(count, first_at_datum), signs, datum), width, height, 12)
    assert (placement is None) == (turned is None)
    if placement is None:
        return
    assert complaints_about(pattern, placement) == []
    drawn = draw(pattern, width, height, LARGEST_RADIUS_AT_120_BY_40)
    assert drawn is not None
    assert {line_width(line) for line in drawn} == {width}
    text = "\n".join(plain_text(line) for line in drawn)
    for label in placement.labels:
        assert label.text in text.splitlines()[label.row]
