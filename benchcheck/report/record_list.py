"""The records of a workspace as a list: what stands out first, and why; the same for other programs.

What stands out is worked out in `session.remarks`; order and search are the store's.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import groupby

from benchcheck.report import words
from benchcheck.report.document import Block, Cell, Column, Document, Fields, Section, Table, When
from benchcheck.session.record import check_value
from benchcheck.session.remarks import Remark, Weight
from benchcheck.store.index_queries import Listed

HEADINGS = {
    Weight.BROKEN: "Do not hold",
    Weight.OPEN: "Cannot be accepted as they stand",
    Weight.DEPARTS: "Depart from their procedure",
    Weight.ODD: "Odd: a reason to ask",
}
MOST_REMARKS = 8
"""Of one record; the rest are counted."""
_CLEAN, _JUDGED, _PRACTICE = "Nothing stands out", "Judged", "Practice"
_COLUMNS = (Column("pump"), Column("state"), Column("procedure"), Column("opened"), Column("record"))


def document_of(records: Sequence[Listed], states: Mapping[str, int], asked: str, today: date) -> Document:
    """The records in the order in which a reviewer should look at them.

    Parameters: what is listed; how many records there are in each state; what was asked for, in words; the
    day of the look.
    """
    first = sum(1 for each in records if each.standing and not each.practice)
    return Document(
        title="Records" + (f" with {asked}" if asked else ""),
        verdict=f"{first} of {words.count(len(records), 'record')} to look at".upper(),
        sentence=f"On {today:%A %-d %B %Y. }" + _counted(states),
        sections=tuple(
            Section(heading, tuple(_blocks(heading, list(same))))
            for heading, same in groupby(records, key=_heading)
        ),
        pump="Records",
        issue=words.count(sum(states.values()), "record") + " in all",
        check=f"{today:%-d %B %Y}",
    )


def as_json(records: Sequence[Listed], states: Mapping[str, int], today: date) -> dict[str, object]:
    """For other programs. Keys may be added, and are never renamed."""
    return {
        "records": [_record_as_json(each) for each in records],
        "states": dict(states),
        "on": today.isoformat(),
    }


def _counted(states: Mapping[str, int]) -> str:
    if not states:
        return "There is no record in this workspace."
    return "In all: " + ", ".join(f"{number} {state}" for state, number in sorted(states.items())) + "."


def _heading(record: Listed) -> str:
    if record.practice:
        return _PRACTICE
    if record.standing:
        return HEADINGS[Weight(record.standing)]
    return _JUDGED if record.judged else _CLEAN


def _blocks(heading: str, records: Sequence[Listed]) -> Iterator[Block]:
    if heading not in HEADINGS.values():
        yield Table("The latest first", _COLUMNS, tuple(map(_row, records)))
        return
    for each in records:
        yield Fields(tuple(_reasons(each.remarks)), _called(each))


def _called(record: Listed) -> str:
    procedure = f", {_procedure(record)}" if record.procedure else ""
    opened = f", {_day(record.opened)}" if record.opened else ""
    return f"Pump {record.serial}, {record.state}{procedure}{opened}: {record.file}"


def _reasons(remarks: Sequence[Remark]) -> Iterator[tuple[str, str]]:
    for each in remarks[:MOST_REMARKS]:
        yield (f"event {each.event}" if each.event else "the record", each.sentence)
    if len(remarks) > MOST_REMARKS:
        yield ("", f"... and {words.count(len(remarks) - MOST_REMARKS, 'remark')} more.")


def _row(record: Listed) -> tuple[Cell, ...]:
    opened = When(_day(record.opened), record.opened) if record.opened else ""
    return record.serial, record.state, _procedure(record), opened, record.file


def _procedure(record: Listed) -> str:
    return " ".join(each for each in (record.procedure, record.revision, record.variant) if each)


def _day(time: str) -> str:
    """The day of a time as its record has it; the text itself where it is none."""
    try:
        return f"{date.fromisoformat(time[:10]):%-d %b %Y}"
    except ValueError:
        return time[:10]


def _record_as_json(record: Listed) -> dict[str, object]:
    return {
        "file": record.file,
        "serial": record.serial,
        "procedure": record.procedure,
        "revision": record.revision,
        "variant": record.variant,
        "practice": bool(record.practice),
        "opened": record.opened,
        "last": record.last,
        "events": record.events,
        "check_value": check_value(record.last_seal) if record.last_seal else None,
        "state": record.state,
        "judged": bool(record.judged),
        "read": bool(record.read),
        "remarks": [
            {
                "kind": each.kind,
                "weight": each.weight.name.lower(),
                "sentence": each.sentence,
                "event": each.event,
            }
            for each in record.remarks
        ],
    }
