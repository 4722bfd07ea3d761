"""Small sheets of the procedures: what else can be done, a trial that runs, rows where Esc does one thing."""

from __future__ import annotations

from benchcheck.screens.behind import write_how_far
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.keys import Deed, listed_acts
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.procedures.reading import LIVE
from benchcheck.screens.procedures.trials import Progress
from benchcheck.screens.widgets.bands import MARGIN, TEXT_START
from benchcheck.screens.widgets.cells import Canvas, Line


def what_else() -> Flow[Deed]:
    """The acts behind Esc, as a numbered list."""
    acts = listed_acts(LIVE)
    words = tuple(f"{each.shown_word}: {each.shown_does}   {each.key.label}" for each in acts)
    chosen = yield Item("else", "What else?", "does this", choices=words, escape="closes the list")
    return acts[chosen.index].deed


def running_sheet(progress: Progress, stopping: bool, hand: Hand) -> Sheet:
    """How far a trial is; how much of it is done stands in the rule above."""
    work = Work(hand)
    for text in work.verb("trying", ("On no pump: the engine is driven as at the bench.",)):
        work.sentence(text)
    write_how_far(work, progress.words, stopping)
    return Sheet(work.lines(), "nothing yet: it runs")


def escape_row_of(does: str, width: int) -> Line:
    """The last row where Esc does one thing only."""
    canvas = Canvas(width, 1)
    canvas.put(0, MARGIN, "Esc")
    canvas.put(0, TEXT_START, does)
    return canvas.lines()[0]
