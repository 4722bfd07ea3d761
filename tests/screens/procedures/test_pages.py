"""Chapters cut into pages: nothing is lost, nothing is cut that fits, and a place is found again."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.screens.layout import Hand, Size
from benchcheck.screens.procedures.findings import findings_blocks, findings_panel
from benchcheck.screens.procedures.pages import BLANK, Chapter, pages_of, place_of
from benchcheck.screens.procedures.shelf import Book
from benchcheck.screens.widgets.cells import Drawing, Run, plain_text

ROWS = 6


def block(number: int, rows: int) -> Drawing:
    return tuple((Run(f"{number}/{row}"),) for row in range(rows))


@given(st.lists(st.lists(st.integers(0, 14), max_size=12), min_size=1, max_size=4))
def test_every_row_stands_on_one_page_in_order(sizes: list[list[int]]) -> None:
    chapters = [
        Chapter(
            str(number),
            "verb",
            tuple(block(at, rows) if rows else BLANK for at, rows in enumerate(heights)),
        )
        for number, heights in enumerate(sizes)
    ]
    pages = pages_of(chapters, ROWS)
    for chapter in chapters:
        mine = [page for page in pages if page.chapter is chapter]
        assert [page.part for page in mine] == list(range(len(mine))) != []
        shown = [line for page in mine for line in page.lines if line]
        assert shown == [line for each in chapter.blocks for line in each if line]
        for page in mine:
            assert len(page.lines) <= ROWS
            assert not page.lines or page.lines[0], "no page begins with a blank row"
        for each in chapter.blocks:
            if each != BLANK and len(each) <= ROWS:
                assert any(each == page.lines[at : at + len(each)] for page in mine for at in range(ROWS))


def test_a_place_is_found_again_where_its_chapter_became_shorter_or_is_gone() -> None:
    pages = pages_of(
        [Chapter("a", "a", (block(0, 2),)), Chapter("b", "b", (block(0, ROWS), block(1, 1)))], ROWS
    )
    assert [place_of(pages, "b", part) for part in (0, 1, 5)] == [1, 2, 2]
    assert place_of(pages, "gone", 3) == 0


def book(count: int) -> Book:
    findings = tuple(
        Finding("vague-word", Severity.WARNING, Place("p.toml", 1, 3), f"Word {number}.", "Write a number.")
        for number in range(count)
    )
    return Book(Path("p.toml"), findings=findings, lines=(b'x = "tight"',), checking=False, reads=True)


@given(st.integers(1, 9), st.integers(0, 8), st.integers(5, 30))
def test_the_finding_in_hand_is_always_in_the_panel(count: int, current: int, rows: int) -> None:
    current = min(current, count - 1)
    hand = Hand(size=Size(120, 40))
    panel = findings_panel(book(count), current, hand, 50, rows)
    text = "\n".join(map(plain_text, panel))
    assert len(panel) == rows
    assert f"►{current + 1}◄" in text and f"Word {current}." in text
    last = "\n".join(map(plain_text, findings_blocks(book(count), current, hand, 50)[-1]))
    assert "and " in text or f"Word {count - 1}." in text, last
