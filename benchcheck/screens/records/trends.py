"""Trends inside the application: a procedure, then one of its groups with its charts, or what is redone.

The same figures and charts, in the same words, as the command of that name gives.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from benchcheck.report import words
from benchcheck.report.document import ControlChart, Document, Fields, Paragraph, Points, Table
from benchcheck.report.plain_text import as_chunks
from benchcheck.report.trends import READINGS, document_of
from benchcheck.screens.inquiry import Flow, Item, waited_for
from benchcheck.screens.records.trace import searched, taken_in
from benchcheck.screens.text_pages import text_pages
from benchcheck.session.state import Registers
from benchcheck.session.trace.wanted import Wanted
from benchcheck.session.trends import GroupTrend, Trends
from benchcheck.session.trends import trends as gathered
from benchcheck.store.index import Index
from benchcheck.store.workspace import Workspace

BACK = "back to the first list"
_CHART_ROWS = 5
"""So that a chart of values fits on one sheet of the smallest window."""
_ORDER = (ControlChart, Points, Fields, Table, Paragraph)
"""What is looked at first."""


def trends(workspace: Workspace, registers: Registers, clock: Callable[[], datetime]) -> Flow[None]:
    """Choose a procedure, then look at one thing after the other until Esc."""
    if not (yield from taken_in("trends", workspace)):
        return
    with Index(workspace) as index:
        procedures = index.names("procedure")
    if not procedures:
        yield Item("trends", "There is no record yet.", "goes back to the first list", escape=BACK)
        return
    chosen = yield Item(
        "trends",
        "Of which procedure?",
        "reads its records",
        choices=tuple(procedures),
        escape=BACK,
    )
    now, wanted = clock(), Wanted("procedure", procedures[chosen.index])
    found = yield from waited_for(
        "trends",
        "Its records are read, event by event.",
        searched(workspace, registers, wanted, now),
        "stops it; a part of them is not charted",
    )
    if found.not_reached:
        yield Item(
            "stopped",
            f"{words.capital(words.count(found.not_reached, 'record'))} not read. The limits of a chart come "
            "from all of its points, so a part of them is not charted.",
            "goes back to the first list",
            escape=BACK,
        )
        return
    pasts = (each.past for each in found.touched)
    made = gathered(procedures[chosen.index], pasts, registers.wrenches)
    document = document_of(made, now, found.gaps)
    groups = [each for each in made.groups if each.readings]
    at = -1
    while True:
        chosen = yield Item(
            "trends",
            document.sentence,
            "shows it",
            choices=(*map(_group_words, groups), "what is done again, and deviations"),
            escape=BACK,
            at=at,
        )
        at = chosen.index
        shown = _rest(document) if chosen.index == len(groups) else _of_group(made, groups[chosen.index], now)
        # The first piece says what the choice said already.
        pieces = list(as_chunks(shown, chart_rows=_CHART_ROWS))[1:]
        yield from text_pages("trends", pieces, "to the choice")


def _group_words(group: GroupTrend) -> str:
    said = words.count(len(group.readings), "reading")
    if group.chart is None:
        fired = "not charted"
    else:
        count = len(group.signals) + len(group.range_signals)
        fired = f"{words.count(count, 'rule')} fired" if count else "no rule fired"
    return f"{group.called}: {said}, {fired}"


def _of_group(made: Trends, group: GroupTrend, now: datetime) -> Document:
    """The charts first, then the rules that fired, the figures, and what the rules are."""
    document = document_of(replace(made, groups=(group,)), now)
    section = document.sections[0]
    blocks = sorted(section.blocks, key=lambda block: _ORDER.index(type(block)))
    return replace(document, sections=(replace(section, blocks=tuple(blocks)),))


def _rest(document: Document) -> Document:
    """All but the readings."""
    return replace(document, sections=tuple(each for each in document.sections if each.title != READINGS))
