"""The memory of last seals: which seal of which event was last seen in each record.

A record cannot show by itself that its end was cut away, or that all of it was written anew. This file can:
one line for each seal that was seen, only ever added to, and touched by no rebuild. Weighing a record against
it is for `session.verification`.
"""

from __future__ import annotations

import os
import re
from pathlib import Path

from benchcheck.session.verification import OutsideSeal
from benchcheck.store.disk import fault, sync_folder, write_all

_LINE = re.compile(r"([0-9a-f]{64}) ([1-9][0-9]*) (.+)\n")
SOURCE = "The remembered seal"


class SeenSeals:
    """`sessions/seen-seals.txt`: lines of seal, event number and the record's file name."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def of(self, name: str) -> list[OutsideSeal]:
        """What is remembered of one record.

        Raises StoreFault.
        """
        return self.all().get(_one_line(name), [])

    def all(self) -> dict[str, list[OutsideSeal]]:
        """What is remembered of each record, by file name, in the order it was seen.

        A line that was cut off is passed over.

        Raises StoreFault.
        """
        try:
            text = self.path.read_bytes().decode("utf-8", "replace")
        except FileNotFoundError:
            return {}
        except OSError as error:
            raise fault(f"{self.path} cannot be read", error) from error
        seals: dict[str, list[OutsideSeal]] = {}
        for line in text.splitlines(keepends=True):
            if match := _LINE.fullmatch(line):
                seals.setdefault(match[3], []).append(OutsideSeal(int(match[2]), match[1], SOURCE))
        return seals

    def remember(self, name: str, number: int, seal: str) -> None:
        """Note that this was the last seal of a record, unless it was the last one noted already.

        Raises StoreFault.
        """
        known = self.of(name)
        if known and (known[-1].number, known[-1].digits) == (number, seal):
            return
        line = f"{seal} {number} {_one_line(name)}\n".encode("utf-8", "replace")
        try:
            fresh = not self.path.exists()
            descriptor = os.open(self.path, os.O_RDWR | os.O_APPEND | os.O_CREAT | os.O_CLOEXEC, 0o644)
            try:
                size = os.fstat(descriptor).st_size
                if size and os.pread(descriptor, 1, size - 1) != b"\n":
                    # A line that was cut off must not swallow this one.
                    line = b"\n" + line
                write_all(descriptor, line)
                os.fsync(descriptor)
            finally:
                os.close(descriptor)
            if fresh:
                sync_folder(self.path.parent)
        except OSError as error:
            raise fault(f"The last seal of {name} was not remembered in {self.path.name}", error) from error


def _one_line(name: str) -> str:
    return "".join(character if character.isprintable() else "?" for character in name)
