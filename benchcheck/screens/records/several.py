"""Several clean sessions accepted at once, by one name and with one reason, once the list of them was read.

Each is looked at again before it is written to: what came to stand out in the meantime is left alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from time import monotonic

from benchcheck.report.words import capital, count, listed
from benchcheck.screens.bench.work import said
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.keys import Deed, turned
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.judgement import CANNOT, ESCAPE, who
from benchcheck.screens.records.page import Done, Lead, Next, Page
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Run, shorten_in_the_middle

MOST = 200
"""So many are accepted at once, at most: a longer list is not read."""
_AT_A_TIME = 0.1
"""Seconds that are worked before the page is drawn again."""


@dataclass(frozen=True)
class Clean:
    """A session in which nothing stands out, as it is read before it is accepted."""

    path: Path
    words: str


@dataclass(frozen=True)
class Word:
    """What is to be written into each of them."""

    name: str
    reason: str


def several(desk: Desk, clean: Sequence[Clean], unread: int = 0) -> Flow[Word | None]:
    """Read the list to its end; then the name and the reason.

    `unread` is how many records may still turn out to be clean.
    """
    if not clean:
        more = f" {capital(count(unread, 'record'))} not read through yet." if unread else ""
        yield Item(
            "nothing",
            f"No released session is listed here in which nothing stands out and nobody has judged.{more}",
            "goes back",
            escape=ESCAPE,
        )
        return None
    reading = _Reading(clean)
    while not reading.is_read:
        yield Item("judge", reading.ask, reading.enter, body=reading.body, turn=reading.turn, escape=ESCAPE)
        reading.read_on()
    message = ""
    while True:
        name = yield who(f"Accepted, all {len(clean)}. Who judges?", desk.reviewer, message)
        person = desk.registers.people.find(name.text)
        if person is not None and person.entitled("review", desk.today):
            break
        message = f'"{name.text}" is not entitled to review today, by the register of people.'
    why = yield Item(
        "judge",
        f"Accepted, all {len(clean)}, says {name.text}. Why? One line.",
        f"writes it into {count(len(clean), 'record')}: accepted, says {name.text}",
        field="why",
        escape=ESCAPE,
    )
    return Word(name.text, why.text)


class _Reading:
    """The list as it is read, a session in a line: nothing of it can be left out, all can be read again."""

    def __init__(self, sessions: Sequence[Clean]) -> None:
        self._sessions = sessions
        self._first = 0
        """Place of the uppermost line."""
        self._rows = 1
        """Lines that have room, as it was last shown."""
        self._seen = 0
        """So many, from the first one, were shown."""
        self.is_read = False
        """Whether Enter was pressed behind the last of them."""

    @property
    def ask(self) -> str:
        return f"{count(len(self._sessions), 'session')}: released, nothing stands out, not judged yet."

    def body(self, hand: Hand) -> Drawing:
        work = Work(hand)
        for text in (*work.verb("judge"), self.ask):
            work.sentence(text)
        self._rows = max(work.rows_left - 1, 1)
        shown = self._sessions[self._first : self._first + self._rows]
        self._seen = max(self._seen, self._first + len(shown))
        room = hand.size.width - MARGIN - 1
        return tuple(
            (Run(" " * MARGIN + shorten_in_the_middle(hand.words(each.words), room), Tone.INK),)
            for each in shown
        )

    def enter(self, hand: Hand) -> str:
        left = len(self._sessions) - self._seen
        if left:
            return f"reads on: {left} more"
        return f"goes on to the name: {count(len(self._sessions), 'session')} to accept"

    def turn(self, key: str) -> None:
        """To another sheet, but past no line that was not shown yet."""
        last = (len(self._sessions) - 1) // self._rows * self._rows
        self._first = min(turned(self._first, key, last, self._rows), self._seen)

    def read_on(self) -> None:
        self.is_read = self._seen == len(self._sessions)
        self._first = self._seen


class WritingPage(Page):
    """Accepts one after the other, and shows how far it is; Esc ends it behind the one being written."""

    escape = "stops; what is written stays"

    def __init__(self, desk: Desk, clean: Sequence[Clean], word: Word) -> None:
        self._desk = desk
        self._left = list(clean)
        self._word = word
        self._count = len(clean)
        self._written = 0
        self._not: list[str] = []

    def question(self) -> Question:
        return Question("writing")

    def sheet(self, hand: Hand) -> Sheet:
        work = Work(hand)
        for text in work.verb("judge", [f"{self._written} of {self._count} are in their records."]):
            work.sentence(text)
        for text in self._not[-6:]:
            work.sentence(f"! {text}")
        return Sheet(work.lines(), "nothing: it goes on by itself")

    def answered(self, heard: Answered, hand: Hand) -> Next:
        return Lead.STAY

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        return self._done() if super().asked(deed, key, hand) is Lead.BACK else Lead.STAY

    def ticked(self) -> Next | None:
        until = monotonic() + _AT_A_TIME
        while self._left:
            self._write(self._left.pop(0))
            if monotonic() > until:
                return Lead.STAY
        return self._done()

    def _write(self, each: Clean) -> None:
        try:
            session = self._desk.look_at(each.path)
            if session.remarks or session.judged or session.journal is None:
                self._not.append(f"{session.name}: something stands out in it by now")
                return
            refusal = self._desk.judge(each.path, "accepted", self._word.name, self._word.reason)
        except CANNOT as fault:
            self._not.append(f"{each.path.name}: {fault}")
            return
        if refusal is not None:
            self._not.append(f"{session.name}: {said(refusal)}")
        else:
            self._written += 1
            self._desk.reviewer = self._word.name

    def _done(self) -> Done:
        told = f"Accepted: {self._written} of {self._count}."
        if self._not:
            told += f" Not accepted: {listed(self._not)}"
        return Done(told)
