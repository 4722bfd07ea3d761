"""The line by line program with a clock of its own, for tests that cannot wait a day for a cure.

    python -m tests.end_to_end.program_with_clock FOLDER BEGINS

The clock begins at BEGINS (RFC 3339), runs as usual, and is put forward whenever the program prints "not
before" or "not over before". Nothing else differs from `benchcheck --lines`: the program knows of no test.
"""

from __future__ import annotations

import io
import re
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

from benchcheck import lines

_TIME = re.compile(r"not (?:over )?before (\w+ \d+ \w+ \d+, \d\d:\d\d)")


class Clock:
    """Shows a time; can be put forward."""

    def __init__(self, begins: datetime) -> None:
        self._ahead = begins - datetime.now(UTC)

    def __call__(self) -> datetime:
        return datetime.now(UTC) + self._ahead

    def put_forward(self, time: datetime) -> None:
        self._ahead += max(timedelta(), time - self())


class Watched(io.StringIO):
    """Standard output, read along as a person would who goes away and comes back when it is time."""

    def __init__(self, clock: Clock) -> None:
        super().__init__()
        self._clock = clock
        self._heard = ""

    def write(self, text: str) -> int:
        self._heard += text
        return sys.stdout.write(text)

    def flush(self) -> None:
        """At the end of each question."""
        for found in _TIME.findall(" ".join(self._heard.split())):
            # The shop of the demonstration keeps UTC.
            self._clock.put_forward(datetime.strptime(found, "%A %d %B %Y, %H:%M").replace(tzinfo=UTC))
        self._heard = ""
        sys.stdout.flush()

    def fileno(self) -> int:
        return sys.stdout.fileno()

    def isatty(self) -> bool:
        return sys.stdout.isatty()


if __name__ == "__main__":
    clock = Clock(datetime.fromisoformat(sys.argv[2]))
    sys.exit(lines.run(Path(sys.argv[1]), sys.stdin, Watched(clock), clock))
