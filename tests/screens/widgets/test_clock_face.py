"""Clocks: time left, until when, and what has passed; also over midnight and after the end."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.widgets.cells import line_width, plain_text
from benchcheck.screens.widgets.clock_face import ClockFace, draw_clock, draw_passage, figure_of, words_of
from tests.screens.pictures import as_text, picture

PUT_ON = datetime(2026, 11, 24, 15, 0)
CURE = ClockFace(PUT_ON, PUT_ON + timedelta(hours=24), PUT_ON + timedelta(hours=1, minutes=55))


def test_a_cure_of_a_day() -> None:
    assert as_text(draw_clock(CURE, 72)) == picture("""
        |██████  ██████      ██████  ██████                                      |
        |    ██      ██  ██  ██  ██  ██        hours and minutes left            |
        |██████  ██████      ██  ██  ██████                                      |
        |██      ██      ██  ██  ██      ██    until Wednesday 25 November,      |
        |██████  ██████      ██████  ██████    15:00 by this clock               |
    """)
    assert as_text(draw_passage(CURE, 64)) == picture("""
        |15:00 Tue      21:00           03:00 Wed       09:00       15:00|
        |═════►──────────────────────────────────────────────────────────|
    """)


@pytest.mark.parametrize(
    ("left", "figure", "words"),
    [
        (timedelta(hours=22, minutes=5), "22:05", "hours and minutes left"),
        (timedelta(hours=1), "1:00", "hours and minutes left"),
        (timedelta(minutes=59, seconds=59, milliseconds=500), "1:00", "hours and minutes left"),
        (timedelta(minutes=8, seconds=3, milliseconds=200), "8:04", "minutes and seconds left"),
        (timedelta(seconds=1), "0:01", "minutes and seconds left"),
        (timedelta(0), "0:00", "minutes and seconds left"),
    ],
)
def test_the_figure_never_shows_less_than_is_left(left: timedelta, figure: str, words: str) -> None:
    assert (figure_of(left), words_of(left)) == (figure, words)


def test_before_the_start_and_after_the_end() -> None:
    early = ClockFace(PUT_ON, CURE.ends, PUT_ON - timedelta(hours=3))
    late = ClockFace(PUT_ON, CURE.ends, CURE.ends + timedelta(days=2))
    assert early.share_passed == 0.0 and early.left == timedelta(hours=24)
    assert late.share_passed == 1.0 and late.left == timedelta(0)
    assert plain_text(draw_passage(late, 40)[1]) == "═" * 40


@given(st.integers(1, 10_000), st.integers(-100, 11_000), st.integers(40, 110))
def test_the_line_is_full_only_at_the_end(minutes: int, passed: int, width: int) -> None:
    face = ClockFace(PUT_ON, PUT_ON + timedelta(minutes=minutes), PUT_ON + timedelta(minutes=passed))
    times, line = draw_passage(face, width)
    assert line_width(times) == line_width(line) == width
    assert ("►" in plain_text(line)) == (passed < minutes)
