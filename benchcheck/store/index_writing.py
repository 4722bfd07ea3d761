"""Rows of the index: what records give goes in, what is gone or out of date comes out.

Each function belongs into a transaction of its caller, and raises sqlite3.Error.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime

from benchcheck.store.index_file import IN_VAIN, OF_A_RECORD, READ, TO_READ
from benchcheck.store.index_rows import NOT_READ, NOT_UNDERSTOOD, Glance, Mention, Reading, Said

COMPARED = 20
"""With how many records before it a record's readings are compared."""
_COMPARISON = -1
"""The place of what is said of that, apart from what the record says by itself."""


def take_in(tables: sqlite3.Connection, glances: Sequence[Glance]) -> None:
    """What a glance gives takes the place of all that was known of these records."""
    forget(tables, (each.file for each in glances))
    first = tables.execute("SELECT coalesce(max(id), 0) + 1 FROM records").fetchone()[0]
    numbered = list(enumerate(glances, first))
    tables.executemany(
        f"INSERT INTO records VALUES (?{', ?' * 20})", [_row(number, each) for number, each in numbered]
    )
    _say(tables, ((number, each.mentions, each.remarks) for number, each in numbered))


def take_reading(tables: sqlite3.Connection, reading: Reading) -> None:
    """What its events say takes the place of what the glance had to go by.

    Nothing is done for a record that changed since it was handed out: the next go reads it.
    """
    row = tables.execute(
        "SELECT id, procedure, opened FROM records "
        "WHERE file = ? AND size = ? AND changed_ns = ? AND remembered = ?",
        (reading.file, *reading.stamp),
    ).fetchone()
    if row is None:
        return
    number, procedure, opened = row
    if not reading.understood:
        _note_in_vain(tables, number, reading.remarks[0])
        return
    _mark_those_after(tables, number)
    _forget_what_was_said(tables, number)
    tables.execute(
        "UPDATE records SET state = ?, judged = ?, words = ?, reading = ? WHERE id = ?",
        (reading.state, reading.judged, reading.words, READ, number),
    )
    tables.executemany("INSERT INTO uses VALUES (?, ?, ?, ?)", [(number, *each) for each in reading.uses])
    tables.executemany(
        "INSERT INTO concessions VALUES (?, ?, ?, ?, ?)", [(number, *each) for each in reading.concessions]
    )
    if reading.shown:
        place = f"{_utc(opened):015.3f} {reading.file}"
        tables.execute(
            "INSERT INTO shown VALUES (?, ?, ?, ?)", (number, procedure, place, json.dumps(reading.shown))
        )
    _say(tables, [(number, reading.mentions, reading.remarks)])
    _weigh(tables, number)
    _mark_those_after(tables, number)


def forget(tables: sqlite3.Connection, files: Iterable[str]) -> None:
    """Take out what is known of records, if anything is."""
    for file in files:
        row = tables.execute("SELECT id FROM records WHERE file = ?", (file,)).fetchone()
        if row is not None:
            _mark_those_after(tables, row[0])
            _forget_what_was_said(tables, row[0])
            tables.execute("DELETE FROM records WHERE id = ?", row)


def compare(tables: sqlite3.Connection) -> None:
    """The one remark that rests on other records: readings like those of earlier ones."""
    marked = tables.execute("SELECT record FROM to_compare ORDER BY record").fetchall()
    if not marked:
        return
    from benchcheck.store.index_comparing import likeness

    for (number,) in marked:
        row = tables.execute(
            "SELECT procedure, place, readings FROM shown WHERE record = ?", (number,)
        ).fetchone()
        if row is None:
            continue
        procedure, place, readings = row
        before = tables.execute(
            "SELECT serial, opened, readings FROM shown JOIN records ON records.id = record "
            "WHERE shown.procedure = ? AND place < ? ORDER BY place DESC LIMIT ?",
            (procedure, place, COMPARED),
        ).fetchall()
        tables.execute("DELETE FROM remarks WHERE record = ? AND place = ?", (number, _COMPARISON))
        tables.executemany(
            "INSERT INTO remarks VALUES (?, ?, ?, ?, ?, ?)",
            [(number, _COMPARISON, *each) for each in likeness(readings, before)],
        )
        _weigh(tables, number)
    tables.execute("DELETE FROM to_compare")


def _row(number: int, found: Glance) -> tuple[object, ...]:
    return (
        number,
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
        max((each.weight for each in found.remarks), default=0),
        len(found.remarks),
        READ if found.read else TO_READ,
    )


def _say(tables: sqlite3.Connection, told: Iterable[tuple[int, Sequence[Mention], Sequence[Said]]]) -> None:
    mentions: list[tuple[object, ...]] = []
    remarks: list[tuple[object, ...]] = []
    for number, named, said in told:
        mentions += ((each.kind, each.key, number, each.name, each.event) for each in named)
        remarks += ((number, place, *each) for place, each in enumerate(said))
    tables.executemany("INSERT OR IGNORE INTO mentions VALUES (?, ?, ?, ?, ?)", mentions)
    tables.executemany("INSERT INTO remarks VALUES (?, ?, ?, ?, ?, ?)", remarks)


def _note_in_vain(tables: sqlite3.Connection, number: int, remark: Said) -> None:
    """The events could not be added up: what the glance gave stays, with the reason."""
    tables.execute(
        "DELETE FROM remarks WHERE record = ? AND kind IN (?, ?)", (number, NOT_READ, NOT_UNDERSTOOD)
    )
    tables.execute(
        "INSERT INTO remarks SELECT ?, coalesce(max(place), -1) + 1, ?, ?, ?, ? "
        "FROM remarks WHERE record = ?",
        (number, *remark, number),
    )
    tables.execute("UPDATE records SET reading = ? WHERE id = ?", (IN_VAIN, number))
    _weigh(tables, number)


def _weigh(tables: sqlite3.Connection, number: int) -> None:
    tables.execute(
        "UPDATE records SET (weight, remark_count) = "
        "(SELECT coalesce(max(weight), 0), count(*) FROM remarks WHERE record = records.id) WHERE id = ?",
        (number,),
    )


def _forget_what_was_said(tables: sqlite3.Connection, number: int) -> None:
    for table in OF_A_RECORD:
        tables.execute(f"DELETE FROM {table} WHERE record = ?", (number,))


def _mark_those_after(tables: sqlite3.Connection, number: int) -> None:
    """A record, and those after it whose readings are compared with its own, are to be compared anew."""
    tables.execute(
        "INSERT OR IGNORE INTO to_compare SELECT after.record FROM shown AS one "
        "JOIN shown AS after ON after.procedure = one.procedure AND after.place >= one.place "
        "WHERE one.record = ? ORDER BY after.place LIMIT ?",
        (number, COMPARED + 1),
    )


def _utc(time: str) -> float:
    """A time of a record for ordering [s]; 0 where it is none."""
    try:
        return datetime.fromisoformat(time).timestamp()
    except (ValueError, OverflowError):
        return 0.0
