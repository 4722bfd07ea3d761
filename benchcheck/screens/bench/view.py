"""What a sheet of the bench is made from, and the sheet itself, as plain values.

A view is the engine's state and prompt with what the hand has done so far; a sheet is the work band, what
Enter will do, and the hint in the last row. Functions from one to the other are in `sheets`; none of them
knows Textual.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from zoneinfo import ZoneInfo

from benchcheck.screens.ascii import spelled_out
from benchcheck.screens.content import literal
from benchcheck.screens.listening import Question
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.session.prompt import Prompt
from benchcheck.session.state import State

CHOICES_A_PAGE = 9
"""Digits that can point."""


@dataclass(frozen=True)
class Size:
    """A window in cells."""

    width: int
    height: int

    @property
    def full(self) -> bool:
        """Whether there is room for a drawing."""
        return self.width >= 80 and self.height >= 24

    @property
    def large(self) -> bool:
        return self.width >= 110 and self.height >= 34


@dataclass(frozen=True)
class View:
    """One prompt as it is to be drawn."""

    state: State
    prompt: Prompt
    now: datetime
    size: Size
    plain: bool = False
    text: str = ""
    """What stands in the field."""
    pointed_at: int | None = None
    """The digit pointed with, on this page of the choices."""
    said: str = ""
    """Why the last thing typed was not taken."""
    quarter_turns: int = 0
    page: int = 0
    """Page of the choices."""
    arrived: tuple[tuple[str, str], ...] = field(default=())
    """What was found when the record was opened, as labelled lines."""

    def words(self, text: str) -> str:
        """A text of a file or a person as it may be drawn here."""
        return spelled_out(literal(text)) if self.plain else literal(text)

    def local(self, moment: datetime) -> datetime:
        """A time as the shop's clock shows it."""
        return moment.astimezone(ZoneInfo(self.state.job.registers.shop.time_zone))


@dataclass(frozen=True)
class Sheet:
    """The changing half of a sheet: the work band and the last two rows."""

    work: Drawing
    enter: str
    hint: str = ""


@dataclass(frozen=True)
class Asking:
    """What the listener has to ask, with the number of pages its choices fill."""

    question: Question
    pages: int = 1
