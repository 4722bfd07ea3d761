"""A session held open by this program: the state, and the record in which every answer is before it
counts.

Every face of the engine works through a sitting: ask, answer, and the commands of `session.commands`.
Events are written and synced first; only then is the state the new one. What cannot be written has not
happened.
"""

from __future__ import annotations

import platform
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import benchcheck
from benchcheck.session import commands, engine
from benchcheck.session.engine import Takeover
from benchcheck.session.events import Event, Opened, TakenUp, UnknownEvent, from_table, stamped
from benchcheck.session.fold import beginning, folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.record import Header, RecordRead, flat
from benchcheck.session.state import Job, Registers, State
from benchcheck.store import revisions, signature
from benchcheck.store.library import Loaded, Unreadable, load_registers, parse_procedure
from benchcheck.store.records import RecordFile
from benchcheck.store.workspace import Workspace


class CannotOpen(Exception):
    """A session cannot be opened, for a reason a person can act on."""


class Sitting:
    """One record, open for writing."""

    def __init__(self, workspace: Workspace, record: RecordFile, state: State) -> None:
        self.workspace = workspace
        self.record = record
        self.state = state
        self.signed: tuple[str, ...] = ()
        """What came of the signatures at the end, in a sentence for each."""

    @property
    def path(self) -> Path:
        return self.record.path

    def ask(self, now: datetime) -> Prompt | None:
        """What is asked now; after a long pause first whether all is as it was. Raises StoreFault."""
        alone = engine.left_alone(self.state, now)
        if alone is not None:
            self.carry_out(engine.written(self.state, (alone,), now))
        if isinstance(alone, TakenUp):
            self.look_at_procedure(now)
        return engine.ask(self.state, now)

    def answer(
        self, prompt_id: str, text: str, now: datetime, over: Takeover | None = None
    ) -> Outcome | None:
        """The outcome that refuses the answer; None once it is on disk. Raises StoreFault."""
        return self.carry_out(engine.answer(self.state, prompt_id, text, now, over=over))

    def answer_asked(self, prompt: Prompt, text: str, now: datetime) -> Outcome | None:
        """The same for what `ask` gave at this very moment, without asking again. Raises StoreFault."""
        return self.carry_out(engine.answer_asked(self.state, prompt, text, now))

    def take_mend(self, outcome: Outcome, now: datetime) -> None:
        """Go the way a refusal offers. Raises StoreFault."""
        self.carry_out(engine.written(self.state, outcome.mend, now))

    def leave_out(self, reason: str, now: datetime) -> Outcome | None:
        return self.carry_out(engine.leave_out(self.state, reason, now))

    def command(
        self, do: Callable[..., commands.Result], *arguments: Any, now: datetime, **named: Any
    ) -> Outcome | None:
        """One of `session.commands`, carried out on this state. Raises StoreFault."""
        return self.carry_out(do(self.state, *arguments, now=now, **named))

    def carry_out(self, result: tuple[Event, ...] | Outcome) -> Outcome | None:
        """Write the events, then take the state they give; an outcome is handed back. Raises StoreFault."""
        if isinstance(result, Outcome):
            return result
        tables = [flat(event.as_table()) for event in result]
        after = folded(self.state, (from_table(table) for table in tables))
        self.record.append(*tables)
        if after.technician != self.state.technician:
            self.record.passed_to(after.technician)
        ended = after.closed if self.state.closed is None else None
        self.state = after
        if ended is not None:
            people, seal = after.job.registers.people, self.record.chain.last_seal
            self.signed = signature.sign(self.path, ended.number, seal, people, ended.keys)
        return None

    def look_at_procedure(self, now: datetime) -> None:
        """See whether the text that is followed may be followed still, and whether there is another.

        Raises StoreFault.
        """
        try:
            registers = load_registers(self.workspace)
        except Unreadable:
            registers = self.state.job.registers
        found = revisions.standing(self.workspace, registers, self.state, now)
        self.state = revisions.knowing(self.workspace, self.state, found.other)
        if events := revisions.what_happened(self.state, found):
            self.carry_out(engine.written(self.state, events, now))

    def stop(self, reason: str, now: datetime) -> None:
        """Leave the pump as it is, and free the record. Raises StoreFault."""
        try:
            if self.state.closed is None and not self.state.stopped:
                self.command(commands.stop, reason, now=now)
        finally:
            self.record.close()


