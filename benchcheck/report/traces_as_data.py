"""A trace for other programs: as JSON, and as a table of pumps and uses for spreadsheets.

Keys and columns may be added, and are never renamed.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.mechanics.units import Quantity
from benchcheck.report.csv_table import Value, written
from benchcheck.report.trace_words import RIGHTS, what_words
from benchcheck.report.words import count
from benchcheck.session.events import ActEvent
from benchcheck.session.leaning import step_of
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.read_off import ReadOff
from benchcheck.session.trace.search import Gap, Standing, Touched, Trace, is_in_the_pump
from benchcheck.session.trace.tightenings import Recalibrated, Tightening
from benchcheck.session.trace.uses import Use

NOT_SEARCHED, NOT_REACHED = "not searched", "not reached"
COLUMNS = (
    "searched_on",
    "found",
    "serial",
    "model",
    "procedure",
    "revision",
    "variant",
    "practice",
    "session",
    "opened",
    "record",
    "event",
    "at",
    "by",
    "step",
    "what",
    "group",
    "round",
    "position",
    "how",
    "shown",
    "true",
    "unit",
    "low",
    "target",
    "high",
    "beyond",
    "in_the_pump",
    "undone_by",
    "undone_in",
    "followed_by",
    "capacity",
    "entitled",
    "events",
    "check_pass",
    "entitled_at_sign_on",
    "entitled_by_register",
)


def as_json(trace: Trace) -> dict[str, object]:
    """The search, the pumps with their uses, and what was not searched."""
    wanted = trace.wanted
    return {
        "searched": {
            "on": trace.on.isoformat(timespec="seconds"),
            "records": trace.records,
            "by_index": trace.by_index,
            "misspelt": trace.misspelt,
            "not_searched": [_gap(gap) for gap in trace.gaps],
            "not_reached": trace.not_reached,
        },
        "wanted": {
            "kind": wanted.kind,
            "name": wanted.name,
            "step": wanted.step or None,
            "since": wanted.since.isoformat() if wanted.since is not None else None,
            "until": wanted.until.isoformat() if wanted.until is not None else None,
            "error": _error(wanted.error) if wanted.error is not None else None,
        },
        "pumps": [_pump(each) for each in trace.touched],
        "outside": len(trace.standing(Standing.OUTSIDE)),
    }


def _error(error: Quantity) -> object:
    """A share as its number, a value with its unit."""
    return error.si if error.kind == "share" else {"value": float(error.value), "unit": error.unit}


def _gap(gap: Gap) -> dict[str, object]:
    return {"file": gap.file, "serial": gap.serial or None, "beyond_event": gap.beyond, "why": gap.why}


def _pump(touched: Touched) -> dict[str, object]:
    return {
        **_of_pump(touched.past),
        "found": str(touched.standing),
        "uses": [_use(touched.past, use) for use in touched.uses],
    }


def _of_pump(past: Past) -> dict[str, object]:
    header = past.header
    return {
        "serial": header.serial,
        "model": past.model,
        "procedure": header.procedure,
        "revision": header.revision,
        "variant": past.variant,
        "practice": header.practice,
        "session": past.outcome,
        "opened": header.opened,
        "file": past.file,
    }


def _use(past: Past, use: Use) -> dict[str, object]:
    event = use.event
    said: dict[str, object] = {
        "event": event.number,
        "at": event.at,
        "by": event.by,
        "what": what_words(past, event),
        "step": step_of(event.act) if isinstance(event, ActEvent) else None,
    }
    if use.right is not None:
        known = use.entitlement
        return {
            **said,
            "capacity": RIGHTS[use.right],
            "entitled": known.then if known is not None else None,
            "entitled_at_sign_on": known.at_sign_on if known is not None else None,
            "entitled_by_register": known.by_register if known is not None else None,
            "events": use.times,
        }
    said["in_the_pump"] = is_in_the_pump(use)
    said["undone_by"] = use.undone.by.number if use.undone is not None else None
    said["undone_in"] = (use.undone.file or past.file) if use.undone is not None else None
    if use.tightening is not None:
        said |= _tightening(use.tightening, use.recalibrated)
    if use.reading is not None:
        said |= _reading(use.reading, use.recalibrated)
    return said


def _reading(read: ReadOff, again: Recalibrated | None) -> dict[str, object]:
    event = read.event

    def quantity(value: float | None) -> dict[str, object] | None:
        return None if value is None else {"value": float(f"{value:.6g}"), "unit": event.unit}

    return {
        "how": "read",
        "shown": quantity(event.value),
        "low": quantity(read.low),
        "high": quantity(read.high),
        "true": quantity(again.true) if again is not None else None,
        "beyond": quantity(again.beyond) if again is not None else None,
    }


def _tightening(done: Tightening, again: Recalibrated | None) -> dict[str, object]:
    event, band, followed = done.event, done.band, done.followed

    def torque(value: float | None) -> dict[str, object] | None:
        return None if value is None else {"value": float(f"{value:.6g}"), "unit": event.unit}

    return {
        "group": event.group,
        "round": done.round,
        "check_pass": done.in_pass,
        "position": event.position,
        "how": done.how,
        "shown": torque(event.value),
        "low": torque(band.low) if band is not None else None,
        "target": torque(band.target) if band is not None else None,
        "high": torque(band.high) if band is not None else None,
        "true": torque(again.true) if again is not None else None,
        "beyond": torque(again.beyond) if again is not None else None,
        "followed_by": followed.number if followed is not None else None,
    }


def as_csv(trace: Trace) -> str:
    """A row for each use, for each pump without one, and for each record that was not searched to its end.

    Of a search that was stopped, the first row says that the table is only a part.
    """
    return written(COLUMNS, ([row.get(name) for name in COLUMNS] for row in _rows(trace)))


def _rows(trace: Trace) -> Iterator[dict[str, Value]]:
    on = trace.on.isoformat(timespec="seconds")
    if trace.not_reached:
        yield {
            "searched_on": on,
            "found": NOT_REACHED,
            "what": f"only a part, for it was stopped: {count(trace.not_reached, 'record')} not looked into",
        }
    for each in trace.touched:
        pump = {"searched_on": on, "found": str(each.standing), **_flat(_of_pump(each.past))}
        pump["record"] = pump.pop("file")
        for use in each.uses:
            yield {**pump, **_flat(_use(each.past, use))}
        if not each.uses:
            yield pump
    for gap in trace.gaps:
        beyond = f"to event {gap.beyond} only" if gap.beyond else "not at all"
        yield {
            "searched_on": on,
            "found": NOT_SEARCHED,
            "serial": gap.serial,
            "record": gap.file,
            "what": f"searched {beyond}: {gap.why}",
        }


def _flat(found: dict[str, object]) -> dict[str, Value]:
    """The same without tables inside: a quantity gives its value, and its unit once for the row."""
    row: dict[str, Value] = {}
    for name, value in found.items():
        if isinstance(value, dict):
            row[name], row["unit"] = value["value"], value["unit"]
        elif value is None or isinstance(value, str | int | float | bool):
            row[name] = value
    return row
