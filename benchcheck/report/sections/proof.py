"""What the report rests on: the record, its seals, and the procedure that was followed."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report.document import Block, Fields, Paragraph, Points, Section
from benchcheck.report.journal import Journal
from benchcheck.session import events as happened


def section(journal: Journal) -> Section:
    header, proof = journal.state.header, journal.proof
    rows = [
        ("record", proof.file),
        ("events", str(proof.number)),
        ("check", proof.check),
        ("procedure", f"{header.procedure}, revision {journal.revisions}"),
        ("opened", journal.day(header.opened)),
        ("bench", ", ".join(each for each in (header.bench, header.host) if each)),
        ("times", f"as the clock of the bench had them, in {header.time_zone}"),
    ]
    if header.program_version:
        rows.append(("program", f"Benchcheck {header.program_version}"))
    blocks: list[Block] = [
        Paragraph(
            "The check value is the number of an event and the first twelve digits of its seal: the SHA-256 "
            "of every byte of the record above that event's last line. The record is plain text; it can be "
            "read, and its seals can be worked out, without this program."
        ),
        Fields(tuple(rows)),
        Paragraph("The seal of that event in full, and the SHA-256 of the procedure file that was followed:"),
        Fields(
            (
                ("seal", proof.seal or "none"),
                ("sha256", header.procedure_sha256 or "none"),
                *((f"from {each.number}", each.procedure_sha256) for each in journal.of(happened.MovedOn)),
            )
        ),
    ]
    if silenced := tuple(_silenced(journal)):
        blocks += [Paragraph("What the check finds in the procedure, and the procedure lets stand:")]
        blocks += [Points(silenced)]
    if proof.proved_by:
        blocks += [Paragraph("Proved:"), Points(proof.proved_by)]
    if proof.not_proved:
        blocks += [Paragraph("Not proved:"), Points(proof.not_proved)]
    return Section("What this rests on", tuple(blocks))


def _silenced(journal: Journal) -> Iterator[str]:
    """Findings that were let stand, each with its reason and the event from which on it was so."""
    events: tuple[happened.Opened | happened.MovedOn, ...]
    events = (*journal.of(happened.Opened), *journal.of(happened.MovedOn))
    for event in events:
        yield from (f"{each} (event {event.number})" for each in event.silenced)
