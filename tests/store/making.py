"""Records made and opened on disk, for the tests of this folder."""

from __future__ import annotations

from pathlib import Path

from benchcheck.store.lock import Holder
from benchcheck.store.records import RecordFile, create, open_record
from benchcheck.store.seen_seals import SeenSeals
from tests.session.samples import HEADER, event

HOLDER = Holder.here("Ana Fitter", "2026-03-02T10:00:00+02:00")


def seen_beside(path: Path) -> SeenSeals:
    """The memory of seals in the record's folder."""
    return SeenSeals(path.with_name("seen-seals.txt"))


def made(path: Path, count: int = 1) -> RecordFile:
    """A new record with so many events, open for writing."""
    record = create(path, HEADER, event(1), HOLDER, seen_beside(path))
    for number in range(2, count + 1):
        record.append(event(number))
    return record


def opened(path: Path) -> RecordFile:
    """The record, open for writing."""
    return open_record(path, HOLDER, seen_beside(path))


def files_beside(path: Path) -> set[str]:
    """The names of all files in the record's folder."""
    return {entry.name for entry in path.parent.iterdir()}
