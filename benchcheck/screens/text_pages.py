"""A long answer on several sheets: its lines as they are, broken between its pieces where it can be."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.keys import Deed, turned
from benchcheck.screens.layout import Hand, Work
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Run


def text_pages(verb: str, pieces: Iterable[Sequence[str]], back: str) -> Flow[None]:
    """Show the pieces, page by page; Enter on the last one, and Esc on any, leads `back`: "to the list".

    Turning keys lead to any page of it.
    """
    text = _Text([*pieces], f"goes back {back}")
    escape = frozenset({Deed.ELSE})
    while not text.is_read:
        reply = yield Item(
            verb, "", text.enter, body=text.body, turn=text.turn, escape=f"back {back}", again=escape
        )
        if reply.deed is Deed.ELSE:
            return
        text.read_on()


class _Text:
    """Where one is in it. How many pages it has, the window says in which it was shown last."""

    def __init__(self, pieces: list[Sequence[str]], at_the_end: str) -> None:
        self._pieces = pieces
        self._at_the_end = at_the_end
        self._at = 0
        """The page that is read, from 0."""
        self._count = 1
        self.is_read = False
        """Whether it was read to its end."""

    def read_on(self) -> None:
        self.is_read = self._at + 1 >= self._count
        self._at += 1

    def turn(self, key: str) -> None:
        self._at = turned(self._at, key, self._count - 1)

    def body(self, hand: Hand) -> Drawing:
        return tuple((Run(" " * MARGIN + hand.words(line), Tone.INK),) for line in self._page(hand))

    def enter(self, hand: Hand) -> str:
        self._page(hand)
        if self._at + 1 == self._count:
            return self._at_the_end
        return f"reads on, page {self._at + 1} of {self._count}"

    def _page(self, hand: Hand) -> Sequence[str]:
        pages = paged(self._pieces, max(Work(hand).rows_left - 1, 1))
        self._count = len(pages)
        self._at = min(self._at, self._count - 1)
        return pages[self._at]


def paged(pieces: Iterable[Sequence[str]], rows: int) -> list[Sequence[str]]:
    """The pieces put on pages of so many rows, a blank row between them; a longer one is cut."""
    pages: list[list[str]] = []
    for piece in pieces:
        if pages and len(pages[-1]) + 1 + len(piece) <= rows:
            pages[-1] += ["", *piece]
        else:
            pages += (list(piece[start : start + rows]) for start in range(0, len(piece), rows))
    return [*pages]
