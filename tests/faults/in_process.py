"""The line by line program run inside the test: lines in, text out. Where no real process is needed."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable
from datetime import datetime, timedelta
from pathlib import Path

from benchcheck import lines
from benchcheck.session.rehearsal import BEGINS

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

    def __init__(self, typed: Iterable[str], printed: io.StringIO) -> None:
        super().__init__(io.BytesIO("".join(f"{line}\n" for line in typed).encode()), "utf-8")
        self._printed = printed

    def readline(self, size: int = -1, /) -> str:  # type: ignore[override]
        line = super().readline(size)
        self._printed.write(line)
        return line


def talked(folder: Path, typed: Iterable[str], clock: Clock | None = None) -> tuple[int, str]:
    """Exit status and the whole conversation, each run of blanks and line ends one blank."""
    printed = io.StringIO()
    status = lines.run(folder, Typed(typed, printed), printed, clock or ticking())
    return status, " ".join(printed.getvalue().split())
