"""Events and readings as CSV, for spreadsheets and other programs.

RFC 4180: commas, double quotes, lines ended by CR LF; UTF-8 without a mark; numbers with a decimal point. A
text that a spreadsheet would take for a formula gets an apostrophe before it. Columns may be added at the end
of the tables, and are never renamed or moved.
"""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from benchcheck.procedure.characters import clean
from benchcheck.report.journal import Journal
from benchcheck.report.sections.readings import Fact, is_outside
from benchcheck.report.sections.readings import limits as limits_in_words
from benchcheck.report.tightened import Limits, Tightened, all_tightened
from benchcheck.session.events import (
    KINDS,
    Measured,
    PositionChecked,
    PositionTightened,
    PositionTurned,
    Told,
)
from benchcheck.session.fold import RUNNING_TORQUE
from benchcheck.session.record import Header

_OF_RECORD = (
    "record",
    "record_serial",
    "record_procedure",
    "record_revision",
    "record_variant",
    "record_practice",
)
_OF_EVENT = ("number", "kind", "at", "by")
_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%")

Value = str | int | float | bool | None


def events_csv(records: Iterable[tuple[str, Header, Sequence[Mapping[str, Any]]]]) -> str:
    """Every event of these records: file name, header, and events as they stand in the file."""
    fields = _event_fields()
    rows = [
        [*_record_cells(file, header), *(event.get(name) for name in (*_OF_EVENT, *fields))]
        for file, header, events in records
        for event in events
    ]
    return written([*_OF_RECORD, *_OF_EVENT, *fields], rows)


def _event_fields() -> list[str]:
    """What events of any kind can hold besides what all hold, in the order in which the kinds are known."""
    names = dict.fromkeys(
        field.name
        for kind in KINDS.values()
        for field in dataclasses.fields(kind)
        if field.name not in _OF_EVENT
    )
    return list(names)


READING_COLUMNS = (
    *_OF_RECORD,
    "event",
    "at",
    "by",
    "step",
    "what",
    "group",
    "round",
    "position",
    "place",
    "how",
    "value",
    "unit",
    "si_value",
    "low",
    "target",
    "high",
    "limits",
    "wrench",
    "verdict",
    "marked",
    "counts",
    "gauge",
)


def readings_csv(journals: Iterable[Journal]) -> str:
    """Every reading and look of these sessions with its limits, also those that do not count any more.

    `low`, `target` and `high` are in the unit of the reading. `counts` is "yes" for what stands.
    """
    rows = [
        [*_record_cells(journal.proof.file, journal.state.header), *(row.get(name) for name in _OWN_COLUMNS)]
        for journal in journals
        for row in sorted([*_tightenings(journal), *_facts(journal)], key=lambda row: _as_int(row["event"]))
    ]
    return written(READING_COLUMNS, rows)


_OWN_COLUMNS = READING_COLUMNS[len(_OF_RECORD) :]


def _as_int(value: Value) -> int:
    return value if isinstance(value, int) else 0


def _record_cells(file: str, header: Header) -> list[Value]:
    return [file, header.serial, header.procedure, header.revision, header.variant, header.practice]


def _tightenings(journal: Journal) -> Iterator[dict[str, Value]]:
    for done in all_tightened(journal):
        for event in done.run.turned:
            counts = not done.run.loosened and event.number not in done.run.lost
            yield {
                "event": event.number,
                "at": event.at,
                "by": event.by,
                "step": event.act.partition("/")[0],
                "what": done.group.called,
                "group": event.group,
                "position": event.position,
                "marked": event.marked,
                "counts": "yes" if counts else "no",
                **(_torque(done, event) if isinstance(event, PositionTightened) else _angle(done, event)),
            }
        for look in done.run.checked:
            yield {
                "event": look.number,
                "at": look.at,
                "by": look.by,
                "step": look.act.partition("/")[0],
                "what": f"{done.group.called}, check pass",
                "group": look.group,
                "position": look.position,
                "marked": look.marked,
                "counts": "no" if done.run.loosened or look is not done.looks(look.position)[-1] else "yes",
                **_pass(done, look),
            }


