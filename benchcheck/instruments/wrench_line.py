"""A wrench that talks: its line is looked for, listened to, and looked for again when it is lost.

What is heard is a reading, or a sentence for a person. Who waits for the line, and how, is for the faces.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from benchcheck.instruments.serial_line import LineLost, SerialLine
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.registers import LineEntry

LOOKED_FOR_AGAIN = 2.0
"""How long after a line was lost it is looked for again [s]."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What a wrench sent."""

    wrench: str
    shown: Quantity


@dataclass(frozen=True, slots=True)
class Said:
    """What there is to say of a line."""

    words: str


Heard = Reading | Said


class WrenchLine:
    """The line of whichever wrench is in hand; at most one is open."""

    def __init__(
        self, entries: Mapping[str, LineEntry], monotonic: Callable[[], float] = time.monotonic
    ) -> None:
        self._entries = entries
        self._monotonic = monotonic
        self._wrench = ""
        self._line: SerialLine | None = None
        self._look_at = 0.0
        self._lost = False

    @property
    def line(self) -> SerialLine | None:
        """The line that is open now, to be waited for."""
        return self._line

    @property
    def talks(self) -> bool:
        """Whether the wrench in hand has a line, lost or not."""
        return bool(self._wrench)

    def attend(self, wrench: str) -> None:
        """This wrench is in hand now (empty: none); another one's line is closed."""
        wrench = wrench if wrench in self._entries else ""
        if wrench != self._wrench:
            self.close()
            self._wrench, self._look_at, self._lost = wrench, 0.0, False

    def listen(self) -> tuple[Heard, ...]:
        """What came since, without waiting; a line that is gone is said once, and once that it is back."""
        if not self._wrench:
            return ()
        entry, found = self._entries[self._wrench], list[Heard]()
        try:
            if self._line is None:
                if self._monotonic() < self._look_at:
                    return ()
                self._line = SerialLine(entry.device, entry.speed, self._monotonic)
                if self._lost:
                    found.append(Said(f"The line of {self._wrench} is there again."))
                self._lost = False
            found += (self._understood(entry, each) for each in self._line.lines())
        except LineLost as lost:
            self._drop()
            self._look_at = self._monotonic() + LOOKED_FOR_AGAIN
            if not self._lost:
                found.append(Said(f"The line of {self._wrench} is lost ({lost}). Type what it shows."))
            self._lost = True
        return tuple(found)

    def _understood(self, entry: LineEntry, line: str) -> Heard:
        shown = entry.format().read(line)
        if shown is None:
            return Said(f'{self._wrench} sent "{line[:40]}", which is no reading.')
        return Reading(self._wrench, shown)

    def _drop(self) -> None:
        if self._line is not None:
            self._line.close()
        self._line = None

    def close(self) -> None:
        self._drop()
        self._wrench = ""
