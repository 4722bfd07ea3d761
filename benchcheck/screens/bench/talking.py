"""The line of the wrench in hand, waited for beside the keys: the screen stays alive, and nobody polls it.

What is heard is handed on through the screen's own queue, between two of its messages.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping

from benchcheck.instruments.serial_line import SerialLine
from benchcheck.instruments.wrench_line import Heard, WrenchLine
from benchcheck.procedure.registers import LineEntry


class Talking:
    """Listens to whichever wrench is in hand; `heard` gets what it says, one at a time."""

    def __init__(self, entries: Mapping[str, LineEntry], heard: Callable[[Heard], None]) -> None:
        self._wire = WrenchLine(entries)
        self._heard = heard
        self._waited_for: SerialLine | None = None

    def attend(self, wrench: str) -> None:
        """This wrench is in hand now; empty: none."""
        self._wait_for(None)
        self._wire.attend(wrench)
        self.look()

    def look(self) -> None:
        """Hear what came; a line that was lost is looked for again."""
        before = self._wire.line
        found = self._wire.listen()
        if self._wire.line is not before:
            self._wait_for(None)
        self._wait_for(self._wire.line)
        for each in found:
            self._heard(each)

    def close(self) -> None:
        self._wait_for(None)
        self._wire.close()

    def _wait_for(self, line: SerialLine | None) -> None:
        """Have the event loop call when there is something to read; a line is let go before it is closed."""
        if line is self._waited_for:
            return
        loop = asyncio.get_running_loop()
        if self._waited_for is not None:
            loop.remove_reader(self._waited_for.fileno())
        if line is not None:
            loop.add_reader(line.fileno(), self.look)
        self._waited_for = line
