"""What the desk shows at one time, and where an answer leads from there; no page knows Textual.

Pages lie on each other: one is opened on another, and left for it again. `RecordsScreen` draws the uppermost
and tells it what was heard.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from benchcheck.screens.help_sheet import About
from benchcheck.screens.keys import TURNING, Deed, LiveKey, turned
from benchcheck.screens.layout import Hand, Sheet, Work
from benchcheck.screens.listening import Answered, Question
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN, Sentence
from benchcheck.screens.widgets.cells import Drawing, Line, Run, plain_text, width_of, wrap


class Lead(Enum):
    """Where an answer leads, but to another page."""

    STAY = "stay"
    BACK = "back"
    """To the page below."""
    LEAVE = "leave"
    """To where the desk was opened from."""


@dataclass(frozen=True)
class Open:
    """To a page on top of this one."""

    page: Page


@dataclass(frozen=True)
class Instead:
    """To a page in the place of this one."""

    page: Page


@dataclass(frozen=True)
class Done:
    """Back to the page below, with what came of it."""

    told: str


Next: TypeAlias = Lead | Open | Instead | Done
Further: TypeAlias = Callable[[], tuple[str, Next]]
"""What Enter does at the end of a page, in words and in deed."""

ENDS_HERE = (LiveKey(Deed.HELP), LiveKey(Deed.STOP, word="leave", does="goes back to the open pumps"))


class Page(ABC):
    """One page of the desk."""

    escape = "back"
    """What Esc does."""
    text = ""
    """What stands in the field when the page is shown, where it has one."""
    said = ""
    """Why the answer before was not taken."""
    told = ""
    """What came of the deed before."""
    pointed_at: int | None = None
    """What was pointed at when a page was opened on top of it: pointed at again when that is left."""

    this = "A page of the reviewer's desk."
    """What it is, in a sentence for help."""
    now = ""
    """What to do on it, where what it listens for does not say so."""

    @abstractmethod
    def question(self) -> Question:
        """What it listens for."""

    def about(self) -> About:
        """What help says of it."""
        escape = self.escape_words()
        return About(self.this, f"Esc: {escape}." if escape else "F8 goes to the open pumps.", self.now)

    @abstractmethod
    def sheet(self, hand: Hand) -> Sheet:
        """What it shows, and what Enter does."""

    def sentences(self, hand: Hand) -> tuple[list[Sentence], list[Sentence]] | None:
        """The two sentences over it; None where those of the page below stay."""
        return None

    def escape_words(self) -> str:
        """What Esc does now; empty where it lists what else there is."""
        return self.escape

    def live(self) -> tuple[LiveKey, ...]:
        """The keys that work on it."""
        return (LiveKey(Deed.CONFIRM), LiveKey(Deed.ELSE, does=self.escape_words()), *ENDS_HERE)

    def answered(self, heard: Answered, hand: Hand) -> Next:
        """Enter, or another key that answers."""
        return Lead.BACK

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        """A key with a deed of its own; Esc leads to the page below."""
        return Lead.BACK if deed is Deed.ELSE else Lead.STAY

    def typed(self, text: str) -> None:
        """The field holds another text; it stands there again when the page is shown again."""
        self.text = text

    def ticked(self) -> Next | None:
        """A moment has passed: where that leads, as `Lead.STAY` to be drawn anew; None if nothing is new."""
        return None

    def closed(self) -> None:
        """It is left, or the program ends: what goes on behind it has to stop."""
        self.told = ""

    def uncovered(self) -> None:
        """The page on top of it was left."""
        self.told = ""

    def returned(self, told: str) -> None:
        """A page on top of it is done, with what came of it."""
        self.told = told


class ReadingPage(Page):
    """Lines to read, as many as there are; Enter and PgDn read on, and after the last line lead further."""

    title = ""
    now = "Read it; Enter and PgDn read on."

    def __init__(self) -> None:
        self._at = 0
        """The sheet that is read, from 0."""

    @abstractmethod
    def lines(self, hand: Hand) -> Drawing:
        """All of its lines."""

    @property
    @abstractmethod
    def then(self) -> tuple[str, Next]:
        """What Enter does after the last line, in words and in deed."""

    def question(self) -> Question:
        return Question(f"{self.title} {self._at}")

    def live(self) -> tuple[LiveKey, ...]:
        return (LiveKey(Deed.READ_ON), LiveKey(Deed.TO_END), *super().live())

    def sheet(self, hand: Hand) -> Sheet:
        sheets, work = self._sheets(hand), Work(hand)
        self._at = min(self._at, len(sheets) - 1)
        write_title(work, self.title, f"{self._at + 1} of {len(sheets)}" if len(sheets) > 1 else "")
        work.draw(TITLE_ROWS, 0, sheets[self._at])
        return Sheet(work.lines(), self.then[0] if self._at + 1 == len(sheets) else "reads on")

    def answered(self, heard: Answered, hand: Hand) -> Next:
        return Lead.STAY if self._turn("pagedown", hand) else self.then[1]

    def asked(self, deed: Deed, key: str, hand: Hand) -> Next:
        if deed in TURNING:
            self._turn(key, hand)
        return super().asked(deed, key, hand)

    def _sheets(self, hand: Hand) -> tuple[Drawing, ...]:
        return in_sheets(self.lines(hand), rows_of(hand))

    def _turn(self, key: str, hand: Hand) -> bool:
        """Read on or back; whether there was anything to read there."""
        before = self._at
        self._at = turned(before, key, len(self._sheets(hand)) - 1)
        return self._at != before


class ChapterPage(ReadingPage):
    """A page of a session that is only read, and leads on to the next one."""

    escape = "back to the verdict"
    this = "A page of the session; nothing here changes it."

    def __init__(self, session: OneSession, further: Further) -> None:
        super().__init__()
        self._session = session
        self._further = further

    @property
    def then(self) -> tuple[str, Next]:
        return self._further()


TITLE_ROWS = 3


def rows_of(hand: Hand) -> int:
    """How many lines have room below a title."""
    return max(Work(hand).height - TITLE_ROWS, 1)


def in_sheets(lines: Drawing, rows: int) -> tuple[Drawing, ...]:
    """The lines in sheets of so many rows; what stands between two blank lines stays together if it can."""
    sheets: list[list[Line]] = [[]]
    for block in _blocks(lines):
        full = len(sheets[-1])
        if full + len(block) > rows >= len(block) and full >= rows // 2:
            sheets.append([])
        for line in block:
            if len(sheets[-1]) == rows:
                sheets.append([])
            if sheets[-1] or not is_blank(line):
                sheets[-1].append(line)
    return tuple(map(tuple, sheets))


def _blocks(lines: Drawing) -> list[list[Line]]:
    """Lines up to a blank one, each with the blank ones before it."""
    blocks: list[list[Line]] = [[]]
    for line in lines:
        if is_blank(line) and not all(map(is_blank, blocks[-1])):
            blocks.append([])
        blocks[-1].append(line)
    return blocks


def is_blank(line: Line) -> bool:
    return not plain_text(line).strip()


def write_title(work: Work, title: str, right: str = "") -> None:
    """What the page holds, in its second row, and where in it one reads."""
    work.canvas.put(1, MARGIN, work.view.words(title))
    work.canvas.put(1, work.width - width_of(right) - 1, right, Tone.QUIET)


def sentence(text: str, hand: Hand, indent: int = MARGIN) -> Drawing:
    """A sentence in as many lines as it takes."""
    lines = wrap(hand.words(text), hand.size.width - indent - MARGIN)
    return tuple((Run(" " * indent + line),) for line in lines)
