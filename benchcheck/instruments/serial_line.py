"""A serial line as text: bytes come as they come, whole lines go out, and a line that is gone says so.

Eight bits, no parity, one stop bit, and nobody waits: whoever holds it looks when there is something to read.
What a line means is not known here.
"""

from __future__ import annotations

import errno
import os
import termios
import time
import tty
from collections.abc import Callable
from contextlib import suppress

from benchcheck.procedure.characters import clean

LONGEST = 200
"""So many bytes without the end of a line are no line [bytes]."""
SETTLED = 0.25
"""What comes this soon after opening may be the end of a line that was begun before [s]."""
_AT_ONCE = 4096


class LineLost(Exception):
    """The device cannot be opened, or is there no more; in words for a person."""


class SerialLine:
    """One device, open for reading. Raises LineLost where it cannot be opened."""

    def __init__(self, device: str, speed: int, monotonic: Callable[[], float] = time.monotonic) -> None:
        self.device = device
        self._monotonic = monotonic
        self._begun = b""
        try:
            self._descriptor = os.open(device, os.O_RDONLY | os.O_NOCTTY | os.O_NONBLOCK)
        except OSError as error:
            raise LineLost(f"{device}: {os.strerror(error.errno or errno.EIO)}") from error
        try:
            self._set_up(speed)
        except (OSError, termios.error) as error:
            os.close(self._descriptor)
            raise LineLost(f"{device} is no serial line") from error
        self._settled_at = monotonic() + SETTLED

    def _set_up(self, speed: int) -> None:
        """Bytes as they are sent, at this speed; what lay there before is of another time."""
        tty.setraw(self._descriptor)
        settings = termios.tcgetattr(self._descriptor)
        settings[4] = settings[5] = getattr(termios, f"B{speed}")
        termios.tcsetattr(self._descriptor, termios.TCSANOW, settings)
        termios.tcflush(self._descriptor, termios.TCIFLUSH)

    def fileno(self) -> int:
        return self._descriptor

    def lines(self) -> tuple[str, ...]:
        """The lines that are whole by now, without waiting for more. Raises LineLost."""
        arrived = self._read()
        whole = self._begun + arrived
        if arrived and self._monotonic() < self._settled_at:
            _, end, whole = whole.replace(b"\r", b"\n").partition(b"\n")
            if not end:
                self._begun = b""
                return ()
        *ended, begun = whole.replace(b"\r", b"\n").split(b"\n")
        self._begun = begun if len(begun) <= LONGEST else b""
        if len(begun) > LONGEST:
            ended.append(begun)
        return tuple(clean(each[:LONGEST].decode("utf-8", "replace")) for each in ended if each.strip())

    def _read(self) -> bytes:
        try:
            arrived = os.read(self._descriptor, _AT_ONCE)
        except BlockingIOError:
            return b""
        except OSError as error:
            raise LineLost(f"{self.device}: {os.strerror(error.errno or errno.EIO)}") from error
        if not arrived:
            raise LineLost(f"{self.device}: nothing is at the other end")
        return arrived

    def close(self) -> None:
        with suppress(OSError):
            os.close(self._descriptor)
