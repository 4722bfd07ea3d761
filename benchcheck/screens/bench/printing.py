"""What can be printed from the bench, and the printing: a text file, and the shop's own command.

What the papers say is worked out in `report`, from the record as it stands on the disk.
"""

from __future__ import annotations

import shlex
import subprocess
from collections.abc import Callable
from dataclasses import dataclass

from benchcheck.report import handover, label, tags
from benchcheck.report.journal import Journal, journal_of, proof_of
from benchcheck.report.plain_text import as_text
from benchcheck.report.session_document import document_of
from benchcheck.screens.bench.work import Work
from benchcheck.store.disk import StoreFault
from benchcheck.store.recorded import read_recorded, state_of_recorded

_COMMAND_SECONDS = 20


@dataclass(frozen=True)
class Paper:
    """A paper: what it is called in the list, the name of its file, and its text."""

    words: str
    name: str
    text: Callable[[], str]


def journal(work: Work) -> Journal:
    """The record as it stands on the disk, ready to be reported.

    Raises StoreFault and what reading a record raises.
    """
    recorded = read_recorded(work.sitting.path)
    state, events = state_of_recorded(recorded, work.state.job.registers)
    return journal_of(state, events, proof_of(recorded.path.name, recorded.record, recorded.verdict))


def papers(work: Work) -> tuple[Paper, ...]:
    """The papers that there are now, those that matter most first."""
    found = [
        Paper("the label for the pump", "label", lambda: label.as_text(journal(work))),
        Paper("the report", "report", lambda: as_text((document_of(journal(work)),))),
    ]
    if work.state.closed is None:
        found[:0] = tag_papers(work)
        found.append(handover_paper(work))
    return tuple(found)


def handover_paper(work: Work) -> Paper:
    """The card for whoever goes on."""
    return Paper(
        "the handover card for whoever goes on",
        "handover",
        lambda: as_text((handover.card(journal(work), work.clock()),)),
    )


def tag_papers(work: Work) -> list[Paper]:
    """The tags that are due when the pump is left now."""
    now = work.clock()
    found = []
    if tags.curing(journal(work), now):
        found.append(Paper("the tag: curing, do not run", "curing", lambda: tags.curing(journal(work), now)))
    if tags.incomplete(journal(work)):
        found.append(
            Paper("the tag: incomplete, do not run", "incomplete", lambda: tags.incomplete(journal(work)))
        )
    return found


def print_paper(work: Work, paper: Paper) -> str:
    """Write a paper and hand it to the shop's print command; says where it is and whether that worked."""
    try:
        path = work.sitting.workspace.print_text(f"{work.state.header.serial}-{paper.name}", paper.text())
    except StoreFault as fault:
        return f"{paper.words[:1].upper()}{paper.words[1:]} was not printed: {fault}"
    command = work.state.job.registers.shop.print_command
    place = f"{path.parent.name}/{path.name}"
    if not command:
        return f"{place} is written; the shop has no print command."
    try:
        done = subprocess.run(
            [*shlex.split(command), str(path)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=_COMMAND_SECONDS,
            check=False,
        )
    except (OSError, ValueError, subprocess.TimeoutExpired):
        return f"{place} is written; the print command did not work."
    return (
        f"{place} is printed." if done.returncode == 0 else f"{place} is written; the print command failed."
    )
