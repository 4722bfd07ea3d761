"""The raw events of a record: a list to find one in, and each as it stands in the file, with its seal."""

from __future__ import annotations

import hashlib
from dataclasses import replace

from benchcheck.report.words import event_words
from benchcheck.screens.keys import TURNING, Deed, LiveKey
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question, Takes
from benchcheck.screens.records.finder import MARK, Finder, write_field
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import (
    TITLE_ROWS,
    Instead,
    Lead,
    Next,
    Open,
    Page,
    ReadingPage,
    rows_of,
)
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Run, shorten_in_the_middle, wrap
from benchcheck.session.record import check_value
from benchcheck.store.disk import StoreFault, read_file

_MOST_DAMAGED = 4000
"""Bytes of a damaged part that are shown."""


class EventsPage(Page):
    """Every event in a line; typing finds, Enter shows it raw."""

    escape = "back to the verdict"
    this = "Every entry of the record, one in a line."
    now = "Type to find, move with the arrows; Enter opens."

    def __init__(self, session: OneSession) -> None:
        self._session = session
        self._lines = _lines(session)
        self._finder = Finder(self._lines)

    def question(self) -> Question:
        return Question("events", Takes.TEXT)

    def live(self) -> tuple[LiveKey, ...]:
        confirm, *rest = super().live()
        find = LiveKey(Deed.TYPE, does="finds the events that hold these words")
        return (confirm, find, LiveKey(Deed.MOVE), LiveKey(Deed.READ_ON), LiveKey(Deed.TO_END), *rest)

    def typed(self, text: str) -> None:
        super().typed(text)
        self._finder.type(text)

    def sheet(self, hand: Hand) -> Sheet:
        work = Work(hand)
        write_field(work, TITLE_ROWS - 2, hand.text, self._finder.place)
        marked = self._finder.marked
        for row, place in enumerate(self._finder.shown(rows_of(hand)), TITLE_ROWS):
            text = shorten_in_the_middle(hand.words(self._lines[place]), work.width - MARGIN - 1)
            if place == marked:
                work.canvas.put(row, 0, MARK.text, MARK.tone)
            work.canvas.put(row, MARGIN, text)
        if marked is None:
            return Sheet(work.lines(), "nothing: no event holds these words")
        return Sheet(work.lines(), f"shows event {marked + 1} as it stands in the file, with its seal")

    def answered(self, heard: Answered, hand: Hand) -> Next:
        marked = self._finder.marked
        return Open(EventPage(self._session, marked + 1)) if marked is not None else Lead.STAY

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        if deed is Deed.MOVE:
            self._finder.move(1 if key == "down" else -1)
        elif deed in TURNING:
            self._finder.turn(key, rows_of(hand))
        return super().asked(deed, key, hand)


def _lines(session: OneSession) -> list[str]:
    lines = []
    for number, table in enumerate(session.tables, 1):
        act = f"  {table['act']}" if table.get("act") else ""
        words = ""
        if session.journal is not None:
            said = event_words(session.journal.state.pump, session.journal.events[number - 1])
            words = f": {said}" if said != table["kind"] else ""
        by = f"  {table['by']}" if table["by"] else ""
        lines.append(f"{number:4}  {table['at'][:19].replace('T', ' ')}{by}  {table['kind']}{words}{act}")
    return lines


class EventPage(ReadingPage):
    """One event, byte for byte as text, and whether its seal fits."""

    escape = "back"
    this = "One entry, as it stands in the file, and its seal."

    def __init__(self, session: OneSession, number: int) -> None:
        super().__init__()
        self._session = session
        self._number = number
        self.title = f"Event {number} of {len(session.tables)}, as it stands in {session.path.name}"
        self._raw = _raw(session, number)

    def live(self) -> tuple[LiveKey, ...]:
        return (*super().live(), LiveKey(Deed.TURN, word="next", does="the event before it, or behind it"))

    @property
    def then(self) -> tuple[str, Next]:
        return "goes back", Lead.BACK

    def lines(self, hand: Hand) -> Drawing:
        width = hand.size.width - MARGIN - 1
        texts = [part for line in self._raw for part in (wrap(hand.words(line), width) if line else ("",))]
        return tuple((Run(" " * MARGIN + text),) for text in texts)

    def sheet(self, hand: Hand) -> Sheet:
        return replace(super().sheet(hand), hint="← → other events")

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        if deed is Deed.TURN:
            other = self._number + (1 if key == "right" else -1)
            if 1 <= other <= len(self._session.tables):
                return Instead(EventPage(self._session, other))
        return super().asked(deed, key, hand)


def _raw(session: OneSession, number: int) -> list[str]:
    """The lines of an event in the file, and what became of its seal when it was worked out just now."""
    try:
        data = read_file(session.path)
    except StoreFault as fault:
        return [str(fault)]
    if not 1 <= number <= len(session.seals):
        rest = data[session.recorded.record.kept :][:_MOST_DAMAGED]
        return [*session.recorded.verdict.not_proved, "", "What stands there:", *_as_lines(rest)]
    seal = session.seals[number - 1]
    worked_out = hashlib.sha256(data[: seal.covers]).hexdigest()
    agrees = worked_out == seal.hexadecimal
    return [
        f"Check value {number}: {check_value(seal.hexadecimal)}.  "
        + ("The seal fits: " if agrees else "THE SEAL DOES NOT FIT: ")
        + f"SHA-256 of the {seal.covers} bytes above the last line is "
        + ("what that line says." if agrees else f"{worked_out}."),
        "",
        *_as_lines(data[seal.start : seal.end]),
    ]


def _as_lines(data: bytes) -> list[str]:
    return data.decode("utf-8", "replace").strip("\n").split("\n")
