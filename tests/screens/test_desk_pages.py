"""What the pages of the desk have in common: lines in sheets, and lines found by typing."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from benchcheck.screens.records.finder import Finder
from benchcheck.screens.records.page import in_sheets, is_blank
from benchcheck.screens.widgets.cells import Drawing, Run, plain_text


def drawing(text: str) -> Drawing:
    return tuple((Run(line),) for line in text)


def test_what_belongs_together_stays_on_one_sheet() -> None:
    sheets = in_sheets(drawing("abc def"), 5)
    assert ["".join(map(plain_text, sheet)) for sheet in sheets] == ["abc", "def"]


@given(st.text("ab ", max_size=60), st.integers(1, 9))
def test_no_line_is_lost_or_out_of_order_and_every_sheet_has_room(text: str, rows: int) -> None:
    sheets = in_sheets(drawing(text), rows)
    assert sheets and all(len(sheet) <= rows for sheet in sheets)
    shown = [plain_text(line) for sheet in sheets for line in sheet if not is_blank(line)]
    assert "".join(shown) == text.replace(" ", "")
    assert not any(sheet and is_blank(sheet[0]) for sheet in sheets)


texts = st.lists(st.text("abc 1", max_size=6), max_size=30)


@given(texts, st.lists(st.text("abC 1", max_size=3), max_size=4))
def test_what_is_found_holds_every_word_however_it_came_to_be_typed(
    lines: list[str], typed: list[str]
) -> None:
    finder = Finder(lines)
    for text in typed:
        finder.type(text)
    words = (typed[-1] if typed else "").casefold().split()
    assert list(finder.found) == [
        place for place, line in enumerate(lines) if all(word in line.casefold() for word in words)
    ]


moves = st.one_of(st.integers(-50, 50), st.sampled_from(("pageup", "pagedown", "home", "end")))


@given(st.integers(1, 40), st.integers(1, 12), st.lists(moves, max_size=8))
def test_the_marked_line_is_always_among_those_shown(lines: int, rows: int, moves: list[int | str]) -> None:
    finder = Finder(["a"] * lines)
    for move in moves:
        if isinstance(move, int):
            finder.move(move)
        else:
            finder.turn(move, rows)
        shown = finder.shown(rows)
        assert finder.marked in shown and len(shown) == min(rows, lines)
