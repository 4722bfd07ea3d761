"""What the events of one record say for the index: what stands out, who and what is named, which readings.

This is the slow half, a few hundredths of a second a record: the events are added up by the procedure that is
kept beside the record. The remarks are those that hold on every day; what a later day or a newer register
would change is kept as facts, and said when it is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from benchcheck.assembly.acts import Verb
from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.events import Event
from benchcheck.session.record import NewerFormat, read
from benchcheck.session.remarks import remarks
from benchcheck.session.standing_out.concession_expires import concessions
from benchcheck.session.standing_out.instrument_out_of_date import uses
from benchcheck.session.standing_out.readings_copied import scaled
from benchcheck.session.state import Registers, State
from benchcheck.session.verification import verify
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.index_comparing import packed, said
from benchcheck.store.index_rows import (
    DAMAGED,
    NOT_UNDERSTOOD,
    Mention,
    Reading,
    Said,
    Task,
    damage_words,
    day_words,
    folded_words,
    mention,
    torn,
    weighed,
)
from benchcheck.store.library import Unreadable, load_registers
from benchcheck.store.recorded import Recorded, state_of_recorded
from benchcheck.store.sitting import CannotOpen
from benchcheck.store.workspace import Workspace


def read_events(task: Task) -> Reading:
    """Read a record in full. Never raises: what is wrong is in what it gives."""
    try:
        path = Path(task.path)
        record = read(read_file(path))
        wrong = weighed(record, task.known)
        recorded = Recorded(path, record, verify(record, task.known, None))
        state, events = state_of_recorded(recorded, _registers(path.parent.parent))
        course = Course(state, events)
        found = remarks(state, events, damage=wrong and (wrong[0], damage_words(*wrong)))
    except (StoreFault, NewerFormat, CannotOpen, Unreadable) as fault:
        return _not_understood(task, str(fault).splitlines()[0])
    except Exception as fault:  # a record made elsewhere may name what its procedure does not have
        return _not_understood(
            task, f"Its events do not fit the procedure it names ({type(fault).__name__}: {fault})."
        )
    mentions = tuple(_mentions(state, events))
    name = DAMAGED if wrong else state.outcome
    return Reading(
        file=task.file,
        stamp=task.stamp,
        state=name,
        judged=state.judged is not None,
        words=folded_words((*_words(course), name, *(each.name for each in mentions))),
        mentions=mentions,
        remarks=(*map(said, found), *(torn(record) if wrong is None else ())),
        uses=tuple((each.instrument, each.day.isoformat(), each.event) for each in uses(course)),
        concessions=tuple((each.expires, each.limit, each.name, each.event) for each in concessions(course)),
        shown=tuple(map(packed, scaled(course))),
    )


@lru_cache(maxsize=4)
def _registers(folder: Path) -> Registers | None:
    try:
        return load_registers(Workspace(folder))
    except Unreadable:
        return None


def _not_understood(task: Task, why: str) -> Reading:
    remark = Said(NOT_UNDERSTOOD, 3, f"Its events cannot be added up: {why}", None)
    return Reading(task.file, task.stamp, "", False, "", (), (remark,), understood=False)


def _mentions(state: State, events: tuple[Event, ...]) -> Iterator[Mention]:
    """Every name in a record with the first event that holds it: also what was voided later."""
    header = state.header
    yield mention("serial", header.serial, 0)
    yield mention("procedure", header.procedure, 0)
    yield mention("procedure", f"{header.procedure}-{header.revision}", 0)
    met: set[tuple[str, str]] = set()
    for event in events:
        for each in _named_in(state, event):
            if each.name and (each.kind, each.name) not in met:
                met.add((each.kind, each.name))
                yield each


def _named_in(state: State, event: Event) -> Iterator[Mention]:
    number = event.number
    yield mention("person", event.by, number)
    for field in ("name", "witness", "second"):
        yield mention("person", str(getattr(event, field, "")), number)
    match event:
        case happened.WrenchTaken() | happened.PositionTightened() | happened.WrenchChanged():
            yield mention("instrument", event.wrench, number)
        case happened.GaugeTaken() | happened.GaugeChanged():
            yield mention("instrument", event.gauge, number)
        case happened.Measured() | happened.InstrumentDoubted():
            yield mention("instrument", event.instrument, number)
        case happened.RingFitted() | happened.PartInstalled():
            yield mention("lot", event.lot, number)
        case happened.MovedOn():
            yield mention("procedure", f"{state.header.procedure}-{event.revision}", number)
        case happened.Told():
            act = state.act(event.act)
            if act is not None and act.verb is Verb.ASK and act.question.kind == "lot":
                yield mention("lot", event.value, number)


def _words(course: Course) -> Iterator[str]:
    """What else a person may type to find the record: variant, days, bench, what was told in free words."""
    header = course.state.header
    yield from (course.state.variant or "", *day_words(header.opened), header.bench)
    yield "practice" if header.practice else ""
    if course.events:
        yield from day_words(course.events[-1].at)
    for told in course.of(happened.Told):
        act = course.state.act(told.act)
        if act is not None and act.verb is Verb.ASK and not act.question.one_of:
            yield told.value
