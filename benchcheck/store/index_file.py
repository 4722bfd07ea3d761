"""`sessions/index.sqlite`: the tables of the index, and how they are made, or thrown away.

It is only a view of the records and can be deleted at any time. A file that is broken, or of another
version of the program, is thrown away; where none can be written the tables are kept in memory.

Tables:
- `records`: a row for each record, also for one that is damaged, unreadable, or gone but remembered.
- `mentions`: which record names what, found by `(kind, key)`: kinds are serial, procedure (its id, and
  id-revision), person, instrument, lot; `key` is the spelling made by `index_rows.key`; voided uses too.
- `remarks`: what stands out in a record on every day. `uses`, `concessions`, `due`: from which is worked out
  what depends on the day. `shown`: what indicating wrenches showed in a record, for comparing it with those
  before it, in the order of `place`; `to_compare`: the records for which that is still to be done.
"""

from __future__ import annotations

import contextlib
import sqlite3
from pathlib import Path

from benchcheck import __version__

VERSION = f"4 {__version__}"
"""Of the tables, and of the program whose remarks are in them."""
NAME = "index.sqlite"
WAIT_SECONDS = 10.0
"""For another program that writes to it."""

_TABLES = """
CREATE TABLE IF NOT EXISTS meta (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS records (
    id INTEGER PRIMARY KEY,
    file TEXT NOT NULL UNIQUE,
    size INTEGER NOT NULL,
    changed_ns INTEGER NOT NULL,
    remembered TEXT NOT NULL,
    serial TEXT NOT NULL,
    procedure TEXT NOT NULL,
    revision TEXT NOT NULL,
    variant TEXT NOT NULL,
    practice INTEGER NOT NULL,
    opened TEXT NOT NULL,
    last TEXT NOT NULL,
    last_utc REAL NOT NULL,
    events INTEGER NOT NULL,
    last_seal TEXT NOT NULL,
    state TEXT NOT NULL,
    judged INTEGER NOT NULL,
    words TEXT NOT NULL,
    weight INTEGER NOT NULL,
    remark_count INTEGER NOT NULL,
    reading INTEGER NOT NULL
);
CREATE INDEX IF NOT EXISTS records_by_time ON records (last_utc DESC, file);
CREATE INDEX IF NOT EXISTS records_by_stamp ON records (file, size, changed_ns);
CREATE INDEX IF NOT EXISTS records_to_read ON records (reading);
CREATE TABLE IF NOT EXISTS mentions (
    kind TEXT NOT NULL, key TEXT NOT NULL, record INTEGER NOT NULL, name TEXT NOT NULL,
    event INTEGER NOT NULL,
    PRIMARY KEY (kind, key, record)
) WITHOUT ROWID;
CREATE INDEX IF NOT EXISTS mentions_by_record ON mentions (record);
CREATE TABLE IF NOT EXISTS remarks (
    record INTEGER NOT NULL, place INTEGER NOT NULL, kind TEXT NOT NULL, weight INTEGER NOT NULL,
    sentence TEXT NOT NULL, event INTEGER,
    PRIMARY KEY (record, place)
) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS uses (
    record INTEGER NOT NULL, instrument TEXT NOT NULL, day TEXT NOT NULL, event INTEGER NOT NULL
);
CREATE INDEX IF NOT EXISTS uses_by_instrument ON uses (instrument, day);
CREATE INDEX IF NOT EXISTS uses_by_record ON uses (record);
CREATE TABLE IF NOT EXISTS concessions (
    record INTEGER NOT NULL, expires TEXT NOT NULL, limited TEXT NOT NULL, name TEXT NOT NULL,
    event INTEGER NOT NULL
);
CREATE INDEX IF NOT EXISTS concessions_by_day ON concessions (expires);
CREATE INDEX IF NOT EXISTS concessions_by_record ON concessions (record);
CREATE TABLE IF NOT EXISTS shown (
    record INTEGER NOT NULL, procedure TEXT NOT NULL, place TEXT NOT NULL, readings TEXT NOT NULL
);
CREATE INDEX IF NOT EXISTS shown_by_place ON shown (procedure, place);
CREATE INDEX IF NOT EXISTS shown_by_record ON shown (record);
CREATE TABLE IF NOT EXISTS to_compare (record INTEGER PRIMARY KEY);
CREATE TABLE IF NOT EXISTS due (instrument TEXT PRIMARY KEY, last TEXT NOT NULL) WITHOUT ROWID;
"""
TO_READ, READ, IN_VAIN = 0, 1, 2
"""How far a record's events are read; in vain: they could not be added up."""
OF_A_RECORD = ("mentions", "remarks", "uses", "concessions", "shown", "to_compare")
"""The tables whose rows belong to a record."""


def opened(path: Path) -> sqlite3.Connection:
    """The tables on disk, ready; a file that is not theirs any more is thrown away.

    Raises sqlite3.Error and OSError where there can be no such file.
    """
    try:
        return _ready(path)
    except sqlite3.DatabaseError as error:
        if is_busy(error):
            raise
        thrown_away(path)
        return _ready(path)


def is_busy(error: sqlite3.Error) -> bool:
    """Whether another program writes to the file just now: then nothing is wrong with it."""
    return getattr(error, "sqlite_errorcode", 0) & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def in_memory() -> sqlite3.Connection:
    """Empty tables that nobody else sees."""
    connection = sqlite3.connect(":memory:")
    connection.executescript(_TABLES)
    return connection


def thrown_away(path: Path) -> None:
    """The file is gone, and what stands beside it while it is written. Raises OSError."""
    for name in (path, path.with_name(f"{path.name}-journal")):
        name.unlink(missing_ok=True)


def _ready(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path, timeout=WAIT_SECONDS)
    try:
        # It can be made again from the records, so it need not outlive a power cut.
        connection.execute("PRAGMA synchronous = OFF")
        if _version(connection) != VERSION:
            if connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]:
                raise sqlite3.DatabaseError("tables of another version")
            with connection:
                connection.executescript(f"BEGIN IMMEDIATE; {_TABLES}")
                connection.execute("INSERT OR REPLACE INTO meta VALUES ('version', ?)", (VERSION,))
        return connection
    except BaseException:
        with contextlib.suppress(sqlite3.Error):
            connection.close()
        raise


def _version(connection: sqlite3.Connection) -> str | None:
    tables = connection.execute("SELECT name FROM sqlite_master WHERE name = 'meta'").fetchone()
    row = tables and connection.execute("SELECT value FROM meta WHERE name = 'version'").fetchone()
    return str(row[0]) if row else None
