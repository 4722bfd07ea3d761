"""A trace as a document: which pumps are touched, the worst first, and what could not be searched.

Words and tables. The same for other programs, as JSON and CSV, is in `traces_as_data`; what counts as
touched is worked out in `session.trace`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from benchcheck.mechanics.units import Quantity
from benchcheck.report import words
from benchcheck.report.columns import kept
from benchcheck.report.document import Block, Column, Document, Fields, Paragraph, Section, Table
from benchcheck.session import events as happened
from benchcheck.session.arrival import same_serial
from benchcheck.session.events import Event
from benchcheck.session.leaning import step_of
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.read_off import ReadOff
from benchcheck.session.trace.search import Gap, Standing, Touched, Trace, is_in_the_pump
from benchcheck.session.trace.uses import Undone, Use
from benchcheck.session.trace.wanted import Wanted

RIGHTS = {
    "work": "worked",
    "witness": "was witness",
    "dispose": "decided on a departure",
    "release": "released",
    "review": "judged",
}
_TAKEN_BACK = {
    happened.GroupLoosened: "loosened",
    happened.RingLifted: "lifted",
    happened.GrooveFound: "found otherwise",
    happened.RingFitted: "replaced",
    happened.PartRemoved: "taken out",
    happened.PartInstalled: "fitted again",
    happened.Corrected: "corrected",
    happened.TakenUp: "round begun again",
    happened.SignedOn: "round begun again",
}


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


def session_words(past: Past) -> str:
    """How a session ended, and when it was last written in: "released, 2 Nov 2026"."""
    practice = "practice, " if past.header.practice else ""
    last = past.last_word or (past.events[-1] if past.events else None)
    when = past.local(last.at if last is not None else past.header.opened)
    return f"{practice}{past.outcome}, {when:%-d %b %Y}"


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
            blocks = tuple(block for each in trace.touched for block in _by_an_instrument(each))
        case _:
            blocks = tuple(_plain_uses(each) for each in trace.touched if each.uses)
    return Section("What was found", blocks) if blocks else None


def _by_a_person(trace: Trace) -> Iterator[Block]:
    rows = tuple(
        (
            each.past.header.serial,
            f"{each.past.day(use.event):%-d %b %Y}",
            _as_what(use),
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
    return Table(_heading(touched), columns, rows)


def _heading(touched: Touched) -> str:
    return f"{touched.past.header.serial}, record {touched.past.file}: {touched.standing}"


def _by_an_instrument(touched: Touched) -> Iterator[Block]:
    """What it did, or where an error is known, what leaves the limits and what does not.

    Of a wrench group by group; what was read on it, or on a gauge, in one table.
    """
    groups: dict[tuple[str, str], list[Use]] = {}
    for use in touched.uses:
        if use.tightening is not None:
            drawn = use.tightening.event
            groups.setdefault((drawn.group, drawn.unit), []).append(use)
    read = [use for use in touched.uses if use.reading is not None]
    if touched.wanted.error is None:
        if groups:
            yield _in_short(touched, groups)
        if read:
            yield _read_in_short(touched, read)
        return
    yield Paragraph(_heading(touched))
    for (group, unit), found in groups.items():
        name = words.capital(touched.past.pump.called(group))
        rows = tuple(
            _recalibrated_row(use) for use in found if use.recalibrated is None or use.recalibrated.beyond
        )
        if rows:
            yield Table(f"{name}, in {unit}", _RECALIBRATED, rows)
        if stays := len(found) - len(rows):
            which = f"all {stays}" if stays > 1 else "its one use"
            if rows:
                which = f"{stays} other{'s' if stays > 1 else ''}"
            yield Paragraph(f"{name}: {which} stay{'s' if stays == 1 else ''} inside the limits.")
    if rows := tuple(
        _reading_row(use) for use in read if use.recalibrated is None or use.recalibrated.beyond
    ):
        yield Table("Readings", _READ_AGAIN, rows)
    if stays := len(read) - len(rows):
        yield Paragraph(f"{words.capital(words.count(stays, 'reading'))} {_stay(stays)} inside the limits.")


def _stay(count: int) -> str:
    return "stays" if count == 1 else "stay"


def _read_in_short(touched: Touched, read: list[Use]) -> Table:
    rows = tuple(
        (use.reading.event.what, _showed(use.reading), str(use.event.number), now_words(use))
        for use in read
        if use.reading is not None
    )
    columns = (Column("reading"), Column("showed", right=True), Column("event", right=True), Column("now"))
    return Table(_heading(touched), columns, rows)


def _showed(reading: ReadOff) -> str:
    return kept(f"{words.number(reading.event.value)} {reading.event.unit}")


def _limits_words(low: float | None, high: float | None) -> str:
    if low is not None and high is not None:
        return words.limits(low, high)
    return f"at least {words.number(low)}" if low is not None else f"at most {words.number(high or 0.0)}"


def _reading_row(use: Use) -> tuple[str, ...]:
    assert use.reading is not None
    reading, again = use.reading, use.recalibrated
    what, end = (reading.event.what, _showed(reading)), (str(use.event.number), now_words(use))
    if again is None:
        return *what, "?", "not known", "?", *end
    limits = _limits_words(reading.low, reading.high)
    return *what, _figures(again.true, 4), kept(limits), kept(_figures(again.beyond, 2)), *end


def _in_short(touched: Touched, groups: dict[tuple[str, str], list[Use]]) -> Table:
    rows = []
    for (group, _), found in groups.items():
        first, last = found[0].event.number, found[-1].event.number
        still = sum(map(is_in_the_pump, found))
        events = f"{first} to {last}" if last > first else str(first)
        rows.append((touched.past.pump.called(group), str(len(found)), events, str(still)))
    columns = (
        Column("group"),
        Column("uses", right=True),
        Column("events"),
        Column("still in the pump", right=True),
    )
    return Table(_heading(touched), columns, tuple(rows))


_READ_AGAIN = (
    Column("reading"),
    Column("showed", right=True),
    Column("was", right=True),
    Column("limits", right=True),
    Column("off by", right=True),
    Column("event", right=True),
    Column("now"),
)
_RECALIBRATED = (
    Column("at"),
    Column("showed", right=True),
    Column("was", right=True),
    Column("limits", right=True),
    Column("off by", right=True),
    Column("event", right=True),
    Column("now"),
)


def _recalibrated_row(use: Use) -> tuple[str, ...]:
    assert use.tightening is not None
    done, again = use.tightening, use.recalibrated
    event = done.event
    showed = f"{'set ' if done.how == 'set' else ''}{words.number(event.value)}"
    place = f"{'pass' if done.in_pass else done.round}/{event.position}", kept(showed)
    end = str(event.number), now_words(use)
    if again is None or use.tightening.band is None:
        return *place, "?", "not known", "?", *end
    band = use.tightening.band
    off = f"{_figures(again.beyond, 2)} ({_figures(abs(again.beyond) / band.target * 100, 2)} %)"
    return *place, _figures(again.true, 4), kept(words.limits(band.low, band.high)), kept(off), *end


def _as_what(use: Use) -> str:
    said = RIGHTS[use.right or "work"]
    return f"{said}, {words.count(use.times, 'event')}" if use.right == "work" else said


def entitled_words(use: Use) -> str:
    """Whether the person had the right then, and where the register of today says otherwise."""
    known = use.entitlement
    if known is None or known.then is None:
        return "not in the register"
    said = "yes" if known.then else "NO"
    if known.at_sign_on is None:
        return f"{said}, by today's register"
    if known.by_register is None:
        return f"{said}; not in today's register"
    if known.by_register != known.then:
        return f"{said}; {'yes' if known.by_register else 'NO'} by today's register"
    return said


def now_words(use: Use) -> str:
    """What became of a use."""
    if use.undone is not None:
        return undone_words(use.undone)
    if use.tightening is not None and use.tightening.moved_nothing:
        return "not moved"
    if use.tightening is not None and use.tightening.followed is not None:
        return "superseded"
    return "in the pump" if is_in_the_pump(use) and _goes_in(use.event) else "stands"


def _goes_in(event: Event) -> bool:
    return isinstance(
        event,
        happened.PositionTightened | happened.PositionChecked | happened.RingFitted | happened.PartInstalled,
    )


def undone_words(undone: Undone) -> str:
    said = _TAKEN_BACK.get(type(undone.by), "done again")
    where = f" of {undone.file}" if undone.file else ""
    return f"{said}, event {undone.by.number}{where}"


def _position_words(past: Past, group: str, which: str, position: int) -> str:
    """The place of a tightening: "cover screws, round 2, position 3"."""
    told = past.pump.groups.get(group)
    place = "" if told is not None and told.count == 1 else f"position {position}"
    return ", ".join(each for each in (past.pump.called(group), which, place) if each)


def what_words(past: Past, event: Event) -> str:
    """What an event of a trace was."""
    match event:
        case happened.Deviation(deviation=number, wrong=wrong):
            return f"deviation {number}: {wrong}"
        case happened.LeftOut():
            return f"left out: {_act_words(past, event)}"
        case happened.Done() | happened.WorkTurned():
            return f"done: {_act_words(past, event)}"
        case happened.PositionTightened(group=group, round=number):
            which = past.pump.groups.get(group)
            told = f"round {number}" if which is None or len(which.rounds) > 1 else ""
            return _position_words(past, group, told, event.position)
        case happened.PositionChecked(group=group) if event.unit:
            return _position_words(past, group, "check pass", event.position)
    return words.event_words(past.pump, event)


def _act_words(past: Past, event: happened.ActEvent) -> str:
    step = step_of(event.act)
    known = next((each for each in past.pump.steps if each.id == step), None)
    return words.step_words(past.pump, known) if known is not None else event.act


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


def _searched(gap: Gap) -> str:
    return f"to event {gap.beyond}" if gap.beyond else "not at all"


def _figures(value: float, figures: int) -> str:
    return words.number(float(f"{value:.{figures}g}"))
