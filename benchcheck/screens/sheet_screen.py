"""What all our screens share: one sheet that fills the window, one listener, and the care for small windows.

A screen of ours says what its bands hold at a size and what it does with what was heard; a question is never
a new Textual screen, only another sheet on this one.
"""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING, cast

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from benchcheck.screens.keys import Deed
from benchcheck.screens.listening import Answered, Asked, Changed, Heard, Listener, Question, Refused, Stray
from benchcheck.screens.widgets.bands import Bands, set_bands, too_small
from benchcheck.screens.widgets.sheet import Sheet

if TYPE_CHECKING:
    from benchcheck.screens.app import BenchcheckApp

LEAST_SIZE = (60, 16)
"""Columns and rows below which no answer is taken."""

FULL_SIZE = (80, 24)
"""Columns and rows that a question with a drawing needs."""


class SheetScreen(Screen[None], inherit_bindings=False):
    """A screen that is one sheet. Subclasses give the bands, and take what was answered and asked."""

    def __init__(self) -> None:
        super().__init__()
        self.listener = Listener(self.benchcheck.timing)
        self.sheet = Sheet(self.listener, self._hear)
        self._is_open = False
        self._said = ""
        """Why the last thing typed was not taken, for the bands to show."""

    @property
    def benchcheck(self) -> BenchcheckApp:
        return cast("BenchcheckApp", self.app)

    @abstractmethod
    def bands(self, width: int, height: int) -> Bands:
        """What the sheet holds now, at this size."""

    @abstractmethod
    def answered(self, heard: Answered) -> None:
        """Do what Enter, or another answering key, does to the question that stands."""

    @abstractmethod
    def asked(self, heard: Asked) -> None:
        """Do what a key with a deed of its own does."""

    def changed(self) -> None:
        """The field or the place pointed at is another; what was said before is gone already."""

    @abstractmethod
    def place_in_words(self) -> str:
        """Which pump and where in the work, for a window too small to show more."""

    def least_size(self) -> tuple[int, int]:
        """Columns and rows that what is asked now needs: `FULL_SIZE` where it cannot do without a drawing."""
        return LEAST_SIZE

    def compose(self) -> ComposeResult:
        yield self.sheet

    def on_mount(self) -> None:
        self.sheet.dress(self.benchcheck.tone_styles())
        self.sheet.focus()
        self.app.app_resume_signal.subscribe(self, self._come_back)
        self.repaint()

    def opened(self) -> None:
        """The application opened with this screen, and it can be painted now."""

    def on_resize(self, event: events.Resize) -> None:
        self.repaint()

    def ask(self, question: Question, text: str = "", pointed_at: int | None = None) -> None:
        """Put a question and paint it; Enter counts from a moment after it can be seen."""
        self._is_open = True
        self.listener.ask(question, text, pointed_at)
        self.repaint()

    def repaint(self) -> None:
        """Paint what changed."""
        width, height = self.size
        if not width or not height:
            return
        least = self.least_size()
        small = width < least[0] or height < least[1]
        self.listener.mute(small)
        if small:
            self.sheet.show(too_small(self.place_in_words(), width, height, least))
        else:
            self.sheet.show(set_bands(self.bands(width, height), width, height))
            self.call_after_refresh(self._drawn)

    def _drawn(self) -> None:
        self.listener.drawn(self.benchcheck.monotonic())

    def _come_back(self, _: object) -> None:
        """After another program had the terminal, an open question is put again: it has to be seen first."""
        if self._is_open:
            self.ask(self.listener.question, self.listener.text, self.listener.pointed_at)
        self.refresh(layout=True)

    def _hear(self, heard: Heard) -> None:
        if isinstance(heard, Refused):
            self.benchcheck.bell()
        elif isinstance(heard, Answered):
            self._is_open = False
        if self.listener.muted and isinstance(heard, Asked) and heard.deed is not Deed.STOP:
            return
        self.heard(heard)

    def heard(self, heard: Heard) -> None:
        """Pass on what answers or asks; of all else, keep what there is to say. Refusals have rung."""
        match heard:
            case Answered():
                self.answered(heard)
                return
            case Asked():
                self.asked(heard)
                return
            case Changed():
                self._said = ""
                self.changed()
            case Refused(why=why):
                self._said = why or self._said
            case Stray(text=text):
                self._said = f"Read {text}; nothing asked for it."
        self.repaint()
