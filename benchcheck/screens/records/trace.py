"""A trace inside the application: what turned out wrong, asked field by field; then the pumps it touches.

The same search, in the same words, as the command of that name makes. The list can be written as a table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from benchcheck.mechanics.units import QuantityError
from benchcheck.report.plain_text import as_chunks
from benchcheck.report.traces import document_of
from benchcheck.report.traces_as_data import as_csv
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.text_pages import text_pages
from benchcheck.session.state import Registers
from benchcheck.session.trace.search import Trace
from benchcheck.session.trace.wanted import Kind, Wanted, parse_day, parse_error
from benchcheck.store.index import Index
from benchcheck.store.searching import find
from benchcheck.store.workspace import Workspace

BACK = "back to the first list, nothing is written"
_KNOWN = 5
"""Names from the records that are shown as examples."""
_CHART_ROWS = 5


@dataclass(frozen=True)
class _Field:
    """One thing to type: its short label, the question, and an example where the records give none."""

    name: str
    ask: str
    example: str = ""
    needed: bool = False


_KINDS: tuple[tuple[Kind, str, tuple[_Field, ...]], ...] = (
    (
        "wrench",
        "a wrench: what it tightened, and what that really was",
        (
            _Field("wrench", "Which wrench? As it is engraved on it.", needed=True),
            _Field(
                "error", "By how much did it show too much or too little? Empty: not known.", "+9 %, -4 %"
            ),
        ),
    ),
    ("lot", "a lot of rings, parts, thread-locker", (_Field("lot", "Which lot?", needed=True),)),
    (
        "procedure",
        "a procedure, one revision of it, or one step",
        (
            _Field("procedure", "Which procedure? With or without its revision.", needed=True),
            _Field("step", "Only one of its steps? Empty: all of it.", "cartridge-in"),
        ),
    ),
    (
        "person",
        "a person: what was done, and with which right",
        (_Field("name", "Which person?", needed=True),),
    ),
    ("serial", "one pump: all its sessions", (_Field("serial", "Which serial number?", needed=True),)),
)
_DAYS = (
    _Field("since", "From which day of use on? Empty: from the first one.", "2026-11-01"),
    _Field("until", "Up to which day? Empty: up to today.", "2026-11-24"),
)


def trace(workspace: Workspace, registers: Registers, clock: Callable[[], datetime]) -> Flow[None]:
    """Ask what turned out wrong, search, and show what is touched."""
    with Index(workspace) as index:
        index.refresh(events=False)
        chosen = yield Item(
            "trace",
            "What turned out wrong?",
            "asks what it needs",
            choices=tuple(words for _, words, _ in _KINDS),
            escape="back to the first list",
        )
        kind, _, fields = _KINDS[chosen.index]
        wanted = yield from _asked(kind, (*fields, *_DAYS), index.names(kind)[:_KNOWN])
        found = find(workspace, registers, wanted, clock(), index)
    pieces = as_chunks(document_of(found), chart_rows=_CHART_ROWS)
    yield from text_pages("trace", pieces, "asks whether the list is to be kept", BACK)
    yield from _kept(workspace, found)


def _asked(kind: Kind, fields: tuple[_Field, ...], known: list[str]) -> Flow[Wanted]:
    """Each field in turn; what makes no sense is said, and asked again with what was typed."""
    typed: dict[str, str] = {}
    said = ""
    while True:
        for place, field in enumerate(fields):
            example = ", ".join(known) if field.needed else field.example
            reply = yield Item(
                "trace",
                field.ask,
                "searches the records" if place == len(fields) - 1 else "goes on",
                field=field.name,
                may_be_empty=not field.needed,
                lines=(("such as", example),) if example else (),
                escape=BACK,
                text=typed.get(field.name, ""),
                said=said,
            )
            typed[field.name] = reply.text.strip()
            said = ""
        try:
            return _wanted(kind, typed[fields[0].name], typed)
        except QuantityError as refusal:
            said = str(refusal)


def _wanted(kind: Kind, name: str, typed: dict[str, str]) -> Wanted:
    """Raises QuantityError."""
    since, until, error = typed["since"], typed["until"], typed.get("error")
    return Wanted(
        kind,
        name,
        step=typed.get("step", ""),
        since=parse_day(since) if since else None,
        until=parse_day(until) if until else None,
        error=parse_error(error) if error else None,
    )


def _kept(workspace: Workspace, found: Trace) -> Flow[None]:
    chosen = yield Item(
        "trace",
        "Is the list to be kept?",
        "does this",
        choices=("go back to the first list", "write it as a table, for a spreadsheet"),
        escape="back to the first list",
    )
    if chosen.index != 1:
        return
    name = f"trace-{found.wanted.kind}-{found.wanted.name}-{found.on:%Y-%m-%d}"
    path = workspace.print_text(name, as_csv(found), ".csv")
    yield Item("written", "", "goes back to the first list", lines=(("table", str(path)),))
