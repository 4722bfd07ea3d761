"""A trace inside the application: what turned out wrong, asked field by field; then the pumps it touches.

The same search, in the same words, as the command of that name makes. The list can be written as a table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from benchcheck.mechanics.units import QuantityError
from benchcheck.report.charts import VALUE_ROWS
from benchcheck.report.plain_text import as_chunks
from benchcheck.report.trace_words import session_words
from benchcheck.report.traces import document_of_one, document_of_search, misspelt, verdict
from benchcheck.report.traces_as_data import as_csv
from benchcheck.report.words import capital
from benchcheck.screens.behind import Behind, Stop, Tell
from benchcheck.screens.inquiry import Flow, Item, waited_for
from benchcheck.screens.records.taking_in import TakingIn
from benchcheck.screens.text_pages import text_pages
from benchcheck.session.state import Registers
from benchcheck.session.trace.search import Touched, Trace
from benchcheck.session.trace.wanted import Kind, Wanted, parse_day, parse_error
from benchcheck.store.index import Index
from benchcheck.store.searching import find
from benchcheck.store.workspace import Workspace

BACK = "back to the first list, nothing is written"
_KNOWN = 5
"""Names from the records that are shown as examples."""


@dataclass(frozen=True)
class _Field:
    """One thing to type: its short label, the question, and an example where the records give none."""

    name: str
    ask: str
    example: str = ""
    needed: bool = False
    check: Callable[[str], object] = str
    """Raises QuantityError for what makes no sense."""


_KINDS: tuple[tuple[Kind, str, tuple[_Field, ...]], ...] = (
    (
        "instrument",
        "a wrench or gauge: what it tightened or showed, and what that really was",
        (
            _Field("instrument", "Which wrench or gauge? As it is engraved on it.", needed=True),
            _Field(
                "error",
                "By how much did it show too much, or too little? Empty: not known.",
                "+9 %, -0.5 psi",
                check=parse_error,
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
    _Field("since", "From which day of use on? Empty: from the first one.", "2026-11-01", check=parse_day),
    _Field("until", "Up to which day? Empty: up to today.", "2026-11-24", check=parse_day),
)


def trace(workspace: Workspace, registers: Registers, clock: Callable[[], datetime]) -> Flow[None]:
    """Ask what turned out wrong, search, and show what is touched."""
    if not (yield from taken_in("trace", workspace)):
        return
    chosen = yield Item(
        "trace",
        "What turned out wrong?",
        "asks what it needs",
        choices=tuple(words for _, words, _ in _KINDS),
        escape="back to the first list",
    )
    kind, _, fields = _KINDS[chosen.index]
    with Index(workspace) as index:
        known = index.names(kind)[:_KNOWN]
    wanted = yield from _asked(kind, (*fields, *_DAYS), known)
    found = yield from waited_for(
        "trace",
        "The records that may name it are read, event by event.",
        searched(workspace, registers, wanted, clock()),
        "stops it, and shows what was found so far",
    )
    yield from _shown(workspace, found)


def taken_in(verb: str, workspace: Workspace) -> Flow[bool]:
    """Bring the index up to date before anything is asked of it; False where that was stopped."""
    refreshed = yield from waited_for(
        verb,
        "New and changed records are taken in first.",
        TakingIn(workspace, events=False),
        "stops it, and leads back to the first list",
    )
    return not refreshed.stopped


def searched(workspace: Workspace, registers: Registers, wanted: Wanted, now: datetime) -> Behind[Trace]:
    """The search, behind the screen."""

    def search(tell: Tell, stop: Stop) -> Trace:
        # An index belongs to the thread that opens it.
        with Index(workspace) as index:
            return find(workspace, registers, wanted, now, index, tell, stop)

    return Behind(search)


def _asked(kind: Kind, fields: tuple[_Field, ...], known: list[str]) -> Flow[Wanted]:
    """Each field in turn."""
    typed: dict[str, str] = {}
    for place, field in enumerate(fields):
        enter = "searches the records" if place == len(fields) - 1 else "goes on"
        example = ", ".join(known) if field.needed else field.example
        typed[field.name] = yield from _typed(field, example, enter)
    return _wanted(kind, typed[fields[0].name], typed)


def _typed(field: _Field, example: str, enter: str) -> Flow[str]:
    """One field; what makes no sense is said, and asked again with what was typed."""
    text = said = ""
    while True:
        reply = yield Item(
            "trace",
            field.ask,
            enter,
            field=field.name,
            may_be_empty=not field.needed,
            lines=(("such as", example),) if example else (),
            escape=BACK,
            text=text,
            said=said,
        )
        text = reply.text.strip()
        try:
            if text:
                field.check(text)
            return text
        except QuantityError as refusal:
            said = str(refusal)


def _wanted(kind: Kind, name: str, typed: dict[str, str]) -> Wanted:
    since, until, error = typed["since"], typed["until"], typed.get("error")
    return Wanted(
        kind,
        name,
        step=typed.get("step", ""),
        since=parse_day(since) if since else None,
        until=parse_day(until) if until else None,
        error=parse_error(error) if error else None,
    )


def _shown(workspace: Workspace, found: Trace) -> Flow[None]:
    """The pumps, the worst first, each opened for what was found; and the list as a table, until Esc."""
    ways = ("how it was searched, and what was not", "write the list as a table, for a spreadsheet")
    told, at = "", -1
    while True:
        chosen = yield Item(
            "touched",
            " ".join((f"{capital(verdict(found))}.", *((misspelt(found),) if found.misspelt else ()))),
            "shows it",
            choices=(*ways, *map(_pump_words, found.touched)),
            escape="back to the first list",
            told=told,
            at=at,
        )
        told, at = "", chosen.index
        if chosen.index == 1:
            name = f"trace-{found.wanted.kind}-{found.wanted.name}-{found.on:%Y-%m-%d}"
            path = workspace.print_text(name, as_csv(found), ".csv")
            told = f"Written: {path.relative_to(workspace.folder)}."
            continue
        if chosen.index == 0:
            pieces = list(as_chunks(document_of_search(found), chart_rows=VALUE_ROWS))
        else:
            document = document_of_one(found, found.touched[chosen.index - len(ways)])
            # How it was searched is said once, not with every pump; of a part, with each.
            pieces = list(as_chunks(document, chart_rows=VALUE_ROWS))[0 if found.not_reached else 1 :]
        yield from text_pages("touched", pieces, "to the list")


def _pump_words(touched: Touched) -> str:
    past = touched.past
    return f"{past.header.serial}   {past.model}   {session_words(past)}: {touched.standing}"
