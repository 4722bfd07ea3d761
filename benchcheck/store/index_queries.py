"""What is asked of the index: which records there are, what stands out first and why, and what names what.

Remarks that hold on every day are kept; those that a later day or a newer register changes are worked out
here, for the day that is given.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from benchcheck.session.remarks import Remark, Weight, heaviest_first
from benchcheck.session.standing_out.concession_expires import NOTICE, Concession, expiring
from benchcheck.session.standing_out.instrument_out_of_date import Use, out_of_date
from benchcheck.store.index_rows import MentionKind, key


@dataclass(frozen=True, slots=True)
class Query:
    """Which records are wanted, and in which order."""

    text: str = ""
    """Words that all have to be found in it: serial, person, instrument, lot, revision, day, state ..."""
    state: str = ""
    """Only records in this state."""
    latest_first: bool = False
    """Instead of what stands out first."""
    limit: int | None = None
    offset: int = 0


class Listed(NamedTuple):
    """A record as it stands in a list."""

    file: str
    serial: str
    procedure: str
    revision: str
    variant: str
    practice: int
    """1 for practice, which releases no pump, else 0."""
    opened: str
    last: str
    """Time of the last event."""
    events: int
    last_seal: str
    state: str
    """open, released, ..., accepted ...; damaged, missing or unreadable."""
    judged: int
    """1 when a reviewer has spoken, else 0."""
    read: int
    """1 when its events are read; 0: the remarks are what its summary gives rise to."""
    remarks: tuple[Remark, ...]
    """Heaviest first."""

    @property
    def weight(self) -> int:
        """The weight of the heaviest remark; 0: nothing stands out."""
        return max((each.weight for each in self.remarks), default=0)

    @property
    def standing(self) -> int:
        """The weight by which it is ordered: a reviewer's word settles all but what it cannot, 0 nothing."""
        return max(
            (
                each.weight
                for each in self.remarks
                if not self.judged or each.weight is Weight.BROKEN or each.kind in DATED
            ),
            default=0,
        )


DATED = ("concession expires", "instrument out of date")
"""The kinds of remark that are worked out for a day."""
_COLUMNS = (
    "id, file, serial, procedure, revision, variant, practice, opened, last, events, last_seal, state, "
    "judged, reading != 0"
)
_WEIGHED = "records LEFT JOIN temp.dated ON dated.record = records.id"
_WEIGHTS = {int(each): each for each in Weight}
_MOST_VALUES = 500
"""More are not put into one question; then all rows are asked for."""
# As `Listed.standing` has it.
_FIRST = (
    "practice, max(CASE WHEN judged AND weight < 4 THEN 0 ELSE weight END, coalesce(heaviest, 0)) DESC, "
    "judged, remark_count DESC, last_utc DESC, file"
)


def listed(tables: sqlite3.Connection, query: Query, today: date) -> list[Listed]:
    """The records that are wanted, with what stands out in each on that day. Raises sqlite3.Error."""
    dated = _dated(tables, today)
    where, values = _where(query)
    page = f"LIMIT {-1 if query.limit is None else int(query.limit)} OFFSET {int(query.offset)}"
    if query.latest_first:
        sql = f"SELECT {_COLUMNS} FROM records {where} ORDER BY last_utc DESC, file {page}"
    else:
        _keep_weights(tables, dated)
        sql = f"SELECT {_COLUMNS} FROM {_WEIGHED} {where} ORDER BY {_FIRST} {page}"
    rows = tables.execute(sql, values).fetchall()
    said = _remarks(tables, [row[0] for row in rows])
    for record, remarks in dated.items():
        said.setdefault(record, []).extend(remarks)
    return [Listed._make((*row[1:], heaviest_first(said.get(row[0], ())))) for row in rows]


def place(tables: sqlite3.Connection, text: str, file: str, today: date) -> int | None:
    """Where a record stands among those with these words, what stands out first, from 0; None: not there.

    Raises sqlite3.Error.
    """
    _keep_weights(tables, _dated(tables, today))
    where, values = _where(Query(text))
    sql = f"SELECT file, row_number() OVER (ORDER BY {_FIRST}) - 1 AS place FROM {_WEIGHED} {where}"
    found = tables.execute(f"SELECT place FROM ({sql}) WHERE file = ?", (*values, file)).fetchone()
    return int(found[0]) if found is not None else None


