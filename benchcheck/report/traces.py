"""A trace as a document: which pumps are touched, the worst first, and what could not be searched.

The same for other programs, as JSON and CSV, is in `traces_as_data`; what counts as touched is worked out in
`session.trace`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from benchcheck.mechanics.units import Quantity
from benchcheck.report import words
from benchcheck.report.document import Block, Column, Document, Fields, Section, Table
from benchcheck.report.trace_words import (
    as_what,
    entitled_words,
    heading,
    now_words,
    session_words,
    what_words,
)
from benchcheck.report.traces_by_instrument import by_an_instrument
from benchcheck.session import events as happened
from benchcheck.session.arrival import same_serial
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Standing, Touched, Trace
from benchcheck.session.trace.wanted import Wanted


def document_of(trace: Trace) -> Document:
    """What a trace found, to be read and kept."""
    sections = (_pumps(trace) if trace.touched else None, _details(trace), _not_searched(trace))
    return _document(trace, verdict(trace).upper(), sections)


def document_of_search(trace: Trace) -> Document:
    """How it was searched, and what could not be."""
    return _document(trace, verdict(trace).upper(), (_not_searched(trace),))


def document_of_one(trace: Trace, touched: Touched) -> Document:
    """What it found of one pump in one session."""
    session = None if trace.wanted.kind == "serial" else Section("Session", (_summary(touched.past),))
    return _document(
        trace, str(touched.standing).upper(), (session, _details(replace(trace, touched=(touched,))))
    )


def _document(trace: Trace, verdict: str, sections: tuple[Section | None, ...]) -> Document:
    return Document(
        title=words.capital(f"trace of {called(trace.wanted)}"),
        verdict=verdict,
        sentence=" ".join(_sentences(trace)),
        sections=tuple(section for section in sections if section is not None),
        pump=f"Trace of {called(trace.wanted)}",
        issue=f"{words.count(trace.records, 'record')} searched",
        check=f"{trace.on:%-d %B %Y, %H:%M}",
    )


def called(wanted: Wanted) -> str:
    """What is searched for: "wrench TW-02"."""
    named = f"{'pump' if wanted.kind == 'serial' else wanted.kind} {wanted.name}"
    return f"{named}, step {wanted.step}" if wanted.step else named


def verdict(trace: Trace) -> str:
    """How many pumps are touched: "2 pumps touched, 1 outside the limits"."""
    pumps, outside = _different(trace.touched), _different(trace.standing(Standing.OUTSIDE))
    said = f"{words.count(pumps, 'pump')} touched" if pumps else "no pump is touched"
    if outside:
        said += f", {outside} outside the limits"
    if trace.not_reached:
        said = f"only a part, for it was stopped: {said} so far"
        said += f"; {words.count(trace.not_reached, 'record')} not looked into"
    if trace.gaps:
        said += f"; {words.count(len(trace.gaps), 'record')} not searched to the end"
    return said


def _sentences(trace: Trace) -> Iterator[str]:
    wanted = trace.wanted
    days = [f"since {_day(wanted.since)}"] if wanted.since is not None else []
    days += [f"until {_day(wanted.until)}"] if wanted.until is not None else []
    between = f", for what was done {' and '.join(days)}" if days else ""
    yield (f"Searched on {trace.on:%A %-d %B %Y, %H:%M}, in {words.count(trace.records, 'record')}{between}.")
    if trace.not_reached:
        yield (
            f"It was stopped, and {words.count(trace.not_reached, 'record')} not looked into: this is only a "
            "part. Other pumps may be touched, and what seems to be in a pump may be out of it since."
        )
    if trace.misspelt:
        yield misspelt(trace)
    if trace.by_index:
        yield "Which of them name it was taken from the index, brought up to date first."
    if wanted.error is not None:
        yield _taken_to_have_shown(wanted.name, wanted.error)
    if wanted.kind == "person":
        yield (
            "Entitled then: what the register gave as the person signed on, which the record keeps; where it "
            "does not, what the register of today gives for the day of the deed."
        )
    if wanted.kind in ("instrument", "lot"):
        yield "What was taken back, in its own record or a later one of the same pump, is not in the pump."
    if wanted.kind == "instrument":
        yield (
            "A reading stands until it was taken anew. What a later tightening of the same position followed "
            "is superseded; a screw that did not move in the check pass is as tight as it was."
        )


def _taken_to_have_shown(name: str, error: Quantity) -> str:
    way = "more" if error.value > 0 else "less"
    much = f"{words.number(abs(float(error.value)))} {error.unit}"
    less = f"divided by {words.number(1 + error.si)}"
    if error.kind != "share":
        less = f"lessened by {much}" if error.value > 0 else f"raised by {much}"
    return (
        f"{name} is taken to have shown {much} {way} than there was: what it showed, or was set to, is "
        f"{less}. Limits are those of each record's procedure, as an instrument that is right shows them. "
        "Off by: in the same unit, and of a torque as a share of the target."
    )


def misspelt(trace: Trace) -> str:
    """That nothing is known by the name that was searched for, with names like it."""
    wanted = trace.wanted
    if wanted.step:
        said = f"None of the procedures that were followed has a step {wanted.step}"
    elif wanted.kind in ("instrument", "person"):
        said = f"Neither a record nor the register names {wanted.name}"
    else:
        said = f"No record names {wanted.name}"
    return f"{said}; like it: {words.listed(trace.like)}." if trace.like else f"{said}."


def _day(day: object) -> str:
    return f"{day:%-d %B %Y}"


def _different(touched: tuple[Touched, ...]) -> int:
    """How many pumps these records are of."""
    serials: list[str] = []
    for each in touched:
        serial = each.past.header.serial
        if not any(same_serial(serial, other) for other in serials):
            serials.append(serial)
    return len(serials)


# ---------------------------------------------------------------------- the list


def _pumps(trace: Trace) -> Section:
    counted = trace.wanted.kind not in ("serial",) and (trace.wanted.kind != "procedure" or trace.wanted.step)
    columns = [Column("pump"), Column("model"), Column("session"), Column("found")]
    if counted:
        columns.append(Column("uses", right=True))
    rows = []
    for each in trace.touched:
        row = [each.past.header.serial, each.past.model, session_words(each.past), str(each.standing)]
        if counted:
            row.append(str(sum(use.times for use in each.uses)))
        rows.append(tuple(row))
    return Section("Pumps", (Table("The worst first", tuple(columns), tuple(rows)),))


# ---------------------------------------------------------------------- the details


def _details(trace: Trace) -> Section | None:
    match trace.wanted.kind:
        case "serial":
            return (
                Section("Sessions", tuple(_summary(each.past) for each in trace.touched))
                if trace.touched
                else None
            )
        case "person":
            blocks = tuple(_by_a_person(trace))
        case "instrument":
            blocks = tuple(block for each in trace.touched for block in by_an_instrument(each))
        case _:
            blocks = tuple(_plain_uses(each) for each in trace.touched if each.uses)
    return Section("What was found", blocks) if blocks else None


def _by_a_person(trace: Trace) -> Iterator[Block]:
    rows = tuple(
        (
            each.past.header.serial,
            f"{each.past.day(use.event):%-d %b %Y}",
            as_what(use),
            str(use.event.number),
            entitled_words(use),
        )
        for each in trace.touched
        for use in each.uses
    )
    if rows:
        columns = (
            Column("pump"),
            Column("day"),
            Column("as"),
            Column("event", right=True),
            Column("entitled then"),
        )
        yield Table("In the order of the pumps above", tuple(columns), rows)


def _plain_uses(touched: Touched) -> Table:
    rows = tuple(
        (what_words(touched.past, use.event), use.event.by, str(use.event.number), now_words(use))
        for use in touched.uses
    )
    columns = Column("what"), Column("by"), Column("event", right=True), Column("now")
    return Table(heading(touched), columns, rows)


def _summary(past: Past) -> Fields:
    """What a session used and who took part: for the trace of one pump."""
    wrenches = dict.fromkeys(each.wrench for each in past.of(happened.PositionTightened) if each.wrench)
    lots = dict.fromkeys(each.lot for each in past.of(happened.RingFitted) if each.lot)
    people = dict.fromkeys(each.by for each in past.events if each.by)
    header = past.header
    return Fields(
        (
            ("procedure", f"{header.procedure}, revision {header.revision}"),
            ("opened", f"{past.local(header.opened):%-d %B %Y, %H:%M}"),
            ("ended", session_words(past)),
            ("deviations", str(sum(1 for _ in past.of(happened.Deviation)))),
            ("wrenches", words.listed(wrenches)),
            ("lots", words.listed(lots)),
            ("people", words.listed(people)),
        ),
        f"Record {past.file}",
    )


def _not_searched(trace: Trace) -> Section | None:
    if not trace.gaps:
        return None
    columns = Column("record"), Column("pump"), Column("searched"), Column("why no further")
    rows = tuple(
        (
            gap.file,
            gap.serial or "not known",
            f"to event {gap.beyond}" if gap.beyond else "not at all",
            gap.why,
        )
        for gap in trace.gaps
    )
    return Section("Not searched", (Table("What may be in these, nobody knows", columns, rows),))
