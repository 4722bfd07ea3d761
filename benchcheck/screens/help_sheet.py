"""Help: what a screen is, what to do now, how to get out; the keys that work now, and the signs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchcheck.screens.keys import LiveKey, help_lines
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.listening import Takes
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Line, Run
from benchcheck.screens.widgets.signs import Sign

_LEGEND = (
    *(("5", Sign.DONE), ("4", Sign.NOW), ("2", Sign.NEXT)),
    *(("3", Sign.FAULTY), ("1", Sign.DEVIATION), ("6", Sign.VOID)),
)
_ROOMY_WIDTH = 66
ESCAPE: Line = (Run("  Esc     closes help too"),)
_NOW = {
    Takes.NOTHING: "Do what it says; Enter does what its row names.",
    Takes.POINTING: "Type the number of a line, then Enter.",
    Takes.NUMBER: "Type what you read, then Enter; Backspace erases.",
    Takes.TEXT: "Type it, then Enter; Backspace erases.",
}


@dataclass(frozen=True)
class About:
    """A sentence on what a screen is, one on how to get out of it, and one on what to do now.

    Without the last, what is asked says it: a number, words, a line to point at.
    """

    this: str
    out: str
    now: str = ""

    def sentences(self, takes: Takes) -> tuple[str, str, str]:
        return self.this, self.now or _NOW[takes], self.out


def help_sheet(
    sentences: Sequence[str],
    live: Sequence[LiveKey],
    enter_does: str,
    hand: Hand,
    page: int = 0,
    why_plain: str = "",
) -> Sheet:
    """The sentences, every live key with what it does here, and why ASCII is drawn if nobody asked for it.

    Keys that find no room are on a page of their own; after the last page comes the first.
    """
    work = Work(hand)
    if hand.size.full:
        sentences = work.verb("help", sentences)
    else:
        work.row = 0
    for sentence in sentences:
        work.sentence(sentence)
    work.gap(14)
    rows, room = help_lines(live, enter_does, hand.size.width), work.height - 1 - work.row
    if why_plain:
        room -= 1
        work.canvas.put(work.height - 2, MARGIN, hand.words(f"Drawn in ASCII: {why_plain}."))
    room = max(room, 1)
    pages = -(-len(rows) // room)
    at = page % pages
    work.draw(work.row, 0, rows[at * room : (at + 1) * room])
    _write_legend(work)
    more = f"PgDn turns to the next of {pages} pages" if pages > 1 else "nothing is changed by it"
    return Sheet(work.lines(), f"closes help; {more}")


def _write_legend(work: Work) -> None:
    column = MARGIN
    for text, sign in _LEGEND:
        run = sign.around(text)
        work.canvas.put(work.height - 1, column, run.text, run.tone)
        work.canvas.put(work.height - 1, column + len(run.text) + 1, sign.word)
        column += len(run.text) + 1 + len(sign.word) + (2 if work.width >= _ROOMY_WIDTH else 1)
