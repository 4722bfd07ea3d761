"""A wrench on a pseudo-terminal: what it sends is read at the other end as from a serial line."""

from __future__ import annotations

import os
import pty
import time

from benchcheck.instruments.serial_line import SETTLED, SerialLine
from benchcheck.procedure.registers import LineEntry


class Wire:
    """A pseudo-terminal: the wrench writes at one end, the bench reads at the other."""

    def __init__(self) -> None:
        self.wrench, self._held = pty.openpty()
        self.device = os.ttyname(self._held)
        self.time = 100.0

    def monotonic(self) -> float:
        return self.time

    def send(self, text: bytes) -> None:
        os.write(self.wrench, text)
        time.sleep(0.005)  # the kernel carries it over

    def unplug(self) -> None:
        for end in (self.wrench, self._held):
            os.close(end)
        self.wrench = self._held = -1

    def line(self) -> SerialLine:
        line = SerialLine(self.device, 9600, self.monotonic)
        self.time += SETTLED
        return line

    def entry(self, **more: object) -> LineEntry:
        return LineEntry.model_validate(
            {"device": self.device, "pattern": "{value} {unit}", "units": {"Nm": "N·m"}, **more}
        )
