"""The procedure as it was followed, and what is different in the one of today."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator

from benchcheck.procedure.model import Head, Procedure
from benchcheck.report.words import count
from benchcheck.screens.layout import Hand
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import ChapterPage, Further, sentence
from benchcheck.screens.widgets.bands import labelled_lines
from benchcheck.screens.widgets.cells import Drawing, Line
from benchcheck.store.library import Loaded, Unreadable, load_procedure

_STANDING = ("released", "draft", "withdrawn")
"""Which of several revisions is today's: the one that serves best."""


def page(desk: Desk, session: OneSession, further: Further) -> ProcedurePage:
    return ProcedurePage(desk, session, further)


class ProcedurePage(ChapterPage):
    """What it was, what today's is, and each difference in the trade's words."""

    title = "The procedure as it was, and today's"

    def __init__(self, desk: Desk, session: OneSession, further: Further) -> None:
        super().__init__(session, further)
        self._said = list(_said(desk, session))

    def lines(self, hand: Hand) -> Drawing:
        found: list[Line] = []
        journal = self._session.journal
        header = self._session.recorded.record.header
        if journal is not None and header is not None:
            rows = list(_head(journal.head, header.procedure_sha256))
            found += labelled_lines([(label, hand.words(text)) for label, text in rows], hand.size.width)
            found.append(())
        for text in self._said:
            found += sentence(text, hand)
        return tuple(found)


def _head(head: Head, sha256: str) -> Iterator[tuple[str, str]]:
    yield "was", f"{head.id.upper()}, revision {head.revision}, {head.status.value}: {head.title}"
    if head.issued is not None:
        yield "issued", f"{head.issued:%-d %B %Y}"
    by = ", ".join(each for each in (head.author, head.approver) if each)
    if by:
        yield "by", by
    yield "sha256", sha256


def _said(desk: Desk, session: OneSession) -> Iterator[str]:
    journal, header = session.journal, session.recorded.record.header
    if journal is None or header is None:
        yield session.cannot
        return
    today = _today(desk, journal.head.id)
    if today is None:
        yield f"Today there is no procedure {journal.head.id} in this workspace."
        return
    head = today.procedure.procedure
    if hashlib.sha256(today.content).hexdigest() == header.procedure_sha256:
        yield f"Today: revision {head.revision}, {head.status.value}, the same bytes."
        return
    yield f"Today: revision {head.revision}, {head.status.value}, in {today.path.name}."
    yield from _differences(journal.state.job.procedure, today.procedure)


def _differences(was: Procedure, today: Procedure) -> Iterator[str]:
    from benchcheck.assembly.comparison import compare

    found = compare(was, today)
    if found.remark:
        yield f"! {found.remark}."
    if not found.differences:
        yield "Nothing in it is different but remarks and spacing."
        return
    yield f"{count(len(found.differences), 'difference')}, as it was -> as it is today:"
    yield from (each.as_text() for each in found.differences)


def _today(desk: Desk, name: str) -> Loaded | None:
    """The revision of a procedure that stands today; one that cannot be read is none."""
    found: list[Loaded] = []
    for path in desk.workspace.procedure_paths():
        if not path.name.startswith(name):
            continue
        try:
            loaded = load_procedure(path)
        except Unreadable:
            continue
        if loaded.procedure.procedure.id == name:
            found.append(loaded)
    return min(found, key=lambda each: _STANDING.index(each.procedure.procedure.status.value), default=None)
