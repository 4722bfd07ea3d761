"""What a report needs of a session: its state, and what became of each thing along the way.

The state says how things stand; what was done and undone again is only in the events. They are folded once
more here, and what each one voided, which tightening it belongs to, and whether its reading still counts is
noted. Words and layout are for the sections.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import cache
from typing import TypeVar
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from benchcheck.assembly.acts import Act
from benchcheck.procedure.model import Head
from benchcheck.report.document import When
from benchcheck.report.words import step_words
from benchcheck.session import events as happened
from benchcheck.session.events import Event
from benchcheck.session.fold import beginning, fold
from benchcheck.session.record import RecordRead, check_value
from benchcheck.session.state import State, moment
from benchcheck.session.verification import Verdict

E = TypeVar("E", bound=Event)
Turned = happened.PositionTightened | happened.PositionTurned


@dataclass(frozen=True, slots=True)
class Proof:
    """Which record the report is of, up to which event it holds, and what speaks for that."""

    file: str
    number: int
    """Of the last good event."""
    seal: str
    """Of that event, in hexadecimal."""
    proved_by: tuple[str, ...] = ()
    not_proved: tuple[str, ...] = ()
    bad_from: int | None = None
    """The event from which on the record is damaged, or contradicted by what is known of it."""

    @property
    def check(self) -> str:
        """The check value with its event, as `verify` takes it back."""
        return f"{self.number}: {check_value(self.seal)}" if self.seal else "none"


def proof_of(file: str, record: RecordRead, verdict: Verdict) -> Proof:
    """What a record that was read and weighed proves."""
    last = record.seals[-1] if record.seals else None
    return Proof(
        file=file,
        number=last.number if last else 0,
        seal=last.hexadecimal if last else "",
        proved_by=verdict.proved_by,
        not_proved=verdict.not_proved,
        bad_from=verdict.first_bad_event,
    )


@dataclass(frozen=True, slots=True)
class Voiding:
    """A fact that no longer stood."""

    act: str
    was: int
    """The event that had established it."""
    by: int
    """The event that took its ground away."""
    again: int
    """The event that established it anew; 0 if none did."""


@dataclass
class Run:
    """One tightening of a group, from its running in to its loosening."""

    group: str
    began: int
    turned: list[Turned] = field(default_factory=list)
    checked: list[happened.PositionChecked] = field(default_factory=list)
    wrenches: list[happened.WrenchTaken] = field(default_factory=list)
    running_torque: happened.Measured | None = None
    loosened: int = 0
    """The event that undid it; 0 while it stands."""
    lost: set[int] = field(default_factory=set)
    """Events whose position was done again, or has to be."""


@dataclass(frozen=True)
class Journal:
    """A session, read for a report."""

    state: State
    events: tuple[Event, ...]
    proof: Proof
    voidings: tuple[Voiding, ...]
    runs: tuple[Run, ...]

    def of(self, kind: type[E]) -> Iterator[E]:
        """The events of a kind, in order."""
        return (each for each in self.events if isinstance(each, kind))

    @property
    def corrected(self) -> frozenset[int]:
        """Events that were corrected: they do not count."""
        return frozenset(each.event for each in self.of(happened.Corrected))

    def stands(self, event: happened.ActEvent) -> bool:
        """Whether what the event established, or was part of, still counts."""
        return event.number not in self.corrected and not any(
            each.act == event.act and event.number <= each.was for each in self.voidings
        )

    @property
    def head(self) -> Head:
        return self.state.job.procedure.procedure

    @property
    def revision(self) -> str:
        """The revision of the procedure that was followed last."""
        moved = tuple(self.of(happened.MovedOn))
        return moved[-1].revision if moved else self.state.header.revision

    @property
    def revisions(self) -> str:
        """The revision of the procedure; where the work has moved on, with those it followed since."""
        moved = (f"from event {each.number} on {each.revision}" for each in self.of(happened.MovedOn))
        return ", ".join((self.state.header.revision, *moved))

    def act(self, name: str) -> Act | None:
        return next((act for act in self.state.acts if act.id == name), None)

    # ------------------------------------------------------------------ words that every section uses

    def time(self, text: str) -> datetime:
        """A time of the record on the clock of its bench."""
        return self.local(moment(text))

    def local(self, time: datetime) -> datetime:
        zone = _zone(self.state.header.time_zone)
        return time if zone is None else time.astimezone(zone)

    def when(self, text: str) -> When:
        """Day and time for a table."""
        time = self.time(text)
        return When(time.strftime("%-d %b %H:%M"), time.isoformat(timespec="seconds"))

    def day(self, time: str | datetime) -> str:
        """Day and time for a sentence."""
        at = self.time(time) if isinstance(time, str) else self.local(time)
        return at.strftime("%A %-d %B %Y, %H:%M")

    def until(self, end: datetime) -> str:
        """When something is over, for a sentence; never promised too early."""
        whole = not end.second and not end.microsecond
        return self.day(end if whole else end + timedelta(minutes=1))

    @property
    def model(self) -> str:
        """What the plate says, as far as the variant tells."""
        head = self.head
        variant = self.state.variant or ""
        if len(head.models) == 1:
            return head.models[0]
        return next(
            (each for each in head.models if variant and each.endswith(variant)), f"{head.id} {variant}"
        )

    def step_words(self, act: str) -> str:
        """What a person calls the step of an act."""
        found = self.act(act)
        return step_words(self.state.pump, found.step) if found is not None else act.partition("/")[0]

    def thing(self, act: str) -> str:
        """What an act is about, in the pump's words: "end plate, plate-on"."""
        step, _, rest = act.partition("/")
        verb, _, target = rest.partition(":")
        pump = self.state.pump
        if verb == "ask":
            found = self.act(act)
            return f"{found.question.what}, {step}" if found is not None else step
        if target in pump.parts or target in pump.groups:
            return f"{pump.called(target)}, {step}"
        if target in pump.grooves:
            return f"ring of {target}, {step}"
        return step


