"""Sections: two ends of a part are never drawn alike, whichever is up and however large."""

from __future__ import annotations

import pytest

from benchcheck.screens.ascii import drawing_in_ascii
from benchcheck.screens.widgets.cells import line_width
from benchcheck.screens.widgets.facing import draw_facing, words_seen
from benchcheck.screens.widgets.glyphs import mirrored, outlined, upside_down
from benchcheck.screens.widgets.section import Part, PocketSeal, RingGroove, draw_section
from benchcheck.screens.widgets.shapes import SHAPES, Kind
from tests.screens.pictures import as_text, picture

DEEP, SHALLOW = "deep pocket end", "shallow pocket end"
CARTRIDGE = Part(
    Kind.CARTRIDGE,
    "seal cartridge",
    (DEEP, SHALLOW),
    grooves=(RingGroove(3 / 7), RingGroove(5 / 7)),
    seals=(PocketSeal(lip_points_out=True), PocketSeal(lip_points_out=True)),
)


def test_a_cartridge_with_its_lips_pointing_out() -> None:
    assert as_text(draw_section(CARTRIDGE, SHALLOW, 32, 8)) == picture("""
        |┌──┐   ╱          ╲   ┌──┐  ▲   |
        |│▒▒├──┘            └──┤▒▒│  │   |
        |●▒▒└──┐            ┌──┘▒▒●  up  |
        |│▒▒▒▒▒│            │▒▒▒▒▒│      |
        |●▒▒┌──┘            └──┐▒▒●      |
        |│▒▒├──┐            ┌──┤▒▒│      |
        |│▒▒│   ╲          ╱   │▒▒│      |
        |└──┘    ╲        ╱    └──┘      |
    """)
    assert as_text(draw_section(CARTRIDGE, DEEP, 32, 8)) == picture("""
        |┌──┐    ╱        ╲    ┌──┐  ▲   |
        |│▒▒│   ╱          ╲   │▒▒│  │   |
        |│▒▒├──┘            └──┤▒▒│  up  |
        |●▒▒└──┐            ┌──┘▒▒●      |
        |│▒▒▒▒▒│            │▒▒▒▒▒│      |
        |●▒▒┌──┘            └──┐▒▒●      |
        |│▒▒├──┐            ┌──┤▒▒│      |
        |└──┘   ╲          ╱   └──┘      |
    """)


def test_a_lip_that_points_into_its_carrier_looks_different() -> None:
    for seals in ((True, False), (False, True), (False, False)):
        other = Part(
            Kind.CARTRIDGE,
            "seal cartridge",
            (DEEP, SHALLOW),
            seals=tuple(PocketSeal(lip_points_out=out) for out in seals),
        )
        straight = Part(Kind.CARTRIDGE, "seal cartridge", (DEEP, SHALLOW), seals=CARTRIDGE.seals)
        for size in ((32, 8), (56, 14)):
            assert draw_section(other, DEEP, *size) != draw_section(straight, DEEP, *size)


def test_for_a_hold_point_the_lips_are_left_out() -> None:
    bare = Part(Kind.CARTRIDGE, "seal cartridge", (DEEP, SHALLOW))
    text = as_text(draw_section(bare, SHALLOW, 32, 8))
    assert not set("╱╲├┤") & set(text)


def test_an_empty_groove_is_drawn_empty() -> None:
    part = Part(
        Kind.CARTRIDGE, "c", (DEEP, SHALLOW), grooves=(RingGroove(3 / 7, filled=False), RingGroove(5 / 7))
    )
    for size in ((32, 8), (56, 14)):
        text = as_text(draw_section(part, DEEP, *size))
        assert text.count("○") == 2 and text.count("●") == 2
        assert text.index("○") < text.index("●")


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize("size", [(36, 8), (36, 9), (37, 10), (56, 13), (58, 16), (90, 25)])
def test_the_two_ends_of_every_kind_look_different_in_ascii_too(kind: Kind, size: tuple[int, int]) -> None:
    part = Part(kind, "some part", ("dot face", "plain face"))
    one, other = (draw_section(part, end, *size) for end in part.ends)
    assert one != other
    assert as_text(drawing_in_ascii(one)) != as_text(drawing_in_ascii(other))
    assert {line_width(line) for line in (*one, *other)} == {size[0]}
    assert len(one) == len(other) == size[1]


