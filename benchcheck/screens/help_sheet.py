"""Help, made from the keys that work at this moment, with what every sign means."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.screens.keys import LiveKey, help_lines
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.widgets.cells import Line, Run
from benchcheck.screens.widgets.signs import Sign

_LEGEND = (
    (("5", Sign.DONE), ("4", Sign.NOW), ("2", Sign.NEXT)),
    (("3", Sign.FAULTY), ("1", Sign.DEVIATION), ("6", Sign.VOID)),
)
_LEGEND_COLUMN = 28
_CELLS = 16
ESCAPE: Line = (Run("  Esc     closes help too"),)


def help_sheet(live: Sequence[LiveKey], enter_does: str, hand: Hand) -> Sheet:
    """Every live key with what it does here."""
    work = Work(hand)
    work.verb("keys")
    for row, signs in enumerate(_LEGEND):
        column = _LEGEND_COLUMN
        for text, sign in signs:
            run = sign.around(text)
            work.canvas.put(work.verb_row + row, column, run.text, run.tone)
            work.canvas.put(work.verb_row + row, column + len(run.text) + 1, sign.word)
            column += _CELLS
    work.draw(work.row, 0, help_lines(live, enter_does, hand.size.width))
    return Sheet(work.lines(), "closes help; nothing is changed by it")
