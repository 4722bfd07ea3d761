"""Procedures, registers and rehearsals of a workspace, read from disk into models, or what says why not."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from benchcheck.procedure.characters import clean
from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read, read_model
from benchcheck.procedure.references import references
from benchcheck.procedure.registers import InstrumentRegister, PeopleRegister, ShopRegister
from benchcheck.procedure.source import read
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import nearest
from benchcheck.session.state import Job, Registers
from benchcheck.store.disk import StoreFault, read_file
from benchcheck.store.workspace import Workspace

if TYPE_CHECKING:  # a rehearsal loads the whole engine
    from benchcheck.session.rehearsal import RehearsalFile


@dataclass(frozen=True)
class Loaded:
    """A procedure that reads well, with the bytes it came from."""

    path: Path
    content: bytes
    read: Read[Procedure]

    @property
    def procedure(self) -> Procedure:
        return self.read.model


class Unreadable(Exception):
    """A file does not read well; the findings say where and why."""

    def __init__(self, findings: list[Finding]) -> None:
        super().__init__(clean("\n".join(finding.as_text() for finding in findings)))
        self.findings = findings


class NotARehearsal(Exception):
    """What was given as answers is none for this procedure; one sentence."""


def parse_procedure(content: bytes, name: str) -> Read[Procedure]:
    """A procedure out of its bytes. Raises Unreadable with every fault of reading and of reference."""
    source = read(content, name)
    if isinstance(source, list):
        raise Unreadable(source)
    model = read_model(source, Procedure)
    if isinstance(model, list):
        raise Unreadable(model)
    faults = [each for each in references(model) if each.severity is Severity.ERROR]
    if faults:
        raise Unreadable(faults)
    return model


def load_procedure(path: Path) -> Loaded:
    """Raises Unreadable and StoreFault."""
    content = read_file(path)
    return Loaded(path, content, parse_procedure(content, str(path)))


def load_rehearsal(path: Path, job: Job) -> Read[RehearsalFile]:
    """A file of departures from the procedure of a job. Raises Unreadable, StoreFault, NotARehearsal."""
    from benchcheck.session.rehearsal import RehearsalFile

    source = read(read_file(path), str(path))
    if isinstance(source, list):
        raise Unreadable(source)
    model = read_model(source, RehearsalFile)
    if isinstance(model, list):
        raise Unreadable(model)
    head, wanted = model.model.rehearsal, job.procedure.procedure
    if head.procedure != wanted.id:
        raise NotARehearsal(f"{path} is a rehearsal of {head.procedure}, not of {wanted.id}.")
    if head.variant is not None and head.variant not in wanted.variants:
        raise NotARehearsal(f"{path} is for the variant {head.variant}, which {wanted.id} does not have.")
    steps = [step.id for step in job.procedure.step]
    if head.until is not None and head.until not in steps:
        like = nearest(head.until, steps)
        remedy = f"Did you mean {like}?" if like else "Write the id of a step, or leave the key out."
        place = model.place(head, "until")
        message = f"There is no step {head.until} in {wanted.id} revision {wanted.revision}."
        raise Unreadable([Finding("no-such-step", Severity.ERROR, place, message, remedy)])
    return model


def _register(path: Path, model: type[Table]) -> Table:
    try:
        content = read_file(path)
    except StoreFault as fault:
        place = Place(str(path), 1, 1)
        raise Unreadable(
            [
                Finding(
                    "register-missing",
                    Severity.ERROR,
                    place,
                    str(fault),
                    f"write {path.name}; the manual shows how",
                )
            ]
        ) from None
    source = read(content, str(path))
    if isinstance(source, list):
        raise Unreadable(source)
    found = read_model(source, model)
    if isinstance(found, list):
        raise Unreadable(found)
    return found.model


def load_people(folder: Path) -> PeopleRegister:
    """The people of a shop, out of its `procedures/`. Raises Unreadable."""
    people = _register(folder / "people.toml", PeopleRegister)
    assert isinstance(people, PeopleRegister)
    return people


def load_registers(workspace: Workspace) -> Registers:
    """Shop, instruments and people. Raises Unreadable."""
    folder = workspace.procedures
    shop = _register(folder / "shop.toml", ShopRegister)
    instruments = _register(folder / "instruments.toml", InstrumentRegister)
    people = load_people(folder)
    assert isinstance(shop, ShopRegister)
    assert isinstance(instruments, InstrumentRegister)
    return Registers(
        shop.shop, instruments.wrenches(), instruments.gauges(), people, shop.stop, instruments.lines()
    )
