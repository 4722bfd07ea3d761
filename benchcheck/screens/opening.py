"""Opening a session: which procedure, the serial number twice, the variant, practice or not."""

from __future__ import annotations

from datetime import datetime

from benchcheck.screens.inquiry import Flow, Item
from benchcheck.session.arrival import same_serial
from benchcheck.session.state import Registers
from benchcheck.store.library import Loaded, Unreadable, load_procedure
from benchcheck.store.lock import Held
from benchcheck.store.sitting import CannotOpen, Sitting, start
from benchcheck.store.workspace import Workspace

_REAL, _PRACTICE = "a pump that is to be used", "practice: on no real pump, never released"
_BACK = "back to the open pumps, nothing is written"


def opening(workspace: Workspace, registers: Registers, now: datetime) -> Flow[Sitting | None]:
    """Ask all that a record needs to begin, and open it; None where that cannot be.

    Raises StoreFault.
    """
    loaded, unreadable = _procedures(workspace)
    if not loaded:
        yield Item(
            "not yet",
            "No procedure here reads well.",
            "goes back to the open pumps",
            lines=tuple(("wrong", text) for text in unreadable),
        )
        return None
    chosen = yield Item(
        "start on",
        "By which procedure?",
        "takes it",
        choices=tuple(_in_words(each) for each in loaded),
        lines=tuple(("left out", text.splitlines()[0]) for text in unreadable),
        escape=_BACK,
    )
    procedure = loaded[chosen.index]
    head = procedure.procedure.procedure
    practice = head.practice_only is not None
    if practice:
        yield Item(
            "practice",
            f"{head.id} revision {head.revision} is {head.practice_only}: it serves for practice only.",
            "goes on, for practice",
            escape=_BACK,
        )
    else:
        kind = yield Item(
            "start on", "What is on the bench?", "goes on with", choices=(_REAL, _PRACTICE), escape=_BACK
        )
        practice = kind.index == 1
    serial, again = yield from _serial_twice(practice=practice)
    variant = ""
    if head.variants:
        stamped = yield Item(
            "which pump",
            "Which variant, as it is stamped? A measurement proves it later.",
            "takes it for",
            choices=head.variants,
            lines=(("serial", serial),),
            escape=_BACK,
        )
        variant = head.variants[stamped.index]
    try:
        return start(
            workspace,
            registers,
            procedure,
            serial=serial,
            serial_again=again,
            variant=variant,
            practice=practice,
            who="",
            now=now,
        )
    except (CannotOpen, Held, ValueError) as why:
        yield Item("not yet", str(why), "goes back to the open pumps", escape=_BACK)
        return None


def _serial_twice(*, practice: bool) -> Flow[tuple[str, str]]:
    """The serial number, read in two places, until both readings are one."""
    message = ""
    lines = (("practice", "any number will do, such as P-1"),) if practice else ()
    while True:
        first = yield Item(
            "which pump",
            "The serial number: read it, or scan it, on the plate.",
            "goes on to the second reading",
            field="serial",
            most_cells=60,
            beside=("Nothing is written before the serial is read twice.",),
            lines=lines,
            said=message,
            escape=_BACK,
        )
        second = yield Item(
            "which pump",
            "The serial number again: read it on the body, not here.",
            "compares it with the first reading",
            field="again",
            most_cells=60,
            beside=("Nothing is written before the serial is read twice.",),
            lines=lines,
            escape=_BACK,
        )
        if same_serial(first.text, second.text):
            return first.text, second.text
        message = f'The two readings differ: "{first.text}" and "{second.text}". Read both again.'


def _procedures(workspace: Workspace) -> tuple[list[Loaded], list[str]]:
    """The procedures that read well, released ones first, and what is said of the others."""
    loaded: list[Loaded] = []
    unreadable: list[str] = []
    for path in workspace.procedure_paths():
        try:
            loaded.append(load_procedure(path))
        except Unreadable as why:
            unreadable.append(f"{path.name}: {why}")
    loaded.sort(key=lambda each: each.procedure.procedure.status != "released")
    return [each for each in loaded if each.procedure.procedure.status != "withdrawn"], unreadable


def _in_words(loaded: Loaded) -> str:
    head = loaded.procedure.procedure
    return f"{head.id.upper()}, revision {head.revision}, {head.status}: {head.title}"
