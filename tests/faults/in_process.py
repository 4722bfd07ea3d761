"""The line by line program run inside the test: lines in, text out. Where no real process is needed."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, cast

from benchcheck import lines
from benchcheck.session.rehearsal import BEGINS
from benchcheck.session.state import State
from tests.end_to_end.bench import Onlooker

Clock = Callable[[], datetime]


def ticking(begins: datetime = BEGINS) -> Clock:
    """A clock that goes on by a second each time it is looked at."""
    now = begins

    def clock() -> datetime:
        nonlocal now
        now += timedelta(seconds=1)
        return now

    return clock


class Typed(io.TextIOWrapper):
    """What a person types, with the typing shown in what was printed, as a terminal does."""

    def __init__(self, typed: Iterable[str | bytes], printed: io.StringIO) -> None:
        lines = [line if isinstance(line, bytes) else line.encode() for line in typed]
        super().__init__(io.BytesIO(b"".join(line + b"\n" for line in lines)), "utf-8")
        self._printed = printed

    def readline(self, size: int = -1, /) -> str:  # type: ignore[override]
        line = super().readline(size)
        self._printed.write(line)
        return line


class Careful:
    """Types what a test wants first, and then careful answers until the work is over."""

    def __init__(self, folder: Path, first: Iterable[str], printed: io.StringIO) -> None:
        self._folder = folder
        self._first = list(first)
        self._printed = printed
        self.onlooker: Onlooker | None = None

    def readline(self) -> str:
        line = self._line()
        self._printed.write(line)
        return line

    def _line(self) -> str:
        if self._first:
            return f"{self._first.pop(0)}\n"
        self.onlooker = self.onlooker or Onlooker(self._folder)
        return f"{self.onlooker.careful()}\n" if self.onlooker.prompt() is not None else ""


def rebuilt(folder: Path, first: Iterable[str]) -> tuple[State, str]:
    """A whole rebuild with care, by a clock that jumps over waits; the end and all that was printed."""
    printed = io.StringIO()
    technician = Careful(folder, first, printed)
    now = BEGINS

    def clock() -> datetime:
        nonlocal now
        now += timedelta(seconds=1)
        prompt = technician.onlooker.prompt() if technician.onlooker is not None else None
        if prompt is not None and prompt.until is not None:
            now = max(now, prompt.until)
        return now

    assert lines.run(folder, cast(Any, technician), printed, clock) == 0
    assert technician.onlooker is not None
    return technician.onlooker.catch_up(), " ".join(printed.getvalue().split())


def talked(folder: Path, typed: Iterable[str | bytes], clock: Clock | None = None) -> tuple[int, str]:
    """Exit status and the whole conversation, each run of blanks and line ends one blank."""
    printed = io.StringIO()
    status = lines.run(folder, Typed(typed, printed), printed, clock or ticking())
    return status, " ".join(printed.getvalue().split())
