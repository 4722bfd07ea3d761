"""A long answer on several sheets: its lines as they are, broken between its pieces where it can be."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.layout import Hand
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Run

LINES_A_PAGE = 12
"""Lines of an answer on one sheet, in the smallest window that takes answers."""


def text_pages(verb: str, pieces: Iterable[Sequence[str]], at_the_end: str, escape: str) -> Flow[None]:
    """Show the pieces, page by page; `at_the_end` says what Enter does on the last one."""
    pages = paged(pieces)
    for number, page in enumerate(pages, 1):
        last = number == len(pages)
        enter = at_the_end if last else f"reads on, page {number} of {len(pages)}"
        yield Item(verb, "", enter, body=_drawn(page), escape=escape)


def paged(pieces: Iterable[Sequence[str]]) -> list[Sequence[str]]:
    """The pieces put on pages, a blank row between them; one that is longer than a page is cut."""
    pages: list[list[str]] = []
    for piece in pieces:
        if pages and len(pages[-1]) + 1 + len(piece) <= LINES_A_PAGE:
            pages[-1] += ["", *piece]
        else:
            pages += (
                list(piece[start : start + LINES_A_PAGE]) for start in range(0, len(piece), LINES_A_PAGE)
            )
    return [*pages]


def _drawn(lines: Sequence[str]) -> Callable[[Hand], Drawing]:
    def body(hand: Hand) -> Drawing:
        return tuple((Run(" " * MARGIN + hand.words(line), Tone.INK),) for line in lines)

    return body