@cache
def _zone(name: str) -> ZoneInfo | None:
    """The zone of a record; None if this system does not know it, so that times stay as they were written."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def journal_of(state: State, events: tuple[Event, ...], proof: Proof) -> Journal:
    """Read a session: its state, and the events that add up to it."""
    walk = _Walk(beginning(state.job, state.header))
    for event in events:
        walk.take(event)
    walk.leave_open()
    return Journal(state, events, proof, walk.settled(), tuple(walk.runs))


class _Walk:
    """The events, one after the other."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.runs: list[Run] = []
        self.wrenches: list[happened.WrenchTaken] = []
        self.voided: list[tuple[str, int, int]] = []
        self.established: list[tuple[str, int]] = []

    def take(self, event: Event) -> None:
        before, self.state = self.state, fold(self.state, event)
        if self.state.facts is not before.facts:
            self._note_facts(before, event)
        match event:
            case happened.WrenchTaken():
                self.wrenches.append(event)
                if run := self._open_run(event.group):
                    run.wrenches.append(event)
            case happened.GroupStarted(group=group):
                mine = {each.round: each for each in self.wrenches if each.group == group}
                self.runs.append(Run(group, event.number, wrenches=list(mine.values())))
            case happened.GroupLoosened(group=group):
                if run := self._open_run(group):
                    run.loosened = event.number
            case happened.PositionTightened(group=group) | happened.PositionTurned(group=group):
                if run := self._open_run(group):
                    run.lost |= {each.number for each in run.turned if _same_place(each, event)}
                    run.turned.append(event)
            case happened.PositionChecked(group=group):
                if run := self._open_run(group):
                    run.checked.append(event)
            case happened.Corrected(event=number):
                for run in self.runs:
                    run.lost |= {each.number for each in run.turned if each.number == number}
            case happened.Measured():
                act = next((each for each in self.state.acts if each.id == event.act), None)
                if act is not None and (run := self._open_run(act.target)):
                    run.running_torque = event

    def leave_open(self) -> None:
        """In rounds that were interrupted and not begun again, what was done is to be done again."""
        for run in self.runs:
            hold = self.state.assembly.held.get(run.group)
            if run.loosened or hold is None:
                continue
            run.lost |= {
                each.number
                for each in run.turned
                if isinstance(each, happened.PositionTightened)
                and each.round > hold.rounds
                and each.position not in hold.done
            }

    def settled(self) -> tuple[Voiding, ...]:
        return tuple(
            Voiding(
                act,
                was,
                by,
                next((number for name, number in self.established if name == act and number > by), 0),
            )
            for act, was, by in self.voided
        )

    def _note_facts(self, before: State, event: Event) -> None:
        for name, fact in self.state.facts.items():
            old = before.facts.get(name)
            if old is fact:
                continue
            if fact.void:
                self.voided.append((name, fact.event, event.number))
            else:
                self.established.append((name, fact.event))

    def _open_run(self, group: str) -> Run | None:
        return next((run for run in reversed(self.runs) if run.group == group and not run.loosened), None)


def _same_place(one: Turned, other: Turned) -> bool:
    if isinstance(one, happened.PositionTightened) and isinstance(other, happened.PositionTightened):
        return (one.round, one.position) == (other.round, other.position)
    return type(one) is type(other) and one.position == other.position
