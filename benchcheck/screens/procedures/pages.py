"""Long things cut into pages: chapters of blocks, none of which is cut where it fits on a page of its own.

Only the cutting, and the few shapes of block that chapters share. What a chapter says is said elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from benchcheck.screens.layout import Hand, Work
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import LABEL_END, MARGIN, TEXT_START
from benchcheck.screens.widgets.big_type import VERB_ROWS
from benchcheck.screens.widgets.cells import Canvas, Drawing, Run, width_of, wrap

BLANK: Drawing = ((),)
"""A row between two blocks; it is left out at the end of a page."""


@dataclass(frozen=True)
class Chapter:
    """What belongs under one large word; `line` is where in the file it comes from, 0 for nowhere."""

    key: str
    verb: str
    blocks: tuple[Drawing, ...]
    line: int = 0
    beside: tuple[str, ...] = ()


@dataclass(frozen=True)
class Page:
    """One page of a chapter, and which of its pages it is, from 0."""

    chapter: Chapter
    part: int
    lines: Drawing


def room_for_blocks(hand: Hand) -> int:
    """Rows that a page leaves for blocks, below its large word."""
    work = Work(hand)
    return work.height - work.verb_row - VERB_ROWS - 1


def pages_of(chapters: Iterable[Chapter], rows: int) -> tuple[Page, ...]:
    """All chapters, each begun on a page of its own."""
    return tuple(
        Page(chapter, part, lines)
        for chapter in chapters
        for part, lines in enumerate(_pages(chapter.blocks, rows) or [()])
    )


def _pages(blocks: Sequence[Drawing], rows: int) -> list[Drawing]:
    found: list[Drawing] = []
    page: Drawing = ()
    for block in blocks:
        for piece in _pieces(block, rows):
            if page and len(page) + len(piece) > rows:
                found.append(page)
                page = ()
            if page or piece != BLANK:
                page += piece
    return [*found, page] if page else found


def _pieces(block: Drawing, rows: int) -> Iterator[Drawing]:
    for start in range(0, len(block), rows):
        yield block[start : start + rows]


def place_of(pages: Sequence[Page], key: str, part: int) -> int:
    """Where a page is found again after the pages were made anew: in its chapter, or at the beginning."""
    there = [at for at, page in enumerate(pages) if page.chapter.key == key]
    return there[min(part, len(there) - 1)] if there else 0


# ---------------------------------------------------------------------- shapes of block


def labelled(hand: Hand, label: str, text: str, width: int) -> Drawing:
    """A small label and its text, wrapped beside it."""
    lines = wrap(hand.words(text), max(width - TEXT_START, 1))
    canvas = Canvas(width, len(lines))
    canvas.put(0, LABEL_END - width_of(label), label, Tone.QUIET)
    for row, line in enumerate(lines):
        canvas.put(row, TEXT_START, line)
    return canvas.lines()


def in_two_columns(hand: Hand, left: str, right: str, width: int, column: int) -> Drawing:
    """What is named on the left, and what is said of it from a column on."""
    names = wrap(hand.words(left), column - MARGIN - 2)
    said = wrap(hand.words(right), max(width - column, 1))
    canvas = Canvas(width, max(len(names), len(said)))
    for row, line in enumerate(names):
        canvas.put(row, MARGIN, line)
    for row, line in enumerate(said):
        canvas.put(row, column, line, Tone.QUIET)
    return canvas.lines()


def text_blocks(hand: Hand, text: str, width: int) -> tuple[Drawing, ...]:
    """A text line by line; a line that is too long goes on below its own beginning."""
    found = []
    for line in text.rstrip().splitlines():
        start = MARGIN + len(line) - len(line.lstrip())
        pieces = wrap(hand.words(line.strip()), max(width - start - 2, 20))
        indents = (start, *([start + 2] * (len(pieces) - 1)))
        found.append(
            tuple((Run(" " * at + piece),) for at, piece in zip(indents, pieces, strict=True)) or BLANK
        )
    return tuple(found)


def side_by_side(drawings: Sequence[Drawing], width: int) -> Drawing:
    """One drawing or two, in the halves of a page."""
    canvas = Canvas(width, max(map(len, drawings)))
    for half, drawing in enumerate(drawings):
        canvas.put_drawing(0, MARGIN + half * (width // 2), drawing)
    return canvas.lines()
