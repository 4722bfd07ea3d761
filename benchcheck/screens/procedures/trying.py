"""Trying a procedure: which way, and what a practice session on it needs to begin."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.procedures.shelf import Book
from benchcheck.screens.procedures.trials import Faults, Rehearsals, Trial
from benchcheck.session.state import Job
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Unreadable, load_procedure, load_registers
from benchcheck.store.lock import Held
from benchcheck.store.sitting import CannotOpen, Sitting, start
from benchcheck.store.workspace import Workspace

SERIAL = "TRIAL"
"""Stands for the serial number of a pump that is not there."""
_BACK = "back to the procedure, nothing is written"


def trying(workspace: Workspace, book: Book, now: datetime) -> Flow[Trial | Sitting | None]:
    """Ask what is to be tried; ends with what is to be run or worked on, None where that cannot be."""
    try:
        loaded = load_procedure(book.path)
        registers = load_registers(workspace)
        files = workspace.rehearsal_paths(loaded.procedure.procedure.id)
    except (Unreadable, StoreFault) as why:
        yield Item(
            "not yet",
            "What does not read cannot be tried.",
            "goes back to the procedure",
            lines=_wrong(why),
            escape=_BACK,
        )
        return None
    head = loaded.procedure.procedure
    kept = f"and {len(files)} file{'s' * (len(files) != 1)} of departures"
    chosen = yield Item(
        "try it",
        f"{head.id.upper()}, revision {head.revision}, {head.status}. On no real pump:",
        "does this",
        choices=(
            f"rehearse it: the careful technician, {kept}",
            "make every single fault, and see which step catches it",
            "practise with it at the bench; the record says so, and is never a release",
        ),
        escape=_BACK,
    )
    if chosen.index == 0:
        return Rehearsals(Job(loaded.procedure, registers), files)
    if chosen.index == 1:
        return Faults(Job(loaded.procedure, registers))
    variant = ""
    if head.variants:
        taken = yield Item(
            "practice", "As which variant?", "begins, for practice", choices=head.variants, escape=_BACK
        )
        variant = head.variants[taken.index]
    try:
        return start(
            workspace,
            registers,
            loaded,
            serial=SERIAL,
            serial_again=SERIAL,
            variant=variant,
            practice=True,
            who="",
            now=now,
        )
    except (CannotOpen, Held, StoreFault) as why:
        yield Item("not yet", str(why), "goes back to the procedure", escape=_BACK)
        return None


def _wrong(why: Unreadable | StoreFault) -> tuple[tuple[str, str], ...]:
    """What is to be mended first, in labelled lines."""
    if isinstance(why, StoreFault):
        return (("wrong", str(why)),)
    return tuple(
        line
        for each in why.findings
        for line in (
            ("wrong", f"{Path(each.place.file).name}, line {each.place.line}: {each.message}"),
            ("write", each.remedy),
        )
    )
