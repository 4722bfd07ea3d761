"""Helpers for tests of the application: what its window shows, and a screen to drive."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from rich.color import Color
from rich.segment import Segment
from textual.app import App

from benchcheck.screens.app import BenchcheckApp
from benchcheck.screens.help_sheet import ESCAPE, About
from benchcheck.screens.keys import Deed, LiveKey, keys_row
from benchcheck.screens.layout import Hand, Size
from benchcheck.screens.listening import AT_ONCE, Answered, Asked, Heard, Question, Takes, Timing
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.widgets.bands import Bands, Clause, labelled_lines
from benchcheck.screens.widgets.cells import Line, Run
from benchcheck.screens.widgets.signs import Sign

LIVE = (LiveKey(Deed.CONFIRM), LiveKey(Deed.HELP), LiveKey(Deed.STOP))


def window_text(app: App[Any]) -> str:
    """The window as text, line by line, blanks at the ends left out.

    The rows come from a private method of Textual; no other test may reach for it.
    """
    return "\n".join("".join(segment.text for segment in line).rstrip() for line in _painted(app))


def painted_colours(app: App[Any]) -> set[tuple[Color | None, Color | None]]:
    """The colours of letters in the window, each with what lies behind it."""
    return {
        (segment.style.color, segment.style.bgcolor)
        for line in _painted(app)
        for segment in line
        if segment.style is not None
    }


def _painted(app: App[Any]) -> Iterator[list[Segment]]:
    filters = app.get_line_filters()
    background = app.screen.background_colors[1]
    for strip in app.screen._compositor.render_full_update().strips:
        segments = [segment for part in strip for segment in part]
        for line_filter in filters:
            segments = line_filter.apply(segments, background)
        yield segments


class AskingScreen(SheetScreen):
    """Asks one thing after another and keeps what it heard; `words` are texts as a file might hold them."""

    def __init__(
        self,
        question: Question,
        words: str = "",
        least: tuple[int, int] = (60, 16),
        choices: Sequence[str] = (),
    ) -> None:
        super().__init__()
        self.choices = choices
        self.question = question
        self.words = words
        self.least = least
        self.all_heard: list[Heard] = []

    def on_mount(self) -> None:
        super().on_mount()
        self.ask(self.question)

    def least_size(self) -> tuple[int, int]:
        return self.least

    def place_in_words(self) -> str:
        return "Pump 4471, step 45 of 58."

    def bands(self, width: int, height: int) -> Bands:
        if self._help:
            helped = self.help(LIVE, "records it", Hand(size=Size(width, height)))
            return Bands((), (), None, helped.work, helped.enter, ESCAPE)
        lines = [("showed", self.listener.text), ("at", str(self.listener.pointed_at)), ("part", self.words)]
        return Bands(
            first=[(Clause(("Pump 4471",)),)],
            second=[(Clause((f"{len(self.all_heard)} heard",)),)],
            ruler=None,
            work=(*labelled_lines(lines, width), *self._choice_lines()),
            enter="records it",
            keys=keys_row(LIVE, width),
        )

    def _choice_lines(self) -> Iterator[Line]:
        for number, text in enumerate(self.choices, 1):
            sign = Sign.NOW if number == self.listener.pointed_at else Sign.TO_COME
            yield (Run("  "), sign.around(f" {number} "), Run(f"  {text}"))

    def heard(self, heard: Heard) -> None:
        self.all_heard.append(heard)
        super().heard(heard)

    def about(self) -> About:
        return About("A test.", "F8 leaves.")

    def answered(self, heard: Answered) -> None:
        self.repaint()

    def asked(self, heard: Asked) -> None:
        self.repaint()


def asking_app(
    question: Question | None = None,
    words: str = "",
    *,
    timing: Timing = AT_ONCE,
    plain: bool = False,
    in_colour: bool = True,
    light: bool = False,
    least: tuple[int, int] = (60, 16),
    choices: Sequence[str] = (),
) -> BenchcheckApp:
    """An application that opens with an asking screen."""
    asked = question or Question("reading", Takes.NUMBER)
    return BenchcheckApp(
        lambda: AskingScreen(asked, words, least, choices),
        plain=plain,
        in_colour=in_colour,
        light=light,
        timing=timing,
    )


def asking_screen(app: BenchcheckApp) -> AskingScreen:
    """The asking screen of a running application."""
    screen = app.screen
    assert isinstance(screen, AskingScreen)
    return screen
