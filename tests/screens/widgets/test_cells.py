"""Cells: widths, cutting and wrapping by cells, and the sheet that is drawn on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import (
    Canvas,
    Run,
    clusters,
    cut,
    line_width,
    plain_text,
    shorten_in_the_middle,
    width_of,
    wrap,
)

TEXTS = st.text(
    alphabet=st.sampled_from("ab c.[/]éü漢字かדששלוםع·±e\u0301\u0323 "),
    max_size=40,
)


@pytest.mark.parametrize(
    ("text", "cells"),
    [("seal", 4), ("密封", 4), ("e\u0301", 1), ("אטם", 3), ("12 N·m", 6), ("", 0)],
)
def test_width_in_cells(text: str, cells: int) -> None:
    assert width_of(text) == cells


def test_marks_stay_with_their_letter() -> None:
    assert clusters("ae\u0301b") == ("a", "e\u0301", "b")
    assert clusters("密封") == ("密", "封")


def test_a_wide_letter_is_never_halved() -> None:
    assert cut("密封圈", 5) == "密封"
    canvas = Canvas(5, 1)
    canvas.put(0, 0, "密封圈")
    assert plain_text(canvas.lines()[0]) == "密封 "


def test_writing_over_half_a_wide_letter_blanks_the_other_half() -> None:
    canvas = Canvas(4, 1)
    canvas.put(0, 0, "密封")
    canvas.put(0, 1, "x")
    assert plain_text(canvas.lines()[0]) == " x封"
    canvas.put(0, 2, "y")
    assert plain_text(canvas.lines()[0]) == " xy "


def test_a_long_name_keeps_both_its_ends() -> None:
    assert shorten_in_the_middle("external retaining ring, 25 mm", 15) == "externa…, 25 mm"
    assert shorten_in_the_middle("short", 15) == "short"
    assert shorten_in_the_middle("密封密封密封密封", 9) == "密封…密封"


def test_wrapping_breaks_at_blanks() -> None:
    assert wrap("Pressing it home would hide two grooves.  One is empty.", 24) == (
        "Pressing it home would",
        "hide two grooves.  One",
        "is empty.",
    )
    assert wrap("superlongword and", 6) == ("superl", "ongwor", "d and")
    assert wrap("one\n\ntwo", 9) == ("one", "", "two")


def test_neighbouring_cells_of_one_tone_are_one_run() -> None:
    canvas = Canvas(8, 1)
    canvas.put(0, 1, "ab", Tone.NOW)
    canvas.put(0, 3, "c", Tone.NOW)
    assert canvas.lines() == ((Run(" "), Run("abc", Tone.NOW), Run("    ")),)


@given(TEXTS, st.integers(0, 12))
def test_cutting_never_exceeds_the_width(text: str, width: int) -> None:
    assert width_of(cut(text, width)) <= width
    assert text.startswith(cut(text, width))
    assert width_of(shorten_in_the_middle(text, width)) <= width


@given(TEXTS, st.integers(2, 20))
def test_wrapping_loses_no_letter(text: str, width: int) -> None:
    lines = wrap(text, width)
    assert all(width_of(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "").replace("\n", "")


@given(TEXTS, st.integers(-4, 12), st.integers(1, 12))
def test_a_line_is_exactly_as_wide_as_its_sheet(text: str, column: int, width: int) -> None:
    canvas = Canvas(width, 2)
    canvas.put(0, column, text)
    canvas.put(0, column + 1, text, Tone.WRONG)
    assert [line_width(line) for line in canvas.lines()] == [width, width]
