"""Which way things face: in the pump as it was built, and as it was found when it came in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from benchcheck.assembly.facing import Misfit, misfits, points_to
from benchcheck.assembly.planned import as_found
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase
from benchcheck.report import words
from benchcheck.report.document import Block, Column, Fields, Paragraph, Points, Section, Table
from benchcheck.report.journal import Journal
from benchcheck.session import events as happened


def as_built(journal: Journal) -> Section | None:
    """What each end and mark points to, worked out from how the parts were fitted."""
    pump, now = journal.state.pump, journal.state.assembly
    if not pump.faces and not pump.lines:
        return None
    wrong = misfits(now)
    rows = []
    for must in pump.faces:
        of = must.of or pump.main
        actual = points_to(now, must.part, must.end, of) if must.part in now.seated else None
        rows.append(_row(pump.called(must.part), must.end, actual, pump.value(must.toward) or ""))
    for line in pump.lines:
        broken = next((each for each in wrong if each.must is line), None)
        of = line.of or pump.main
        toward = pump.value(line.toward) or ""
        in_place = line.part in now.seated and now.in_one_work(line.part, of)
        actual = (broken.is_toward if broken else toward) if in_place else None
        rows.append(_row(pump.called(line.part), line.mark, actual, toward))
    columns = (Column("part"), Column("its"), Column("points to"), Column("due"))
    return Section(
        "Facing, as built", (Table("Ends and marks in the pump as it stands", columns, tuple(rows)),)
    )


def _row(part: str, end: str, actual: str | None, due: str) -> tuple[str, ...]:
    if actual is None:
        return part, end, "not in yet", due
    return part, end, actual if actual == due else f"{words.OUTSIDE} {actual}", due


def wrong_as_built(journal: Journal) -> tuple[str, ...]:
    return tuple(_sentence(journal, each, "points") for each in misfits(journal.state.assembly))


def found(journal: Journal) -> Section | None:
    """The pump as it came in: the facing of each part as it came out, and what was kept of it."""
    rows = tuple(_found_rows(journal))
    kept = tuple((name, value) for name, value in journal.state.kept.items() if "/" not in name)
    if not rows and not kept:
        return None
    blocks: list[Block] = []
    wrong = wrong_as_found(journal)
    if rows:
        different = sum(seen.startswith(words.OUTSIDE) for _, seen, _, _ in rows)
        blocks.append(
            Paragraph(
                f"{words.count(len(rows), 'part')} looked at before they moved; "
                + (f"{different} lay otherwise than planned." if different else "each lay as it should.")
            )
        )
        if wrong:
            blocks.append(Points(wrong))
        columns = (Column("part"), Column("end seen"), Column("should be"), Column("event", right=True))
        blocks.append(Table("Facing as it came out", columns, rows))
    if kept:
        blocks.append(Fields(kept, "Kept as found"))
    return Section("As found", tuple(blocks))


def _found_events(journal: Journal) -> Iterator[happened.PartRemoved]:
    for event in journal.of(happened.PartRemoved):
        act = journal.act(event.act)
        if event.seen and act is not None and act.phase is Phase.TEARDOWN:
            yield event


def _found_rows(journal: Journal) -> Iterator[tuple[str, str, str, str]]:
    pump = journal.state.pump
    for event in _found_events(journal):
        due = pump.planned_seen.get(event.part, "")
        seen = event.seen if event.seen == due else f"{words.OUTSIDE} {event.seen}"
        yield pump.called(event.part), seen, due, str(event.number)


def wrong_as_found(journal: Journal) -> tuple[str, ...]:
    """What was not as the finished pump needs it, composed from how each part lay."""
    pump = journal.state.pump
    now: Assembly = as_found(pump)
    for event in _found_events(journal):
        seat = now.seated.get(event.part)
        if seat is not None and event.seen != pump.planned_seen.get(event.part):
            now = replace(now, seated={**now.seated, event.part: replace(seat, turn=-seat.turn)})
    return tuple(_sentence(journal, each, "pointed") for each in misfits(now))


def _sentence(journal: Journal, misfit: Misfit, verb: str) -> str:
    must = misfit.must
    what = getattr(must, "end", "") or getattr(must, "mark", "")
    the = journal.state.pump.the(must.part)
    return (
        f"{words.capital(the)}: its {what} {verb} to the {misfit.is_toward}; "
        f"{misfit.toward} is due, because {must.because}."
    )