def _pass(done: Tightened, event: PositionChecked) -> dict[str, Value]:
    """Whether a position moved; and what was shown, where the wrench shows it."""
    shown = bool(event.unit)
    return {
        "how": "moved" if event.moved else "stood",
        "value": event.value if shown else None,
        "unit": event.unit,
        "si_value": event.newton_metre if shown else None,
        "wrench": event.wrench,
        **_limit_cells(done.limits_for(event) if shown else None, event.value),
    }


def _torque(done: Tightened, event: PositionTightened) -> dict[str, Value]:
    limits = done.limits_for(event) if event.unit else None
    return {
        "round": event.round,
        "how": event.how,
        "value": event.value if event.unit else None,
        "unit": event.unit,
        "si_value": event.newton_metre if event.unit else None,
        "wrench": event.wrench,
        **_limit_cells(limits, event.value),
    }


def _angle(done: Tightened, event: PositionTurned) -> dict[str, Value]:
    return {
        "how": "turned",
        "value": event.degree,
        "unit": "°",
        "si_value": None,
        **_limit_cells(done.turn_limits(), event.degree),
    }


def _limit_cells(limits: Limits | None, value: float) -> dict[str, Value]:
    if limits is None:
        return {}
    return {
        "low": float(f"{limits.low:.6g}"),
        "target": float(f"{limits.target:.6g}"),
        "high": float(f"{limits.high:.6g}"),
        "verdict": "outside" if limits.sign(value) else "inside",
    }


def _facts(journal: Journal) -> Iterator[dict[str, Value]]:
    in_runs = {run.running_torque.number for run in journal.runs if run.running_torque is not None}
    for event in journal.events:
        if not isinstance(event, Measured | Told):
            continue
        counts = journal.stands(event) and not is_outside(event)
        yield {
            "event": event.number,
            "at": event.at,
            "by": event.by,
            "step": event.act.partition("/")[0],
            "what": event.what,
            "limits": limits_in_words(journal, event),
            "verdict": event.verdict,
            "counts": "yes" if counts else "no",
            "marked": "running torque" if event.number in in_runs else getattr(event, "marked", ""),
            **_value_cells(journal, event),
        }


def _value_cells(journal: Journal, event: Fact) -> dict[str, Value]:
    if isinstance(event, Told):
        return {"how": "said", "value": event.value}
    act = journal.act(event.act)
    cells: dict[str, Value] = {
        "how": "read",
        "value": event.value,
        "unit": event.unit,
        "si_value": event.si,
        "place": event.place,
        "wrench" if event.what == RUNNING_TORQUE else "gauge": event.instrument,
    }
    if act is not None and act.verb.value == "ask":
        for name, quantity in (("low", act.question.min), ("high", act.question.max)):
            if quantity is not None:
                cells[name] = float(f"{quantity.to(event.unit):.6g}")
    return cells


# ---------------------------------------------------------------------- writing


def written(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table with its head, each cell harmless."""
    sheet = io.StringIO()
    writer = csv.writer(sheet, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([cell(each) for each in row] for row in rows)
    return sheet.getvalue()


def cell(value: object) -> str:
    """A value as one cell: harmless in a spreadsheet, readable for a program."""
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case int():
            return str(value)
        case float():
            return _number(value)
        case list() | tuple():
            return _harmless("; ".join(map(str, value)))
    return _harmless(str(value))


def _number(value: float) -> str:
    text = repr(value)
    return text.removesuffix(".0") if "e" not in text else f"{value:.15f}".rstrip("0").rstrip(".")


def _harmless(text: str) -> str:
    """A text without what steers a terminal, and with an apostrophe where it would be taken for a formula.

    A plain number stays as it is.
    """
    text = clean(text)
    if text.lstrip(" ").startswith(_STARTS_A_FORMULA) and not _NUMBER.fullmatch(text):
        return f"'{text}"
    return text
