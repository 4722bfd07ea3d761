"""Bringing the tables of the index up to date with the folder of records.

What makes a record new or changed is its stamp: size, time of change, and what is remembered of its seals. It
is all the same whether the tables are made in one go or over years: each record's rows come from its own
bytes and the copies beside it, but for one remark, on readings like those of earlier records, which is worked
out anew for the records that follow a changed one.
"""

from __future__ import annotations

import hashlib
import json
import os
import sqlite3
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from benchcheck.session.verification import OutsideSeal
from benchcheck.store.cores import in_pieces
from benchcheck.store.disk import fault
from benchcheck.store.index_file import IN_VAIN, OF_A_RECORD, READ, TO_READ
from benchcheck.store.index_grounds import read_again_where_grounds_changed
from benchcheck.store.index_rows import (
    NOT_READ,
    NOT_UNDERSTOOD,
    Glance,
    Mention,
    Reading,
    Said,
    Stamp,
    Task,
    glance,
    gone,
    key,
)
from benchcheck.store.workspace import Workspace

GLANCES, FEW_GLANCES = 100, 200
READINGS, FEW_READINGS = 10, 10
COMPARED = 20
"""With how many records before it a record's readings are compared."""


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the work is."""

    what: str
    """"records", which are glanced at, or "events", which are read."""
    done: int
    of: int


@dataclass(frozen=True, slots=True)
class Refreshed:
    """What was done to bring the index up to date."""

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
        there = self._there()
        known = {
            file: Stamp(*stamp)
            for file, *stamp in self._tables.execute("SELECT file, size, changed_ns, remembered FROM records")
        }
        left = [file for file in known if file not in there]
        with self._tables:
            self._forget(left)
        changed = [task for file, task in there.items() if known.get(file) != task.stamp]
        taken_in = self._glance(changed)
        with self._tables:
            read_again_where_grounds_changed(self._tables, self._workspace)
        read = self._read(there) if events and not self._stop() else 0
        return Refreshed(taken_in, read, len(left), self._stop())

    def _there(self) -> dict[str, Task]:
        """Every record of the folder, or remembered by it, by its name."""
        folder = self._workspace.sessions
        seals = self._workspace.seen_seals.all()
        tasks: dict[str, Task] = {}
        try:
            with os.scandir(folder) as entries:
                for entry in entries:
                    name = entry.name
                    if name.endswith(".toml") and not name.startswith(".") and entry.is_file():
                        stat = entry.stat()
                        tasks[name] = _task(folder, name, stat.st_size, stat.st_mtime_ns, seals.get(name, ()))
        except FileNotFoundError:
            pass
        except OSError as error:
            raise fault(f"The folder {folder} cannot be listed", error) from error
        for name in seals.keys() - tasks.keys():
            tasks[name] = _task(folder, name, -1, 0, seals[name])
        return tasks

    # ------------------------------------------------------------------ at a glance

    def _glance(self, tasks: Sequence[Task]) -> int:
        """Take in records that are new or changed; all of them are listed after this."""
        done = 0
        missing = [task for task in tasks if task.stamp.size < 0]
        with self._tables:
            for task in missing:
                self._take_in(gone(task))
        tasks = [task for task in tasks if task.stamp.size >= 0]
        for found in in_pieces(glance_all, tasks, piece=GLANCES, few=FEW_GLANCES, stop=self._stop):
            with self._tables:
                for each in found:
                    self._take_in(each)
            done += len(found)
            self._progress(Progress("records", done, len(tasks)))
        return done + len(missing)

    def _take_in(self, found: Glance) -> None:
        self._forget([found.file])
        number = self._tables.execute(
            f"INSERT INTO records VALUES (NULL{', ?' * 20})",
            (
                found.file,
                *found.stamp,
                found.serial,
                found.procedure,
                found.revision,
                found.variant,
                found.practice,
                found.opened,
                found.last,
                _utc(found.last),
                found.events,
                found.last_seal,
                found.state,
                found.judged,
                found.words,
                0,
                0,
                READ if found.read else TO_READ,
            ),
        ).lastrowid
        assert number is not None
        self._say(number, found.mentions, found.remarks)

    def _say(self, number: int, mentions: Iterable[Mention], remarks: Sequence[Said]) -> None:
        self._tables.executemany(
            "INSERT OR IGNORE INTO mentions VALUES (?, ?, ?, ?, ?)",
            [(each.kind, key(each.kind, each.name), number, each.name, each.event) for each in mentions],
        )
        self._tables.executemany(
            "INSERT INTO remarks VALUES (?, ?, ?, ?, ?, ?)",
            [(number, place, *each) for place, each in enumerate(remarks)],
        )
        self._weigh(number)

    def _weigh(self, number: int) -> None:
        self._tables.execute(
            "UPDATE records SET (weight, remark_count) = "
            "(SELECT coalesce(max(weight), 0), count(*) FROM remarks WHERE record = records.id) WHERE id = ?",
            (number,),
        )

    def _forget(self, files: Iterable[str]) -> None:
        """Take the rows of records out; those whose readings were compared with theirs are compared anew."""
        for file in files:
            row = self._tables.execute("SELECT id FROM records WHERE file = ?", (file,)).fetchone()
            if row is not None:
                self._mark_those_after(row[0])
                self._forget_what_was_said(row[0])
                self._tables.execute("DELETE FROM records WHERE id = ?", row)

    def _forget_what_was_said(self, number: int) -> None:
        for table in OF_A_RECORD:
            self._tables.execute(f"DELETE FROM {table} WHERE record = ?", (number,))

    # ------------------------------------------------------------------ events

    def _read(self, there: dict[str, Task]) -> int:
        """Read the events of all records that are not read yet, the latest first."""
        waiting = self._tables.execute(
            "SELECT file FROM records WHERE reading = ? ORDER BY last_utc DESC, file", (TO_READ,)
        )
        tasks = [there[file] for (file,) in waiting.fetchall() if file in there]
        done = 0
        for found in in_pieces(read_all, tasks, piece=READINGS, few=FEW_READINGS, stop=self._stop):
            with self._tables:
                for each in found:
                    self._take_reading(each)
            done += len(found)
            self._progress(Progress("events", done, len(tasks)))
        if not self._stop():
            self._compare()
        return done

    def _take_reading(self, found: Reading) -> None:
        row = self._tables.execute(
            "SELECT id, procedure, opened FROM records "
            "WHERE file = ? AND size = ? AND changed_ns = ? AND remembered = ?",
            (found.file, *found.stamp),
        ).fetchone()
        if row is None:  # changed since it was handed out: the next go reads it
            return
        number, procedure, opened = row
        if not found.understood:
            self._tables.execute(
                "DELETE FROM remarks WHERE record = ? AND kind IN (?, ?)", (number, NOT_READ, NOT_UNDERSTOOD)
            )
            place = self._tables.execute(
                "SELECT coalesce(max(place), -1) + 1 FROM remarks WHERE record = ?", (number,)
            ).fetchone()[0]
            self._tables.executemany(
                "INSERT INTO remarks VALUES (?, ?, ?, ?, ?, ?)", [(number, place, *found.remarks[0])]
            )
            self._tables.execute("UPDATE records SET reading = ? WHERE id = ?", (IN_VAIN, number))
            self._weigh(number)
            return
        self._mark_those_after(number)
        self._forget_what_was_said(number)
        self._tables.execute(
            "UPDATE records SET state = ?, judged = ?, words = ?, reading = ? WHERE id = ?",
            (found.state, found.judged, found.words, READ, number),
        )
        self._tables.executemany(
            "INSERT INTO uses VALUES (?, ?, ?, ?)", [(number, *each) for each in found.uses]
        )
        self._tables.executemany(
            "INSERT INTO concessions VALUES (?, ?, ?, ?, ?)", [(number, *each) for each in found.concessions]
        )
        if found.shown:
            self._tables.execute(
                "INSERT INTO shown VALUES (?, ?, ?, ?)",
                (number, procedure, f"{_utc(opened):015.3f} {found.file}", json.dumps(found.shown)),
            )
        self._say(number, found.mentions, found.remarks)
        self._mark_those_after(number)

    # ------------------------------------------------------------------ readings of one pump and the next

    def _mark_those_after(self, number: int) -> None:
        """A record, and those after it whose readings are compared with its own, are to be compared anew."""
        self._tables.execute(
            "INSERT OR IGNORE INTO to_compare SELECT after.record FROM shown AS one "
            "JOIN shown AS after ON after.procedure = one.procedure AND after.place >= one.place "
            "WHERE one.record = ? ORDER BY after.place LIMIT ?",
            (number, COMPARED + 1),
        )

    def _compare(self) -> None:
        """The one remark that rests on other records."""
        from benchcheck.store.index_comparing import likeness

        marked = self._tables.execute("SELECT record FROM to_compare ORDER BY record").fetchall()
        with self._tables:
            for (number,) in marked:
                row = self._tables.execute(
                    "SELECT procedure, place, readings FROM shown WHERE record = ?", (number,)
                ).fetchone()
                if row is None:
                    continue
                procedure, place, readings = row
                before = self._tables.execute(
                    "SELECT serial, opened, readings FROM shown JOIN records ON records.id = record "
                    "WHERE shown.procedure = ? AND place < ? ORDER BY place DESC LIMIT ?",
                    (procedure, place, COMPARED),
                ).fetchall()
                self._tables.execute("DELETE FROM remarks WHERE record = ? AND place < 0", (number,))
                self._tables.executemany(
                    "INSERT INTO remarks VALUES (?, ?, ?, ?, ?, ?)",
                    [(number, -1, *each) for each in likeness(readings, before)],
                )
                self._weigh(number)
            self._tables.execute("DELETE FROM to_compare")


def glance_all(tasks: Sequence[Task]) -> list[Glance]:
    """For a process of its own."""
    return [glance(task) for task in tasks]


def read_all(tasks: Sequence[Task]) -> list[Reading]:
    """For a process of its own; it imports what reading events takes."""
    from benchcheck.store.index_reading import read_events

    return [read_events(task) for task in tasks]


def _task(folder: Path, name: str, size: int, changed_ns: int, seals: Iterable[OutsideSeal]) -> Task:
    remembered = tuple((each.number, each.digits) for each in seals)
    told = hashlib.sha256(repr(remembered).encode()).hexdigest() if remembered else ""
    return Task(str(folder / name), Stamp(size, changed_ns, told), remembered)


def _utc(time: str) -> float:
    """A time of a record for ordering [s]; 0 where it is none."""
    try:
        return datetime.fromisoformat(time).timestamp()
    except (ValueError, OverflowError):
        return 0.0
