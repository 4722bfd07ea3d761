"""The line by line program brought to any question of a careful rebuild, at the cost of reading a record.

A record cut off behind a whole event is a record. So one careful rebuild is made, and for each moment as much
of it is laid into a workspace as had happened by then; the program takes that up, and the moment comes.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, cast

from benchcheck import lines
from tests.end_to_end.bench import Onlooker
from tests.faults.prepared import Moment, shop, sitting_at


@dataclass(frozen=True)
class Rebuild:
    """A careful rebuild, released."""

    name: str
    record: bytes
    pinned: bytes
    lengths: dict[tuple[str, str], int]
    """Of the record [bytes] when a question of an act was first asked."""


@cache
def rebuild(variant: str) -> Rebuild:
    """Each variant is rebuilt once."""
    lengths: dict[tuple[str, str], int] = {}
    with TemporaryDirectory() as folder:

        def note(state: Any, prompt: Any) -> bool:
            (path,) = Path(folder, "sessions").glob("*.toml")
            lengths.setdefault((prompt.act, prompt.question), path.stat().st_size)
            return bool(prompt.act == "release/sign")

        sitting = sitting_at(Path(folder), cast(Moment, note), variant=variant)
        (pinned,) = Path(folder, "sessions", "procedures").glob("*.toml")
        return Rebuild(sitting.path.name, sitting.path.read_bytes(), pinned.read_bytes(), lengths)


def lay_down(folder: Path, act: str, question: str, variant: str = "-05") -> Path:
    """A workspace in which the rebuild has come to a question of an act; the record."""
    workspace = shop(folder)
    done = rebuild(variant)
    workspace.pin(done.pinned)
    path = workspace.sessions / done.name
    path.write_bytes(done.record[: done.lengths[act, question]])
    return path


class Technician:
    """Types: careful answers until the moment, then what the test wants typed, then nothing more."""

    def __init__(self, record: Path, act: str, question: str, typed: Iterable[str]) -> None:
        self.onlooker = Onlooker(record.parents[1], record)
        self.printed = io.StringIO()
        self.before = ""
        """What was printed up to the moment."""
        self.events_before = 0
        """How many events the record held at the moment."""
        self._moment = (act, question)
        self._typed = list(typed)
        self._begun = False
        self.there = False

    def readline(self) -> str:
        line = self._line()
        self.printed.write(line)
        return line

    def _line(self) -> str:
        if not self._begun:
            self._begun = True
            return "1\n"
        prompt = self.onlooker.prompt()
        if prompt is not None and (prompt.act, prompt.question) == self._moment and not self.there:
            self.there = True
            self.before = self.printed.getvalue()
            self.events_before = len(self.onlooker.events)
        if not self.there:
            return f"{self.onlooker.careful()}\n"
        return f"{self._typed.pop(0)}\n" if self._typed else ""


@dataclass(frozen=True)
class Conversation:
    """What was printed from the moment on, blanks and line ends made one blank; and what was recorded."""

    said: str
    events: list[dict[str, Any]]
    """What the record got from the moment on, but for the last: that the input ended."""


def at_the_moment(
    folder: Path,
    act: str,
    question: str,
    typed: Iterable[str],
    *,
    variant: str = "-05",
    later: timedelta | None = None,
    pause: timedelta | None = None,
) -> Conversation:
    """Take the record up, come to the question, and type what is to be typed there.

    `later` is how long the record lay, `pause` how long the question stood before anything was typed.
    """
    record = lay_down(folder, act, question, variant)
    technician = Technician(record, act, question, typed)
    technician.onlooker.catch_up()
    now = technician.onlooker.now + (later or timedelta())

    def clock() -> datetime:
        nonlocal now
        now += timedelta(seconds=1)
        return now + (pause or timedelta()) if technician.there else now

    status = lines.run(folder, cast(Any, technician), technician.printed, clock)
    assert status == 0
    said = technician.printed.getvalue().removeprefix(technician.before)
    technician.onlooker.catch_up()
    events = technician.onlooker.events[technician.events_before :]
    if events[-1:] and events[-1]["kind"] == "stopped":
        del events[-1]
    return Conversation(" ".join(said.split()), events)
