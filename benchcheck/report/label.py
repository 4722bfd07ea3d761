"""The label that goes on the pump: six lines, forty columns.

It says whether the pump may run, which it is, by what it was worked on, when, by whom, and the check value by
which the record can be found and proved. All else stands in the report.
"""

from __future__ import annotations

from benchcheck.procedure.characters import clean
from benchcheck.report.ascii_text import in_ascii
from benchcheck.report.columns import width
from benchcheck.report.journal import Journal
from benchcheck.report.sections import people
from benchcheck.report.sections.verdict import limits, standing
from benchcheck.report.words import count
from benchcheck.session.commands import UNDER_CONCESSION

COLUMNS = 40
LINES = 6


def label(journal: Journal, *, plain: bool = False) -> tuple[str, ...]:
    """The six lines; `plain` keeps to ASCII characters."""
    lines = (
        _outcome(journal),
        f"{journal.state.header.serial}, {journal.model}",
        f"{journal.state.header.procedure} revision {journal.revision}",
        _when(journal),
        _who(journal),
        f"check {journal.proof.check}",
    )
    return tuple(
        _shortened(in_ascii(text) if plain else text, kept=place in (1, LINES - 1))
        for place, text in enumerate(map(_one_line, lines))
    )


def as_text(journal: Journal, *, plain: bool = False) -> str:
    """The label as it is printed."""
    return "".join(f"{line}\n" for line in label(journal, plain=plain))


def _outcome(journal: Journal) -> str:
    word = standing(journal).word
    deviations = len(journal.state.deviations)
    said = f"{word}, {count(deviations, 'deviation')}" if deviations else word
    return f"{said}, limited" if limits(journal) and UNDER_CONCESSION.upper() != word else said


def _when(journal: Journal) -> str:
    state = journal.state
    if days := [each.expires for each in limits(journal) if each.expires]:
        return f"expires {min(days)}"
    ended = state.judged or state.closed
    at = ended.at if ended is not None else (journal.events[-1].at if journal.events else state.header.opened)
    return journal.time(at).strftime("%-d %B %Y, %H:%M")


def _who(journal: Journal) -> str:
    state = journal.state
    names = [*people.workers(journal)]
    if state.closed is not None and state.closed.second:
        names.append(state.closed.second)
    if state.judged is not None:
        names.append(state.judged.name)
    return ", ".join(dict.fromkeys(names)) or "nobody signed on"


def _one_line(text: str) -> str:
    return " ".join(clean(text).split())


def _shortened(text: str, *, kept: bool) -> str:
    """The text in forty columns; a serial number and a check value are never cut."""
    if kept or width(text) <= COLUMNS:
        return text
    while width(text) > COLUMNS - 4:
        text = text[:-1]
    return f"{text.rstrip(' ,')} ..."
