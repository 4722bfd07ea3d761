"""What one record has of the thing that is searched for: each use, and what took it back again.

A use is an event and what is known of it. Words are for the reports; which records are looked at is for
`search`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from benchcheck.assembly.acts import Verb
from benchcheck.procedure.registers import Right
from benchcheck.session import events as happened
from benchcheck.session.events import ActEvent, Event
from benchcheck.session.leaning import step_of
from benchcheck.session.state import Registers
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.read_off import ReadOff, read_off, recalibrated_reading
from benchcheck.session.trace.tightenings import Recalibrated, Tightening, recalibrated, tightenings
from benchcheck.session.trace.wanted import Wanted


@dataclass(frozen=True, slots=True)
class Undone:
    """What took a use back, in its own record or in a later one of the same pump."""

    by: Event
    file: str = ""
    """The later record; empty for its own."""


@dataclass(frozen=True, slots=True)
class Entitlement:
    """Whether a person had a right on a day: as the record kept it at the sign-on, and by the register."""

    at_sign_on: bool | None
    """None: he had not signed on before, or the record is older than that it is kept."""
    by_register: bool | None
    """By the register of today, for that day; None: not known to it."""

    @property
    def then(self) -> bool | None:
        """As far as is known: by the record where it says, else by the register of today."""
        return self.by_register if self.at_sign_on is None else self.at_sign_on


@dataclass(frozen=True, slots=True)
class Use:
    """One use of what is searched for."""

    event: Event
    undone: Undone | None = None
    tightening: Tightening | None = None
    """Of a wrench: what it tightened."""
    reading: ReadOff | None = None
    """Of an instrument: what was read on it."""
    recalibrated: Recalibrated | None = None
    """Of an instrument with an error: what it did in truth; None where its limits are not known."""
    right: Right | None = None
    """Of a person: in which capacity."""
    entitlement: Entitlement | None = None
    """Of a person: whether he had that right."""
    times: int = 1
    """Of a person at work: how many events of that day are his, this one being the first."""


def uses(past: Past, wanted: Wanted, registers: Registers) -> tuple[Use, ...] | None:
    """The uses in a record; None where it is not touched. A pump by its serial is touched without any."""
    match wanted.kind:
        case "instrument":
            found = tuple(_of_instrument(past, wanted, registers))
        case "lot":
            found = tuple(_of_lot(past, wanted))
        case "person":
            found = tuple(_of_person(past, wanted, registers))
        case "procedure":
            name = past.header.procedure
            is_it = any(wanted.is_procedure(name, revision) for revision in past.revisions)
            if not is_it or not _in_days(past, wanted):
                return None
            if not wanted.step:
                return ()
            found = tuple(_of_step(past, wanted))
        case "serial":
            return () if wanted.is_name(past.header.serial) and _in_days(past, wanted) else None
    return found or None


def _in_days(past: Past, wanted: Wanted) -> bool:
    return any(wanted.covers(past.day(event)) for event in past.events)


def _of_instrument(past: Past, wanted: Wanted, registers: Registers) -> list[Use]:
    """What was tightened with it, and what was read on it."""
    found = [*_tightened_with(past, wanted, registers), *_read_on(past, wanted)]
    return sorted(found, key=lambda use: use.event.number)


def _read_on(past: Past, wanted: Wanted) -> Iterator[Use]:
    for each in read_off(past):
        if wanted.is_name(each.event.instrument) and wanted.covers(past.day(each.event)):
            again = recalibrated_reading(each, wanted.error) if wanted.error is not None else None
            undone = Undone(each.undone) if each.undone is not None else None
            yield Use(each.event, undone=undone, reading=each, recalibrated=again)


def _tightened_with(past: Past, wanted: Wanted, registers: Registers) -> Iterator[Use]:
    for each in tightenings(past, registers.wrenches):
        if wanted.is_name(each.event.wrench) and wanted.covers(past.day(each.event)):
            yield Use(
                each.event,
                undone=Undone(each.undone) if each.undone is not None else None,
                tightening=each,
                recalibrated=recalibrated(each, wanted.error) if wanted.error is not None else None,
            )


def _of_lot(past: Past, wanted: Wanted) -> Iterator[Use]:
    for event in past.events:
        match event:
            case happened.RingFitted(lot=lot) | happened.PartInstalled(lot=lot):
                is_it = wanted.is_name(lot)
            case happened.Told(value=value):
                is_it = wanted.is_name(value) and _asks_for_a_lot(past, event)
            case _:
                is_it = False
        if is_it and wanted.covers(past.day(event)):
            yield Use(event, undone=_taken_back(past, event))


def _asks_for_a_lot(past: Past, event: happened.Told) -> bool:
    act = past.act(event)
    return act is not None and act.verb is Verb.ASK and act.question.kind == "lot"


def _of_step(past: Past, wanted: Wanted) -> Iterator[Use]:
    """What completes an act of the step, and what departs from it."""
    for event in past.events:
        if not isinstance(event, ActEvent | happened.Deviation) or step_of(event.act) != wanted.step:
            continue
        told = isinstance(event, happened.Deviation | happened.LeftOut) or event.done
        if told and wanted.covers(past.day(event)):
            yield Use(event, undone=_taken_back(past, event))


def _of_person(past: Past, wanted: Wanted, registers: Registers) -> Iterator[Use]:
    person = registers.people.find(wanted.name)
    at_work: dict[date, list[Use]] = {}
    signed_on: happened.SignedOn | None = None

    def entitlement(right: Right, day: date) -> Entitlement:
        return Entitlement(
            _given(signed_on, right, day), person.entitled(right, day) if person is not None else None
        )

    found: list[Use] = []
    for event in past.events:
        if isinstance(event, happened.SignedOn) and wanted.is_name(event.name):
            signed_on = event
        day = past.day(event)
        if not wanted.covers(day):
            continue
        right = _capacity(event, wanted)
        if right == "work":
            at_work.setdefault(day, []).append(Use(event, right=right, entitlement=entitlement(right, day)))
        elif right is not None:
            found.append(Use(event, right=right, entitlement=entitlement(right, day)))
    found += (replace(done[0], times=len(done)) for done in at_work.values())
    yield from sorted(found, key=lambda use: use.event.number)


def _given(signed_on: happened.SignedOn | None, right: Right, day: date) -> bool | None:
    """Whether the register gave a right for a day when the person signed on; None where that is not kept."""
    if signed_on is None or not signed_on.may:
        return None
    return right in signed_on.may and (not signed_on.until or day <= date.fromisoformat(signed_on.until))


def _capacity(event: Event, wanted: Wanted) -> Right | None:
    """In which capacity the person has part in an event; None if he has none."""
    match event:
        case happened.Witnessed(name=name) if wanted.is_name(name):
            return "witness"
        case happened.PartInstalled(witness=name) if name and wanted.is_name(name):
            return "witness"
        case happened.Signed(second=name) if wanted.is_name(name):
            # The signature that ends the work is followed by the closing event, which completes its act.
            return "witness" if event.done else "release"
        case happened.Disposed(name=name) | happened.PositionDisposed(name=name):
            return "dispose" if wanted.is_name(name) else None
        case happened.PositionRepaired(name=name) if wanted.is_name(name):
            return "dispose"
        case happened.Judged(name=name):
            return "review" if wanted.is_name(name) else None
    return "work" if event.by and wanted.is_name(event.by) else None


def _taken_back(past: Past, event: Event) -> Undone | None:
    """The first later event of its own record that took an event back."""
    for later in past.events[event.number :]:
        if takes_apart(event, later) or _answers_anew(event, later):
            return Undone(later)
    return None


def takes_apart(event: Event, later: Event) -> bool:
    """Whether what an event put into the pump comes out with a later one."""
    match event, later:
        case (
            happened.PositionTightened(group=one) | happened.PositionChecked(group=one),
            happened.GroupLoosened(group=other),
        ):
            return one == other
        case happened.RingFitted(groove=one), (
            happened.RingLifted(groove=other)
            | happened.GrooveFound(groove=other)
            | happened.RingFitted(groove=other)
        ):
            return one == other
        case happened.PartInstalled(part=one), (
            happened.PartRemoved(part=other) | happened.PartInstalled(part=other)
        ):
            return one == other
    return False


def _answers_anew(event: Event, later: Event) -> bool:
    """Whether a later event of the same record corrects an event, or completes its act once more."""
    if isinstance(later, happened.Corrected):
        return later.event == event.number
    if not isinstance(event, ActEvent) or not isinstance(later, ActEvent):
        return False
    return event.done and later.done and event.act == later.act
