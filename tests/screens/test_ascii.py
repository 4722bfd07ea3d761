"""The ASCII twin: one cell for one cell, nothing else left, and no two states alike."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import benchcheck.screens.widgets
from benchcheck.screens.ascii import TWIN, drawing_in_ascii, in_ascii, spelled_out
from benchcheck.screens.widgets.cells import clusters, width_of
from benchcheck.screens.widgets.pattern import Circle, Pattern
from benchcheck.screens.widgets.ring import draw
from benchcheck.screens.widgets.signs import Sign
from tests.screens.pictures import as_text, picture, signs_for

DRAWN = re.compile(r"[\u2190-\u21ff\u2500-\u25ff\u2022\u2026\u00b7]")


def test_every_sign_that_a_drawing_uses_has_its_twin() -> None:
    folder = Path(benchcheck.screens.widgets.__file__).parent
    used = {sign for path in folder.glob("*.py") for sign in DRAWN.findall(path.read_text(encoding="utf-8"))}
    assert len(used) > 30
    assert used - set(TWIN) == set()


def test_twins_are_single_ascii_letters() -> None:
    assert all(twin.isascii() and twin.isprintable() and len(twin) == 1 for twin in TWIN.values())


def test_states_keep_their_shapes_apart() -> None:
    shapes = [in_ascii(sign.around("5").text) for sign in Sign]
    assert len(set(shapes)) == len(Sign)
    assert in_ascii("●") != in_ascii("○")
    assert in_ascii("═") != in_ascii("─")


def test_a_ring_in_ascii() -> None:
    pattern = Pattern(Circle(6), signs_for(6, 4, 2, done=[1]), datum="bypass boss")
    drawn = draw(pattern, 31, 15, 8)
    assert drawn is not None
    assert as_text(drawing_in_ascii(drawn)) == picture("""
        |          bypass boss          |
        |               v               |
        |         6          =1=        |
        |                               |
        |                               |
        |                               |
        |                               |
        |   5                      (2)  |
        |                        /      |
        |                  .  .         |
        |               .               |
        |            .                  |
        |        >4<          3         |
        |                               |
        |                               |
    """)


@pytest.mark.parametrize(
    ("text", "ascii_text"),
    [
        ("16 lbf·ft ± 10 %", "16 lbf.ft +/- 10 %"),
        ("45°", "45 deg"),
        ("22 °C", "22 deg C"),
        ("60 × 450", "60 x 450"),
        ("at 22 °C, ≤ 3", "at 22 deg C, <= 3"),
    ],
)
def test_quantities_are_spelled_out_before_they_are_laid_out(text: str, ascii_text: str) -> None:
    assert spelled_out(text) == ascii_text


@pytest.mark.parametrize(
    ("text", "ascii_text"),
    [
        ("Prüfung", "Prufung"),
        ("密封", "????"),
        ("é", "e"),
        ("e\u0301", "e"),
        ("Ａ", "A "),
        ("\x1b[2J", "?[2J"),
    ],
)
def test_letters_without_a_twin(text: str, ascii_text: str) -> None:
    assert in_ascii(text) == ascii_text


@given(st.text(st.characters(exclude_categories=["Cc", "Cf", "Cs", "Zl", "Zp"]), max_size=30))
def test_one_cell_becomes_one_cell(text: str) -> None:
    twin = in_ascii(text)
    assert twin.isascii() and (twin.isprintable() or not twin)
    assert len(twin) == sum(width_of(cluster) for cluster in clusters(text))