@pytest.mark.parametrize("kind", SHAPES)
def test_a_shape_turned_over_is_the_same_shape_turned_over(kind: Kind) -> None:
    part = Part(kind, "some part", ("dot face", "plain face"))
    rows = [row[:28] for row in as_text(draw_section(part, "dot face", 36, 8)).splitlines()]
    turned = [row[:28] for row in as_text(draw_section(part, "plain face", 36, 8)).splitlines()]
    arrows = str.maketrans("", "", "▲up")
    assert [row.translate(arrows).rstrip("│ ") for row in upside_down(turned) if row.strip("▲│up ")] == [
        row.translate(arrows).rstrip("│ ") for row in rows if row.strip("▲│up ")
    ]


def test_an_unknown_shape_is_a_block_with_its_ends_written_on_it() -> None:
    part = Part(Kind.OTHER, "spacer [/] of odd shape", ("[OIL] side", "密封 side"))
    up = as_text(draw_section(part, "密封 side", 36, 8)).splitlines()
    assert "密封 side" in up[1] and "[OIL] side" in up[6]
    assert all(line_width(line) == 36 for line in draw_section(part, "密封 side", 36, 8))


def test_work_that_lies_level_has_an_end_toward_the_person() -> None:
    text = as_text(draw_section(CARTRIDGE, DEEP, 38, 8, up_word="toward you"))
    assert "toward" in text and "you" in text and "up" not in text


def test_a_room_too_small_for_the_shape_gets_the_block() -> None:
    assert DEEP in as_text(draw_section(CARTRIDGE, DEEP, 30, 8))


def test_an_end_it_has_not() -> None:
    with pytest.raises(ValueError, match="no end called 'left'"):
        draw_section(CARTRIDGE, "left", 32, 8)


def test_two_pictures_and_three_answers() -> None:
    lines = draw_facing(CARTRIDGE, (SHALLOW, DEEP), 2, 80, 12)
    assert lines is not None
    text = as_text(lines)
    assert "1  you look into the shallow pocket" in text
    assert "►2◄ you look into the deep pocket" in text
    assert "3  neither of these" in text
    assert "right" not in text
    assert {line_width(line) for line in lines} == {80}


def test_changed_about_the_pictures_change_places() -> None:
    one = draw_facing(CARTRIDGE, (SHALLOW, DEEP), None, 80, 12)
    other = draw_facing(CARTRIDGE, (DEEP, SHALLOW), None, 80, 12)
    assert one is not None and other is not None
    halves = [
        [row.ljust(80)[at : at + 38] for row in as_text(lines).splitlines()[:9]]
        for lines, at in ((one, 0), (other, 40))
    ]
    assert [row.strip() for row in halves[0]] == [row.strip() for row in halves[1]]


def test_too_small_a_window_shows_no_pictures() -> None:
    assert draw_facing(CARTRIDGE, (SHALLOW, DEEP), None, 70, 12) is None
    assert draw_facing(CARTRIDGE, (SHALLOW, DEEP), None, 80, 10) is None


def test_what_one_sees_is_named() -> None:
    seal = Part(Kind.LIP_SEAL, "main lip", ("lip", "back"))
    assert words_seen(seal, "lip") == "you see the lip"
    assert words_seen(CARTRIDGE, DEEP) == "you look into the deep pocket"


def test_outlines_close_round_metal() -> None:
    ring = {(row, column) for row in range(3) for column in range(4)}
    drawn = outlined(ring)
    rows = ["".join(drawn[(row, column)] for column in range(4)) for row in range(3)]
    assert rows == ["┌──┐", "│▒▒│", "└──┘"]


def test_mirrored_twice_is_as_it_was() -> None:
    row = "┌──┬─╱ ├▒┤ ╲<"
    assert mirrored(mirrored(row)) == row
    assert upside_down(upside_down([row, "└┴┘"])) == [row, "└┴┘"]
