"""The whole report on a session, as it is printed."""

from __future__ import annotations

from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from benchcheck.screens.layout import Hand
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import ChapterPage, Further, sentence
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Run


def page(desk: Desk, session: OneSession, further: Further) -> ReportPage:
    return ReportPage(session, further)


class ReportPage(ChapterPage):
    """The report, line by line."""

    title = "The report, as it is printed"

    def __init__(self, session: OneSession, further: Further) -> None:
        super().__init__(session, further)
        self._texts: dict[bool, list[str]] = {}

    def lines(self, hand: Hand) -> Drawing:
        session = self._session
        if session.journal is None:
            verdict = session.recorded.verdict
            said = [
                session.cannot,
                *verdict.proved_by,
                *(f"Not proved: {each}" for each in verdict.not_proved),
            ]
            return tuple(line for each in said for line in sentence(each, hand))
        if hand.plain not in self._texts:
            document = document_of(session.journal)
            self._texts[hand.plain] = as_text([document], plain=hand.plain).splitlines()
        return tuple((Run(" " * MARGIN + hand.words(text)),) for text in self._texts[hand.plain])
