"""Bringing the tables of the index up to date with the folder of records.

What makes a record new or changed is its stamp: size, time of change, and what is remembered of its seals. It
is all the same whether the tables are made in one go or over years: each record's rows come from its own
bytes and the copies beside it, but for one remark, on readings like those of earlier records, which is worked
out anew for the records that follow a changed one.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import sqlite3
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from benchcheck.session.verification import OutsideSeal
from benchcheck.store.cores import in_pieces
from benchcheck.store.disk import fault
from benchcheck.store.index_file import TO_READ
from benchcheck.store.index_grounds import differs, keep, read_again_where_grounds_changed
from benchcheck.store.index_rows import Reading, Stamp, Task, glance_all, gone
from benchcheck.store.index_writing import compare, forget, take_in, take_reading
from benchcheck.store.workspace import Workspace

GLANCES, FEW_GLANCES = 100, 1000
READINGS, FEW_READINGS = 10, 10
"""How many are a piece of work, and up to how many are done without processes of their own."""
_GONE = (-1, 0)
_SEALS = "seen seals"


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the work is."""

    what: str
    """"records", which are glanced at, "events", which are read; of a search, the records looked into."""
    done: int
    of: int


@dataclass(frozen=True, slots=True)
class Refreshed:
    """What was done to bring the index up to date, in records."""

    taken_in: int
    read: int
    gone: int
    stopped: bool


def nothing_to_say(progress: Progress) -> None:
    """For those who do not watch."""


def never() -> bool:
    """For those who do not stop."""
    return False


class Taking:
    """One go at bringing the tables up to date."""

    def __init__(
        self,
        tables: sqlite3.Connection,
        workspace: Workspace,
        progress: Callable[[Progress], None] = nothing_to_say,
        stop: Callable[[], bool] = never,
    ) -> None:
        self._tables = tables
        self._workspace = workspace
        self._progress = progress
        self._stop = stop

    def run(self, *, events: bool = True) -> Refreshed:
        """Take in what is new or changed, then (unless told not to) read what is not read yet.

        Raises StoreFault where the folder cannot be listed, and sqlite3.Error.
        """
        folder = self._listed()
        seals_changed = differs(self._tables, _SEALS, self._seals_stamp)
        changed, left = self._changed(folder, seals_changed)
        with self._tables:
            forget(self._tables, left)
        taken_in = self._glance(changed)
        with self._tables:
            if seals_changed and not self._stop():
                keep(self._tables, _SEALS, self._seals_stamp)
            read_again_where_grounds_changed(self._tables, self._workspace)
        read = self._read(folder) if events and not self._stop() else 0
        return Refreshed(taken_in, read, len(left), self._stop())

    # ------------------------------------------------------------------ what there is

    def _listed(self) -> dict[str, tuple[int, int]]:
        """Size and time of change of every record, by its name."""
        folder = self._workspace.sessions
        found: dict[str, tuple[int, int]] = {}
        try:
            with os.scandir(folder) as entries:
                for entry in entries:
                    name = entry.name
                    if name.endswith(".toml") and name[0] != "." and entry.is_file():
                        with contextlib.suppress(FileNotFoundError):  # gone since the folder was read
                            stat = entry.stat()
                            found[name] = (stat.st_size, stat.st_mtime_ns)
        except FileNotFoundError:
            pass
        except OSError as error:
            raise fault(f"The folder {folder} cannot be listed", error) from error
        return found

    @cached_property
    def _seals_stamp(self) -> str:
        try:
            stat = os.stat(self._workspace.seen_seals.path)
        except OSError:
            return ""
        return f"{stat.st_size} {stat.st_mtime_ns}"

    @cached_property
    def _seals(self) -> Mapping[str, Sequence[OutsideSeal]]:
        return self._workspace.seen_seals.all()

    def _changed(
        self, folder: Mapping[str, tuple[int, int]], seals_changed: bool
    ) -> tuple[list[Task], list[str]]:
        """The records to be glanced at, and the names of those that are gone for good.

        The memory of seals is read only if it changed, or if a record did.
        """
        rows = self._tables.execute("SELECT file, size, changed_ns FROM records WHERE size >= 0").fetchall()
        known = {name: (size, changed_ns) for name, size, changed_ns in rows}
        if known == folder and not seals_changed:
            return [], []
        suspects = [name for name, stamp in folder.items() if known.get(name) != stamp]
        away = known.keys() - folder.keys()
        stamps = {
            file: Stamp(*stamp)
            for file, *stamp in self._tables.execute("SELECT file, size, changed_ns, remembered FROM records")
        }
        remembered = self._seals.keys()
        names = (
            folder.keys() | remembered if seals_changed else {*suspects, *away} & (folder.keys() | remembered)
        )
        tasks = [self._task(name, folder.get(name, _GONE)) for name in sorted(names)]
        changed = [task for task in tasks if stamps.get(task.file) != task.stamp]
        return changed, [name for name in stamps if name not in folder and name not in remembered]

    def _task(self, name: str, stamp: tuple[int, int]) -> Task:
        remembered = tuple((each.number, each.digits) for each in self._seals.get(name, ()))
        told = hashlib.sha256(repr(remembered).encode()).hexdigest() if remembered else ""
        return Task(f"{self._workspace.sessions}/{name}", Stamp(*stamp, told), remembered)

    # ------------------------------------------------------------------ taking it in

    def _glance(self, tasks: Iterable[Task]) -> int:
        """Take in records that are new or changed; all of them are listed after this."""
        there: list[Task] = []
        missing: list[Task] = []
        for task in tasks:
            (missing if task.stamp[:2] == _GONE else there).append(task)
        with self._tables:
            take_in(self._tables, list(map(gone, missing)))
        done = 0
        pieces = in_pieces(
            glance_all, there, piece=GLANCES, few=FEW_GLANCES, stop=self._stop, with_this_process=True
        )
        for found in pieces:
            with self._tables:
                take_in(self._tables, found)
            done += len(found)
            self._progress(Progress("records", done, len(there)))
        return done + len(missing)

    def _read(self, folder: Mapping[str, tuple[int, int]]) -> int:
        """Read the events of all records that are not read yet, the latest first."""
        waiting = self._tables.execute(
            "SELECT file FROM records WHERE reading = ? ORDER BY last_utc DESC, file", (TO_READ,)
        ).fetchall()
        tasks = [self._task(file, folder[file]) for (file,) in waiting if file in folder]
        done = 0
        for found in in_pieces(read_all, tasks, piece=READINGS, few=FEW_READINGS, stop=self._stop):
            with self._tables:
                for each in found:
                    take_reading(self._tables, each)
            done += len(found)
            self._progress(Progress("events", done, len(tasks)))
        if not self._stop():
            with self._tables:
                compare(self._tables)
        return done


def read_all(tasks: Sequence[Task]) -> list[Reading]:
    """For a process of its own; it imports what reading events takes."""
    from benchcheck.store.index_reading import read_events

    return [read_events(task) for task in tasks]
