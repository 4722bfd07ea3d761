"""What all our screens share: one sheet that fills the window, one listener, and the care for small windows.

A screen of ours says what its bands hold at a size and what it does with what was heard; a question is never
a new Textual screen, only another sheet on this one.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Sequence
from typing import TYPE_CHECKING, cast

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from benchcheck.screens.help_sheet import About, help_sheet
from benchcheck.screens.keys import TURNING, Deed, LiveKey
from benchcheck.screens.layout import Hand
from benchcheck.screens.layout import Sheet as Half
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
        self._help = False
        self._help_page = 0
        self._behind_help: tuple[Question, str, int | None] = Question(""), "", None
        """What is asked while help lies over it, with what was typed and pointed at."""

    @property
    def benchcheck(self) -> BenchcheckApp:
        return cast("BenchcheckApp", self.app)

    @abstractmethod
    def bands(self, width: int, height: int) -> Bands:
        """What the sheet holds now, at this size."""

    @abstractmethod
    def about(self) -> About:
        """What this is, how to get out, and what to do now, in a sentence each for help."""

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
        """Put a question and paint it; Enter counts from a moment after it can be seen. Help stays."""
        if self._help:
            self._behind_help = question, text, pointed_at
            self.repaint()
        else:
            self._put(question, text, pointed_at)

    def _put(self, question: Question, text: str = "", pointed_at: int | None = None) -> None:
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
            self._put(self.listener.question, self.listener.text, self.listener.pointed_at)
        self.refresh(layout=True)

    # --- help -------------------------------------------------------------------------------------------

    def help(self, live: Sequence[LiveKey], enter_does: str, hand: Hand) -> Half:
        """The sheet of help, for the bands while help is open."""
        sentences = self.about().sentences(self._behind_help[0].takes)
        return help_sheet(sentences, live, enter_does, hand, self._help_page, self.benchcheck.why_plain)

    def open_help(self) -> None:
        """Lay help over what is asked, which stays as it is."""
        self._behind_help = self.listener.question, self.listener.text, self.listener.pointed_at
        self._help, self._help_page = True, 0
        self._put(Question("help"))

    def _in_help(self, heard: Answered | Asked) -> None:
        """Pages of it are turned; any other key closes it."""
        if isinstance(heard, Asked) and heard.deed in TURNING:
            self._help_page += 1 if heard.key in ("pagedown", "end") else -1
            self.repaint()
        else:
            self._help = False
            self.ask(*self._behind_help)

    # --- hearing ----------------------------------------------------------------------------------------

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
            case Answered() | Asked() if self._help:
                self._in_help(heard)
                return
            case Asked(deed=Deed.HELP):
                self.open_help()
                return
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