def count(tables: sqlite3.Connection, query: Query) -> int:
    """How many records are wanted, whatever the page. Raises sqlite3.Error."""
    where, values = _where(query)
    return int(tables.execute(f"SELECT count(*) FROM records {where}", values).fetchone()[0])


def states(tables: sqlite3.Connection) -> dict[str, int]:
    """How many records there are in each state. Raises sqlite3.Error."""
    return dict(tables.execute("SELECT state, count(*) FROM records GROUP BY state ORDER BY state"))


def unread(tables: sqlite3.Connection) -> int:
    """How many records were only glanced at yet. Raises sqlite3.Error."""
    return int(tables.execute("SELECT count(*) FROM records WHERE reading = 0").fetchone()[0])


def mentioning(tables: sqlite3.Connection, kind: MentionKind, name: str) -> list[str]:
    """File names of the records that name it, the latest first; uses that were voided count too.

    A procedure is named by its id, or by id and revision: "xmpl-hc40-C". Raises sqlite3.Error.
    """
    return [
        file
        for (file,) in tables.execute(
            "SELECT file FROM mentions JOIN records ON records.id = record WHERE kind = ? AND key = ? "
            "ORDER BY last_utc DESC, file",
            (kind, key(kind, name)),
        )
    ]


def names(tables: sqlite3.Connection, kind: MentionKind) -> list[str]:
    """Every name of a kind that stands in a record, in one of its spellings. Raises sqlite3.Error."""
    sql = "SELECT min(name) FROM mentions WHERE kind = ? GROUP BY key ORDER BY key"
    return [name for (name,) in tables.execute(sql, (kind,))]


def _where(query: Query) -> tuple[str, list[str]]:
    words = query.text.casefold().split()
    tests = ["instr(words, ?) > 0"] * len(words)
    if query.state:
        tests.append("state = ?")
        words.append(query.state)
    return (f"WHERE {' AND '.join(tests)}" if tests else ""), words


def _remarks(tables: sqlite3.Connection, records: Sequence[int]) -> dict[int, list[Remark]]:
    """What is kept of these records."""
    sql, values = "SELECT record, kind, weight, sentence, event FROM remarks", tuple(records)
    if len(values) > _MOST_VALUES:
        rows = tables.execute(sql)
    else:
        rows = tables.execute(f"{sql} WHERE record IN ({', '.join('?' * len(values))})", values)
    found: dict[int, list[Remark]] = {}
    for record, kind, weight, sentence, event in rows:
        found.setdefault(record, []).append(Remark(kind, _WEIGHTS[weight], sentence, event))
    return found


def _dated(tables: sqlite3.Connection, today: date) -> dict[int, list[Remark]]:
    """What is to be said on that day, by record."""
    found: dict[int, list[Remark]] = {}
    late = tables.execute(
        "SELECT record, uses.instrument, day, event, last FROM due "
        "CROSS JOIN uses ON uses.instrument = due.instrument AND day > last"
    )
    for record, instrument, day, event, last in late:
        use = Use(instrument, date.fromisoformat(day), event)
        found.setdefault(record, []).extend(out_of_date([use], {instrument: date.fromisoformat(last)}))
    near = tables.execute(
        "SELECT record, expires, limited, name, event FROM concessions WHERE expires <= ?",
        ((today + NOTICE).isoformat(),),
    )
    for record, expires, limit, name, event in near:
        concession = Concession(expires, limit, name, event)
        found.setdefault(record, []).extend(expiring([concession], today))
    return found


def _keep_weights(tables: sqlite3.Connection, dated: dict[int, list[Remark]]) -> None:
    """Beside the tables, for this connection alone, so that they can be ordered by it."""
    tables.execute("CREATE TEMP TABLE IF NOT EXISTS dated (record INTEGER PRIMARY KEY, heaviest INTEGER)")
    with tables:
        tables.execute("DELETE FROM temp.dated")
        tables.executemany(
            "INSERT INTO temp.dated VALUES (?, ?)",
            [(record, max(each.weight for each in said)) for record, said in dated.items() if said],
        )