def start(
    workspace: Workspace,
    registers: Registers,
    loaded: Loaded,
    *,
    serial: str,
    serial_again: str,
    variant: str,
    practice: bool,
    who: str,
    now: datetime,
) -> Sitting:
    """Open a record for a pump, once its serial was read twice. Raises CannotOpen, StoreFault, Held."""
    from benchcheck.session.arrival import same_serial

    if not serial.strip():
        raise CannotOpen("a serial number was not given; read it on the pump")
    if not same_serial(serial, serial_again):
        raise CannotOpen(
            f'the two readings differ: "{serial}" and "{serial_again}"; read it again on the body'
        )
    head = loaded.procedure.procedure
    if (why := head.practice_only) and not practice:
        raise CannotOpen(f"{head.id} revision {head.revision} is {why}: it serves for practice only")
    if head.variants and variant not in head.variants:
        raise CannotOpen(f'"{variant}" is no variant of {head.id}; it has {", ".join(head.variants)}')
    if not practice and (notice := registers.stop(head.id, head.revision, now.date())):
        raise CannotOpen(f"{head.id} revision {head.revision} has a stop notice: {notice.because}")
    job = Job(loaded.procedure, registers)
    header = Header(
        serial=" ".join(serial.split()),
        procedure=head.id,
        revision=head.revision,
        procedure_sha256=workspace.pin(loaded.content),
        variant=variant,
        practice=practice,
        program_version=benchcheck.__version__,
        host=platform.node(),
        bench=registers.shop.bench,
        time_zone=registers.shop.time_zone,
        opened=now.isoformat(timespec="seconds"),
    )
    state = beginning(job, header)
    silenced = tuple(each.words for each in loaded.procedure.silence)
    first = stamped(
        (Opened(serial_again=serial_again, silenced=silenced),),
        after=0,
        at=now.isoformat(timespec="milliseconds"),
        by=who,
    )
    record = workspace.create_record(header, first[0].as_table(), loaded.content, who)
    return Sitting(workspace, record, folded(state, first))


def state_of(workspace: Workspace, registers: Registers, record: RecordRead) -> State:
    """The state a record adds up to, by its pinned procedure. Raises CannotOpen, StoreFault, Unreadable."""
    header = record.header
    if header is None:
        raise CannotOpen("the record has no header")
    content = workspace.pinned(header.procedure_sha256)
    procedure = parse_procedure(content, f"sessions/procedures/{header.procedure_sha256}.toml").model
    try:
        events = tuple(from_table(table) for table in record.events)
        later = revisions.texts_met(workspace.sessions, record.events)
        return folded(beginning(Job(procedure, registers, later), header), events)
    except UnknownEvent as unknown:
        raise CannotOpen(f"{unknown}; another program may have written it") from None


def take_up(workspace: Workspace, registers: Registers, path: Path, who: str, now: datetime) -> Sitting:
    """Open a record again and say so in it; an interrupted round starts again.

    Raises CannotOpen, DamagedRecord, Held, NeverBegun, StoreFault, Unreadable.
    """
    record = workspace.open_record(path, who, now.isoformat(timespec="seconds"))
    try:
        state = state_of(workspace, registers, record.record)
        if state.closed is not None:
            raise CannotOpen(f"{path.name}: the work on this pump is over ({state.outcome})")
        sitting = Sitting(workspace, record, state)
        torn = record.set_aside
        left = state.at if state.at is not None else now
        event = TakenUp(
            stopped=state.stopped,
            pause_seconds=max(0, int((now - left).total_seconds())),
            torn_bytes=torn.size if torn is not None else 0,
            torn_file=torn.file if torn is not None else "",
        )
        sitting.carry_out(engine.written(state, (event,), now))
        sitting.look_at_procedure(now)
        return sitting
    except BaseException:
        record.close()
        raise
