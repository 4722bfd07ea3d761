"""The terminal application: themes, the end by a signal, the end by a fault, and the way out to an editor.

What a screen shows and does is in its own module. Whether there is a terminal at all, the command line has
checked before.
"""

from __future__ import annotations

import asyncio
import gc
import os
import signal
import subprocess
import sys
import termios
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from time import monotonic
from typing import Any, ClassVar

from rich.style import Style
from textual.app import App, SuspendNotSupported
from textual.binding import Binding, BindingType
from textual.filter import LineFilter

from benchcheck.exit_status import ExitStatus, of_signal
from benchcheck.screens.ascii_filter import AsciiFilter
from benchcheck.screens.first import FirstScreen
from benchcheck.screens.listening import Timing
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.screens.themes import (
    DARK_THEME,
    LIGHT_THEME,
    PALETTES,
    PALETTES_OF_SIXTEEN,
    styles_in_colour,
    styles_without_colour,
    themes,
)
from benchcheck.screens.tones import Tone
from benchcheck.store.workspace import Workspace
from benchcheck.terminal import started_with, why_ascii


def _now() -> datetime:
    return datetime.now(UTC)


_ENDING_SIGNALS = (signal.SIGTERM, signal.SIGHUP, signal.SIGINT)
_TERMINAL_CHECK_SECONDS = 5.0


class BenchcheckApp(App[None], inherit_bindings=False):
    """The application on one workspace, opened with its first screen."""

    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+z", "suspend_process", show=False, priority=True)]

    def __init__(
        self,
        first_screen: Callable[[], SheetScreen],
        *,
        plain: bool = False,
        why_plain: str = "",
        in_colour: bool = True,
        light: bool = False,
        timing: Timing | None = None,
    ) -> None:
        """Make it; nothing is read or opened before it runs.

        `first_screen` makes the screen it opens with. `plain` draws in ASCII, and so does `why_plain`, which
        help gives as the reason. Without `in_colour` the terminal's own inks are used. `timing` says how long
        Enter is deaf.
        """
        super().__init__(ansi_color=None if in_colour else True)
        self.plain = plain or bool(why_plain)
        self.why_plain = why_plain
        self.in_colour = in_colour
        self.timing = timing or Timing()
        self.fault: Exception | None = None
        self.animation_level = "none"
        self._first_screen = first_screen
        self._ascii_filter = AsciiFilter()
        for theme in themes():
            self.register_theme(theme)
        if in_colour:
            self.theme = LIGHT_THEME if light else DARK_THEME

    # --- looks ------------------------------------------------------------------------------------------

    def tone_styles(self) -> Mapping[Tone, Style]:
        """What each tone looks like now."""
        if not self.in_colour:
            return styles_without_colour()
        palettes = PALETTES_OF_SIXTEEN if self.console.color_system == "standard" else PALETTES
        return styles_in_colour(palettes[self.theme])

    def get_line_filters(self) -> Sequence[LineFilter]:
        filters = super().get_line_filters()
        return [*filters, self._ascii_filter] if self.plain else filters

    # --- beginning and end ------------------------------------------------------------------------------

    def on_mount(self) -> None:
        loop = asyncio.get_running_loop()
        loop.set_exception_handler(self._task_failed)
        if not self.is_headless:
            for number in _ENDING_SIGNALS:
                loop.add_signal_handler(number, self._end_by_signal, number)
            self.set_interval(_TERMINAL_CHECK_SECONDS, self._check_terminal)
        self.push_screen(self._first_screen())

    def on_ready(self) -> None:
        """From now on what is painted reaches the terminal."""
        self.call_after_refresh(gc.freeze)
        if isinstance(self.screen, SheetScreen):
            self.screen.opened()

    def on_app_focus(self) -> None:
        if isinstance(self.screen, SheetScreen):
            self.screen.listener.seen_again(self.monotonic())

    def monotonic(self) -> float:
        """The clock that the times of keys are read from."""
        return monotonic()

    def _end_by_signal(self, number: int) -> None:
        self.exit(return_code=of_signal(number))

    def _check_terminal(self) -> None:
        """End when the terminal is gone without a signal; otherwise its end would be read over and over."""
        try:
            termios.tcgetattr(sys.__stdin__.fileno() if sys.__stdin__ else 0)
        except (termios.error, ValueError, OSError):
            self._end_by_signal(signal.SIGHUP)

    # --- faults -----------------------------------------------------------------------------------------

    def _handle_exception(self, error: Exception) -> None:
        """The one place that every failing handler, timer, paint and worker comes to.

        It is Textual's own and not public: a test in a real terminal shows whether it still works. In tests
        without a terminal the error goes on to the test.
        """
        if self.is_headless:
            super()._handle_exception(error)
        elif self.fault is None:
            cause = getattr(error, "error", None)  # a failed worker's own error is inside Textual's
            self.fault = cause if isinstance(cause, Exception) else error
            self.exit(return_code=ExitStatus.UNEXPECTED)

    def _task_failed(self, loop: asyncio.AbstractEventLoop, context: dict[str, Any]) -> None:
        """A task that nobody waits for is a fault like any other."""
        error = context.get("exception")
        if isinstance(error, Exception):
            self._handle_exception(error)
        else:
            loop.default_exception_handler(context)

    # --- the way out ------------------------------------------------------------------------------------

    def run_outside(self, command: Sequence[str]) -> int | None:
        """Give the terminal to another program and take it back; its exit status, None if it cannot run."""
        try:
            with self.suspend():
                return subprocess.run(command, check=False).returncode
        except (SuspendNotSupported, OSError):
            return None

    def edit(self, path: Path, line: int = 1) -> int | None:
        """Open a file in the author's own editor, at a line where the editor is known to take one."""
        editor = os.environ.get("VISUAL") or os.environ.get("EDITOR") or "vi"
        return self.run_outside([*editor.split(), f"+{line}", str(path)])


def run(workspace: Workspace, *, plain: bool, light: bool) -> int:
    """Run the application on a workspace to its end; the exit status of the process.

    A fault of the program is raised once the terminal is as it was before: who called it says the sentence
    and writes the log.
    """
    app = BenchcheckApp(
        lambda: FirstScreen(workspace, _now),
        plain=plain,
        why_plain="" if plain else why_ascii(started_with(), getattr(sys.__stderr__, "encoding", None)),
        in_colour="NO_COLOR" not in os.environ,
        light=light,
    )
    app.run()
    if app.fault is not None:
        raise app.fault
    return app.return_code or ExitStatus.GOOD
