"""What the readings of records rest on beside the records: kept procedures, and what wrenches can do.

Where one of them changed, the records that rest on it are marked to be read again. Until when calibrations
are good is not among them: it is taken in here, and weighed when the index is asked.
"""

from __future__ import annotations

import hashlib
import os
import sqlite3
from pathlib import Path

from benchcheck.store.index_file import IN_VAIN, READ, TO_READ
from benchcheck.store.workspace import Workspace


def read_again_where_grounds_changed(tables: sqlite3.Connection, workspace: Workspace) -> None:
    """Mark records to be read again. Raises sqlite3.Error."""
    if _changed(tables, "kept procedures", _listing(workspace.pinned_procedures)):
        tables.execute("UPDATE records SET reading = ? WHERE reading = ?", (TO_READ, IN_VAIN))
    if _changed(tables, "procedures", _listing(workspace.procedures)) and _changed(
        tables, "wrenches", _wrenches(tables, workspace)
    ):
        tables.execute("UPDATE records SET reading = ? WHERE reading = ? AND events > 0", (TO_READ, READ))


def _wrenches(tables: sqlite3.Connection, workspace: Workspace) -> str:
    """What remarks take from the register, in short; the days of calibrations are taken in by the way."""
    from benchcheck.store.library import Unreadable, load_registers

    try:
        registers = load_registers(workspace)
        wrenches, due = registers.wrenches, registers.due
    except Unreadable:
        wrenches, due = (), {}
    tables.execute("DELETE FROM due")
    tables.executemany(
        "INSERT OR REPLACE INTO due VALUES (?, ?)",
        [(instrument, last.isoformat()) for instrument, last in due.items()],
    )
    return _short(sorted((each.id, str(each.graduation), str(each.accuracy)) for each in wrenches))


def differs(tables: sqlite3.Connection, name: str, value: str) -> bool:
    """Whether what was kept under this name is another value, or none."""
    row = tables.execute("SELECT value FROM meta WHERE name = ?", (name,)).fetchone()
    return row is None or row[0] != value


def keep(tables: sqlite3.Connection, name: str, value: str) -> None:
    """Keep a value, to see the next time whether it changed."""
    tables.execute("INSERT OR REPLACE INTO meta VALUES (?, ?)", (name, value))


def _changed(tables: sqlite3.Connection, name: str, value: str) -> bool:
    if not differs(tables, name, value):
        return False
    keep(tables, name, value)
    return True


def _listing(folder: Path) -> str:
    """A short form of what lies in a folder, which is another when a file of it is."""
    try:
        with os.scandir(folder) as entries:
            found = [(entry.name, entry.stat()) for entry in entries]
    except OSError:
        return ""
    return _short(sorted((name, stat.st_size, stat.st_mtime_ns) for name, stat in found))


def _short(value: object) -> str:
    return hashlib.sha256(repr(value).encode()).hexdigest()
