"""The list of procedures: model, revision, state, and what the check has to say of each."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.procedure.finding import Severity
from benchcheck.report.words import count
from benchcheck.screens.inquiry import nothing_pointed
from benchcheck.screens.layout import CHOICES_A_PAGE, Hand, Sheet, Work
from benchcheck.screens.procedures.findings import in_words, sign_of
from benchcheck.screens.procedures.shelf import Book
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN, Clause, Sentence
from benchcheck.screens.widgets.cells import shorten_in_the_middle
from benchcheck.screens.widgets.signs import Sign

_NAME, _FOUND = 9, 50
"""Columns of the name and of what was found, in a window of 80."""


def shown(books: Sequence[Book], page: int) -> Sequence[Book]:
    return books[page * CHOICES_A_PAGE : (page + 1) * CHOICES_A_PAGE]


def list_pages(books: Sequence[Book]) -> int:
    return max(1, -(-len(books) // CHOICES_A_PAGE))


def list_sheet(books: Sequence[Book], hand: Hand) -> Sheet:
    """One procedure a line, with its models and its title below it where there is room."""
    work = Work(hand)
    for text in work.verb("procedures", ("They are read again when a file changes.",)):
        work.sentence(text)
    work.said()
    some = shown(books, hand.page)
    titled = work.rows_left >= 2 * len(some)
    apart = work.rows_left >= 3 * len(some)
    found_at = work.width * _FOUND // 80
    for number, book in enumerate(some, 1):
        run = (Sign.NOW if number == hand.pointed_at else Sign.TO_COME).around(f" {number} ")
        work.canvas.put(work.row, MARGIN, run.text, run.tone)
        name = shorten_in_the_middle(hand.words(_name(book)), found_at - _NAME - 3)
        work.canvas.put(work.row, _NAME, name)
        sign = sign_of(book)
        work.canvas.put(work.row, found_at - 2, sign.left, sign.tone)
        room = work.width - found_at - 1
        work.canvas.put(work.row, found_at, shorten_in_the_middle(in_words(book), room))
        work.row += 1
        if titled:
            head = book.head
            title = f"{', '.join(head.models)}: {head.title}" if head is not None else book.path.name
            title = shorten_in_the_middle(hand.words(title), work.width - _NAME - 1)
            work.canvas.put(work.row, _NAME, title, Tone.QUIET)
            work.row += 1 + apart
    if not hand.pointed_at or hand.pointed_at > len(some):
        enter = nothing_pointed(len(some)) if some else "nothing yet: there is no procedure here"
    else:
        enter = hand.words(f"shows {_name(some[hand.pointed_at - 1])} as the program understands it")
    more = f"PgDn for more: {len(books)} in all" if len(books) > CHOICES_A_PAGE else ""
    return Sheet(work.lines(), enter, more)


def _name(book: Book) -> str:
    head = book.head
    return (
        f"{head.id.upper()}, revision {head.revision}, {head.status}" if head is not None else book.path.name
    )


def what_of_all(books: Sequence[Book]) -> list[Sentence]:
    """Sentence two: how many there are, and how many have errors or warnings."""
    checking = sum(book.checking for book in books)
    bad = sum(
        bool(book.fault or book.count(Severity.ERROR) or book.count(Severity.WARNING)) for book in books
    )
    found: list[Sentence] = [(Clause((count(len(books), "procedure"),)),)]
    if checking:
        found.append((Clause((f"{checking} being checked",)),))
    found.append((Clause((f"{bad or 'None'} with errors or warnings",), loud=bool(bad)),))
    return found
