"""The time of each step at the work, beside what it takes as a rule."""

from __future__ import annotations

from datetime import timedelta

from benchcheck.report.step_times import LEAST_RECORDS, StepTime, beside_usual, step_times
from benchcheck.report.words import count, duration
from benchcheck.screens.layout import Hand
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import ChapterPage, Further, sentence
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Canvas, Drawing, Line, shorten_in_the_middle, width_of

_TIME = 12
_SIGN = 2


def page(desk: Desk, session: OneSession, further: Further) -> TimesPage:
    return TimesPage(desk, session, further)


class TimesPage(ChapterPage):
    """A bar for each step; the usual time is a mark on it."""

    title = "Time at the work, step by step"

    def __init__(self, desk: Desk, session: OneSession, further: Further) -> None:
        super().__init__(session, further)
        others = desk.times_of_others(session)
        self._others = len(others)
        self._times = beside_usual(step_times(session.tables), others)

    def lines(self, hand: Hand) -> Drawing:
        if self._others < LEAST_RECORDS:
            usual = f"Too few other records by this procedure to say what is usual: {self._others}."
        else:
            usual = (
                f"┼ the usual time: the median of {count(self._others, 'other record')} by this procedure.  "
                "? three times longer or shorter than that."
            )
        return (*sentence(f"Pauses and waits are left out.  {usual}", hand), (), *self._bars(hand))

    def _bars(self, hand: Hand) -> Drawing:
        names = max((width_of(self._name(each, hand)) for each in self._times), default=0)
        names = min(names, hand.size.width // 3)
        start = MARGIN + _SIGN + names + 2 * _TIME
        room = hand.size.width - start - MARGIN
        longest = max((max(each.seconds, each.usual_seconds or 0) for each in self._times), default=0) or 1
        return tuple(self._bar(each, hand, names, room, longest) for each in self._times)

    def _bar(self, each: StepTime, hand: Hand, names: int, room: int, longest: float) -> Line:
        canvas = Canvas(hand.size.width, 1)
        canvas.put(0, MARGIN, "?" if each.odd else "")
        canvas.put(0, MARGIN + _SIGN, shorten_in_the_middle(self._name(each, hand), names))
        column = MARGIN + _SIGN + names
        for seconds, tone in ((each.seconds, Tone.INK), (each.usual_seconds, Tone.QUIET)):
            text = hand.words(_in_words(seconds)) if seconds is not None else ""
            canvas.put(0, column + _TIME - width_of(text), text, tone)
            column += _TIME
        cells = round(each.seconds / longest * (room - 1))
        canvas.put(0, column + 1, "─" * cells)
        if each.usual_seconds is not None:
            canvas.put(0, column + 1 + round(each.usual_seconds / longest * (room - 1)), "┼")
        return canvas.lines()[0]

    def _name(self, each: StepTime, hand: Hand) -> str:
        journal = self._session.journal
        return hand.words(journal.step_words(f"{each.step}/") if journal is not None else each.step)


def _in_words(seconds: float) -> str:
    return duration(timedelta(seconds=round(seconds)))
