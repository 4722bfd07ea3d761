"""Reading one procedure: which page and which finding one is at, kept while the file changes. No Textual."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from benchcheck.procedure.finding import Severity
from benchcheck.screens.keys import Deed, LiveKey, turned_round
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.procedures.chapters import FINDINGS, chapters_of
from benchcheck.screens.procedures.findings import findings_panel, in_words, sign_in_front
from benchcheck.screens.procedures.pages import (
    Chapter,
    Page,
    labelled,
    pages_of,
    place_of,
    room_for_blocks,
    text_blocks,
)
from benchcheck.screens.procedures.shelf import Book
from benchcheck.screens.procedures.trials import Came
from benchcheck.screens.widgets.bands import Clause, Sentence

_WIDE, _HIGH = 110, 28
"""Columns and rows from which the findings stand beside the pages."""

LIVE = (
    LiveKey(Deed.CONFIRM),
    LiveKey(Deed.TURN, word="finding", does="the finding before this one and the one after it"),
    LiveKey(Deed.READ_ON),
    LiveKey(Deed.TO_END),
    LiveKey(Deed.ELSE),
    LiveKey(Deed.HELP),
    LiveKey(Deed.FIND, word="chapter", does="turns to where the next chapter begins"),
    LiveKey(Deed.TRACE, word="try", does="rehearses it, makes every fault, or practises with it"),
    LiveKey(Deed.STOP, word="list", does="goes back to the list of procedures"),
)


class Reading:
    """A place in one procedure."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._key = ""
        self._part = 0
        self._finding = 0
        self._made: tuple[Book, object, tuple[Page, ...]] | None = None
        """The pages as they were last made, and what for: a sheet is painted far oftener than it changes."""

    # --- moving -------------------------------------------------------------------------------------------

    def turn(self, book: Book, hand: Hand, key: str) -> None:
        """To the page that a turning key leads to; after the last one comes the first."""
        pages, at = self._pages(book, hand)
        self._go(pages[turned_round(at, key, len(pages))])

    def next_chapter(self, book: Book, hand: Hand) -> None:
        pages, at = self._pages(book, hand)
        key = pages[at].chapter.key
        self._go(next((page for page in pages[at:] if page.chapter.key != key), pages[0]))

    def next_finding(self, book: Book, hand: Hand, by: int) -> None:
        """So many findings on. Where they have pages of their own, it first turns to the one in hand."""
        pages, at = self._pages(book, hand)
        if _beside(hand) or pages[at].chapter.key == FINDINGS:
            count = len(book.findings)
            self._finding = (self._at_finding(book) + by) % count if count else 0
        if not _beside(hand):
            pages, _ = self._pages(book, hand)
            mark = sign_in_front(self._at_finding(book))
            self._go(next((page for page in pages if any(mark in line for line in page.lines)), pages[0]))

    def _go(self, page: Page) -> None:
        self._key, self._part = page.chapter.key, page.part

    def _pages(self, book: Book, hand: Hand) -> tuple[tuple[Page, ...], int]:
        key = (self._at_finding(book), hand.size, hand.plain)
        if self._made is None or self._made[0] is not book or self._made[1] != key:
            width = _width(hand)
            chapters = chapters_of(book, self._at_finding(book), hand, width, beside=_beside(hand))
            whole = (_with_what_stands_beside(each, hand, width) for each in chapters)
            self._made = book, key, pages_of(whole, room_for_blocks(hand))
        pages = self._made[2]
        return pages, place_of(pages, self._key, self._part)

    def _at_finding(self, book: Book) -> int:
        return min(self._finding, max(len(book.findings) - 1, 0))

    # --- what is shown ------------------------------------------------------------------------------------

    def line(self, book: Book, hand: Hand) -> int:
        """The line the editor is opened at: of the finding in hand where one is seen, else of the page."""
        pages, at = self._pages(book, hand)
        chapter = pages[at].chapter
        if book.findings and (_beside(hand) or chapter.key == FINDINGS):
            return book.findings[self._at_finding(book)].place.line
        return max(chapter.line, 1)

    def sheet(self, book: Book, hand: Hand) -> Sheet:
        pages, at = self._pages(book, hand)
        work = Work(hand)
        _draw(work, pages[at], _width(hand))
        if hand.said:
            work.row = max(work.verb_row - 1, 0)
            work.said()
        if _beside(hand):
            column = _width(hand) + 2
            room = work.width - column
            rows = work.height - work.verb_row
            drawing = findings_panel(book, self._at_finding(book), hand, room, rows)
            work.draw(work.verb_row, column, drawing)
        of_finding = bool(book.findings) and (_beside(hand) or pages[at].chapter.key == FINDINGS)
        number, count = self._at_finding(book) + 1, len(book.findings)
        where = f"finding {number} of {count}" if of_finding else "this page"
        enter = f"opens the editor at line {self.line(book, hand)}, for {where}"
        return Sheet(work.lines(), enter)

    def where(self, book: Book, hand: Hand) -> Sentence:
        """Which page of how many."""
        pages, at = self._pages(book, hand)
        return (Clause((f"Page {at + 1} of {len(pages)}",)),)


