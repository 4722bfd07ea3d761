"""A record read to be looked at, wherever it lies: in a workspace's `sessions/`, or in a copy of it.

Nothing is locked, changed or remembered. What damage there is comes in the verdict; the events are those
before it. What a record means to a person is for the reports.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from benchcheck.procedure.model import Procedure
from benchcheck.procedure.registers import PeopleRegister, Shop
from benchcheck.session.events import Event, UnknownEvent, from_table
from benchcheck.session.fold import beginning, folded
from benchcheck.session.record import Header
from benchcheck.session.state import Job, Registers, State
from benchcheck.session.verification import OutsideSeal
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.library import Unreadable, load_registers, parse_procedure
from benchcheck.store.revisions import texts_met
from benchcheck.store.sitting import CannotOpen
from benchcheck.store.weighed import Weighed, pinned_path, weigh
from benchcheck.store.weighed import records_in as records_in
from benchcheck.store.workspace import Workspace


@dataclass(frozen=True)
class Recorded(Weighed):
    """A record, weighed, to be understood."""

    @property
    def header(self) -> Header:
        """Raises CannotOpen where no good seal covers it."""
        if self.record.header is None:
            raise CannotOpen(f"{self.path} holds no event that agrees with its seal")
        return self.record.header


def read_recorded(path: Path, outside: Sequence[OutsideSeal] = ()) -> Recorded:
    """Read a record and weigh it, against the seals that its folder remembers too.

    Raises StoreFault, NewerFormat.
    """
    weighed = weigh(path, outside)
    return Recorded(weighed.path, weighed.record, weighed.verdict)


def registers_of(recorded: Recorded, workspace: Path | None = None) -> Registers | None:
    """The registers of a workspace, else of the one that the record lies in; None where they do not read."""
    try:
        return load_registers(Workspace(workspace or recorded.path.resolve().parent.parent))
    except Unreadable:
        return None


def state_of_recorded(recorded: Recorded, registers: Registers | None) -> tuple[State, tuple[Event, ...]]:
    """What the good events of a record add up to, by the procedure that is kept beside it.

    Without registers nothing is known of wrenches and people but what the events say.

    Raises CannotOpen, StoreFault, Unreadable.
    """
    header = recorded.header
    pinned = pinned_path(recorded.path, header)
    if pinned is None:
        raise CannotOpen(f"{recorded.path.name} does not say by which procedure the work was done")
    content = read_file(pinned)
    if hashlib.sha256(content).hexdigest() != header.procedure_sha256:
        raise StoreFault(f"{pinned} is not the procedure that was pinned: its SHA-256 is another one.")
    procedure = _procedure(content, str(pinned))
    try:
        events = tuple(from_table(table) for table in recorded.record.events)
        later = texts_met(recorded.path.parent, recorded.record.events)
        job = Job(procedure, registers or _no_registers(header), later)
        return folded(beginning(job, header), events), events
    except UnknownEvent as unknown:
        raise CannotOpen(f"{recorded.path.name}: {unknown}; another program may have written it") from None


@lru_cache(maxsize=8)
def _procedure(content: bytes, name: str) -> Procedure:
    """Read once for all records that were made by it, one after the other. Raises Unreadable."""
    return parse_procedure(content, name).model


def _no_registers(header: Header) -> Registers:
    """What stands in for the registers: the bench and the time zone that the record itself names."""
    shop = Shop.model_construct(name=header.bench, bench=header.bench, time_zone=header.time_zone)
    return Registers(shop, (), (), PeopleRegister(format=1))
