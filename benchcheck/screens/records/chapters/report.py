"""The whole report on a session, as it is printed; written from here as a page that needs nothing else."""

from __future__ import annotations

from benchcheck.report.html_page import as_html
from benchcheck.report.journal import Journal
from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from benchcheck.screens.keys import Deed, LiveKey
from benchcheck.screens.layout import Hand
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import ChapterPage, Further, Next, sentence
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Run
from benchcheck.store.disk import StoreFault
from benchcheck.store.workspace import Workspace


def page(desk: Desk, session: OneSession, further: Further) -> ReportPage:
    return ReportPage(desk.workspace, session, further)


class ReportPage(ChapterPage):
    """The report, line by line."""

    title = "The report, as it is printed"

    def __init__(self, workspace: Workspace, session: OneSession, further: Further) -> None:
        super().__init__(session, further)
        self._workspace = workspace
        self._texts: dict[bool, list[str]] = {}

    def live(self) -> tuple[LiveKey, ...]:
        if self._session.journal is None:
            return super().live()
        return (*super().live(), LiveKey(Deed.EXPORT, does="writes it as a page for a browser and for paper"))

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        if deed is Deed.EXPORT and self._session.journal is not None:
            self.title = self._written(self._session.journal)
        return super().asked(deed, key, hand)

    def _written(self, journal: Journal) -> str:
        """What came of writing it, in words."""
        name = f"{self._session.path.stem}-{journal.proof.number}"
        try:
            path = self._workspace.print_text(name, as_html([document_of(journal)]), ".html")
        except StoreFault as fault:
            return str(fault)
        return f"Written: {path.relative_to(self._workspace.folder)}"

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