def result_pages(came: Came, hand: Hand) -> tuple[Page, ...]:
    """What came of a trial, page by page."""
    width = hand.size.width
    chapter = Chapter("came", came.verb, text_blocks(hand, came.text, width), beside=(came.sentence,))
    return pages_of([_with_what_stands_beside(chapter, hand, width)], room_for_blocks(hand))


def result_sheet(came: Came, page: int, hand: Hand) -> Sheet:
    pages = result_pages(came, hand)
    at = min(page, len(pages) - 1)
    work = Work(hand)
    _draw(work, pages[at], hand.size.width)
    return Sheet(work.lines(), "goes back to the procedure", f"page {at + 1} of {len(pages)}")


def _draw(work: Work, page: Page, width: int) -> None:
    work.verb(page.chapter.verb, page.chapter.beside, until=width)
    work.draw(work.height - room_for_blocks(work.view), 0, page.lines)


def _with_what_stands_beside(chapter: Chapter, hand: Hand, width: int) -> Chapter:
    """Sentences that have no room beside the large word stand over the blocks."""
    left = tuple(Work(hand).verb(chapter.verb, chapter.beside, until=width))
    if not left:
        return chapter
    beside = chapter.beside[: len(chapter.beside) - len(left)]
    blocks = (*(labelled(hand, "", text, width) for text in left), *chapter.blocks)
    return replace(chapter, beside=beside, blocks=blocks)


def _beside(hand: Hand) -> bool:
    return hand.size.width >= _WIDE and hand.size.height >= _HIGH


def _width(hand: Hand) -> int:
    """Columns for the pages; in a large window the findings stand beside them."""
    return hand.size.width * 8 // 15 if _beside(hand) else hand.size.width


# ---------------------------------------------------------------------- the sentences above


def which_procedure(book: Book, hand: Hand) -> list[Sentence]:
    """Sentence one: which procedure, and that this is what was understood of it."""
    head = book.head
    if head is None:
        return [(Clause((hand.words(f"Procedure {book.path.name}"),)),)]
    named = Clause((hand.words(f"Procedure {head.id.upper()}"),))
    revision = Clause((hand.words(f"revision {head.revision}"), hand.words(f"rev. {head.revision}")))
    understood = Clause(("as the program understands it",), drop_rank=0)
    return [(named, revision, Clause((head.status.value,)), understood)]


def what_of_it(book: Book, hand: Hand) -> list[Sentence]:
    """Sentence two: how large it is, what is found in it, and when it was read."""
    found: list[Sentence] = []
    bad = book.count(Severity.ERROR) > 0 or bool(book.fault)
    if book.understood is not None:
        found.append((Clause((book.understood.counts,), drop_rank=1),))
    words = in_words(book)
    found.append((Clause((words[:1].upper() + words[1:],), loud=bad),))
    if book.at is not None:
        found.append((Clause((f"Read {book.at:%H:%M:%S}",), drop_rank=0),))
    if not book.reads and book.understood_at is not None:
        found.append((Clause((f"The pages are of {book.understood_at:%H:%M:%S}",), loud=True),))
    return found
