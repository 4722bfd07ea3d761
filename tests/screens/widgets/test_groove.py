"""Grooves about to be hidden: what is in each can be seen, and an empty one is called empty."""

from __future__ import annotations

import pytest

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import line_width
from benchcheck.screens.widgets.groove import Closing, Groove, Opening, draw_grooves, list_grooves
from benchcheck.screens.widgets.signs import Sign
from tests.screens.pictures import as_text, picture

EMPTY_G3 = Groove("G3", "-137", filled=False, sign=Sign.FAULTY)
FILLED_G2 = Groove("G2", "-137", filled=True)
CLOSES_BOTH = "this way in: closes both"


def test_two_grooves_round_a_cartridge_one_of_them_empty() -> None:
    closing = Closing("cartridge", "bore of the body", (EMPTY_G3, FILLED_G2), Opening.OUTWARD, CLOSES_BOTH)
    assert as_text(draw_grooves(closing, 38, 14)) == picture("""
        |     cartridge      bore of the body  |
        |                                      |
        |     ▒▒▒▒▒▒▒▒│     │░░░░░░            |
        |     ▒▒▒▒▒▒▒▒│     │░░░░░░            |
        |     ▒▒▒▒▒┌──┘     │░░░░░░            |
        |!G3! ▒▒▒▒▒│ ○      │░░░░░░   EMPTY    |
        |     ▒▒▒▒▒└──┐     │░░░░░░            |
        |     ▒▒▒▒▒▒▒▒│     │░░░░░░            |
        |     ▒▒▒▒▒┌──┘     │░░░░░░            |
        |═G2═ ▒▒▒▒▒│ ●      │░░░░░░   -137     |
        |     ▒▒▒▒▒└──┐     │░░░░░░            |
        |     ▒▒▒▒▒▒▒▒│     │░░░░░░            |
        |             ▼     ▼                  |
        |     this way in: closes both         |
    """)


def test_grooves_in_a_bore_open_inward() -> None:
    closing = Closing("body", "cartridge", (FILLED_G2,), Opening.INWARD)
    assert as_text(draw_grooves(closing, 38, 9)) == picture("""
        |     cartridge   body                 |
        |                                      |
        |     ░░░░░░│     │▒▒▒▒▒▒▒▒            |
        |     ░░░░░░│     └──┐▒▒▒▒▒            |
        |═G2═ ░░░░░░│      ● │▒▒▒▒▒   -137     |
        |     ░░░░░░│     ┌──┘▒▒▒▒▒            |
        |     ░░░░░░│     │▒▒▒▒▒▒▒▒            |
        |           ▼     ▼                    |
        |                                      |
    """)


def test_grooves_in_a_face_that_looks_up_or_down() -> None:
    closing = Closing("body", "end plate", (EMPTY_G3,), Opening.FACE, CLOSES_BOTH)
    up = as_text(draw_grooves(closing, 38, 13))
    assert up.index("end plate") < up.index("body")
    down = as_text(
        draw_grooves(
            Closing("body", "end plate", (EMPTY_G3,), Opening.FACE, CLOSES_BOTH, face_up=False), 38, 13
        )
    )
    assert down.index("body") < down.index("end plate")
    for text in (up, down):
        assert "!G3!" in text and "EMPTY" in text and "○" in text


def test_only_the_empty_groove_has_the_hue() -> None:
    closing = Closing("cartridge", "bore", (EMPTY_G3, FILLED_G2), Opening.OUTWARD)
    lines = draw_grooves(closing, 38, 14)
    assert lines is not None
    assert [run.text for line in lines for run in line if run.tone is Tone.WRONG] == ["!G3!", "EMPTY"]


@pytest.mark.parametrize("opening", Opening)
@pytest.mark.parametrize("count", [1, 2, 3, 4, 5])
def test_every_groove_is_shown_or_none_is(opening: Opening, count: int) -> None:
    grooves = tuple(Groove(f"G{number}", f"-{number}00", number % 2 == 0) for number in range(1, count + 1))
    closing = Closing("a carrier with a long name", "its cover", grooves, opening, "both")
    for width in (30, 38, 60):
        for height in (8, 12, 14, 18, 30):
            lines = draw_grooves(closing, width, height)
            if lines is None:
                continue
            text = as_text(lines)
            assert {line_width(line) for line in lines} == {width} and len(lines) == height
            assert all(f"═{groove.name}═" in text for groove in grooves)
            assert text.count("●") == count // 2
            assert text.count("○") == text.count("EMPTY") == count - count // 2


def test_without_room_they_are_listed() -> None:
    closing = Closing("c", "b", (EMPTY_G3, FILLED_G2), Opening.OUTWARD)
    assert draw_grooves(closing, 20, 14) is None
    assert as_text(list_grooves(closing.grooves, 30)) == picture("""
        |!G3!  ○  EMPTY|
        |═G2═  ●  -137|
    """)
    assert draw_grooves(Closing("c", "b", (), Opening.OUTWARD), 40, 14) is None
