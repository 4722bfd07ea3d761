"""The report on one session, as a document: the verdict first, what it rests on last."""

from __future__ import annotations

from benchcheck.report.document import Document, Section
from benchcheck.report.journal import Journal
from benchcheck.report.sections import (
    clocks,
    departures,
    facing,
    grooves,
    people,
    proof,
    readings,
    tightening,
    undone,
    verdict,
)


def document_of(journal: Journal) -> Document:
    """Everything the report says of a session."""
    header, stands = journal.state.header, verdict.standing(journal)
    sections: tuple[Section | None, ...] = (
        verdict.section(journal),
        departures.section(journal),
        tightening.section(journal),
        grooves.section(journal),
        facing.as_built(journal),
        readings.section(journal),
        undone.section(journal),
        people.section(journal),
        clocks.section(journal),
        facing.found(journal),
        proof.section(journal),
    )
    return Document(
        title=f"Pump {header.serial}",
        verdict=stands.word,
        sentence=stands.sentence,
        sections=tuple(each for each in sections if each is not None),
        pump=f"Pump {header.serial}, {journal.model}",
        issue=f"{header.procedure} revision {journal.revisions}",
        check=f"check {journal.proof.check}",
    )
