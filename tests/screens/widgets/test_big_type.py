"""Large type: the verbs and figures as agreed, and what is done where they do not fit."""

from __future__ import annotations

import string

import pytest

from benchcheck.screens.widgets.big_type import draw_number, draw_verb, number_width
from benchcheck.screens.widgets.cells import line_width
from tests.screens.pictures import as_text, picture


def test_a_verb_in_half_blocks() -> None:
    assert as_text(draw_verb("Tighten 4", 76)) == picture("""
        |▀▀█▀▀ █ ▄▀▀▀ █  █ ▀▀█▀▀ █▀▀▀ █▄ █    █ █ |
        |  █   █ █ ▀█ █▀▀█   █   █▀▀  █ ▀█    ▀▀█▀|
        |  ▀   ▀  ▀▀▀ ▀  ▀   ▀   ▀▀▀▀ ▀  ▀      ▀ |
    """)


def test_two_words_stand_four_columns_apart() -> None:
    assert as_text(draw_verb("open jobs", 76)) == picture("""
        |▄▀▀▄ █▀▀▄ █▀▀▀ █▄ █      ▀█ ▄▀▀▄ █▀▀▄ ▄▀▀▀|
        |█  █ █▀▀  █▀▀  █ ▀█    ▄  █ █  █ █▀▀▄  ▀▀▄|
        | ▀▀  ▀    ▀▀▀▀ ▀  ▀     ▀▀   ▀▀  ▀▀▀  ▀▀▀ |
    """)


def test_every_letter_and_digit_has_a_form_of_its_own() -> None:
    drawn = {letter: as_text(draw_verb(letter, 10)) for letter in string.ascii_uppercase + "123456789"}
    assert len(set(drawn.values())) == len(drawn)
    assert all("▀" in text for text in drawn.values())


def test_in_ascii_a_verb_is_spaced_capitals_over_a_rule() -> None:
    assert as_text(draw_verb("Not yet", 40, plain=True)) == picture("""
        |             |
        |N O T   Y E T|
        |═════════════|
    """)


def test_a_verb_that_is_too_wide_or_has_no_blocks_is_still_written() -> None:
    assert "W A R M" in as_text(draw_verb("warm", 12))
    assert as_text(draw_verb("Prüfen", 40)).splitlines()[1] == "P R Ü F E N"
    assert as_text(draw_verb("measure", 8)).splitlines()[1] == "MEASURE"
    assert all(line_width(line) <= 4 for line in draw_verb("measure", 4))


def test_a_figure_in_full_blocks() -> None:
    assert as_text(draw_number("13.5")) == picture("""
        |  ██    ██████      ██████|
        |████        ██      ██    |
        |  ██    ██████      ██████|
        |  ██        ██          ██|
        |██████  ██████  ██  ██████|
    """)


def test_time_left_and_an_angle() -> None:
    assert as_text(draw_number("8:04")) == picture("""
        |██████      ██████  ██  ██|
        |██  ██  ██  ██  ██  ██  ██|
        |██████      ██  ██  ██████|
        |██  ██  ██  ██  ██      ██|
        |██████      ██████      ██|
    """)
    assert as_text(draw_number("45°")) == picture("""
        |██  ██  ██████  ██████|
        |██  ██  ██      ██  ██|
        |██████  ██████  ██████|
        |    ██      ██        |
        |    ██  ██████        |
    """)


def test_every_digit_has_a_form_of_its_own() -> None:
    assert len({as_text(draw_number(digit)) for digit in string.digits}) == 10


def test_the_width_is_known_before_it_is_drawn() -> None:
    for figure in ("134", "13.5", "22:05", "0.018", "45°"):
        assert {line_width(line) for line in draw_number(figure)} == {number_width(figure)}


def test_a_figure_is_never_drawn_in_part() -> None:
    with pytest.raises(ValueError, match="no large form for 'x'"):
        draw_number("13x")
