"""With which number the program ends, for whoever called it. The README has the same table for people."""

from __future__ import annotations

from enum import IntEnum


class ExitStatus(IntEnum):
    """What a command or the application hands back; 128 and more is the number of a signal beyond 128."""

    GOOD = 0
    """Done; advice and silenced findings are good too."""
    FINDINGS = 1
    """Errors or warnings were found, or a rehearsal did not come out as expected."""
    UNUSABLE = 2
    """Wrong usage, a file that cannot be read, no terminal."""
    DAMAGED = 3
    """A record contradicts its seals, or what is known of them."""
    UNEXPECTED = 70
    """A fault of the program itself; a log says which."""


def of_signal(number: int) -> int:
    """The status of a program that a signal ended, as shells count it."""
    return 128 + number
