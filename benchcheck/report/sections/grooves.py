"""Grooves and parts: which ring lies where, out of which lot; which parts are new; what was counted."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report import words
from benchcheck.report.document import Block, Column, Points, Section, Table
from benchcheck.report.journal import Journal
from benchcheck.session import events as happened


def section(journal: Journal) -> Section:
    blocks: list[Block] = [
        Table(
            "What lies in each groove",
            (Column("groove"), Column("where"), Column("ring"), Column("lot"), Column("event", right=True)),
            tuple(_row(journal, groove) for groove in journal.state.pump.grooves),
        )
    ]
    if parts := tuple(_parts(journal)):
        blocks.append(Points(parts))
    if counts := _counts(journal):
        blocks.append(counts)
    return Section("Grooves, parts and lots", tuple(blocks))


def fitted(journal: Journal, groove: str) -> happened.RingFitted | None:
    """The event that fitted the ring that lies in a groove now."""
    if not journal.state.assembly.living_rings(groove):
        return None
    found = [
        each for each in journal.of(happened.RingFitted) if each.groove == groove and journal.stands(each)
    ]
    return found[-1] if found else None


def wrong_rings(journal: Journal) -> Iterator[str]:
    """Sentences on the grooves that hold something else than the procedure says."""
    pump, now = journal.state.pump, journal.state.assembly
    for name, groove in pump.grooves.items():
        due = (pump.value(groove.takes) or "", groove.material)
        rings = now.living_rings(name)
        if len(rings) > 1:
            yield f"{name} holds {len(rings)} rings."
        for ring in rings:
            if (ring.size, ring.material) != due:
                yield f"{name} holds {ring.size} {ring.material}; {' '.join(due)} is due."


def _row(journal: Journal, name: str) -> tuple[str, ...]:
    pump, now = journal.state.pump, journal.state.assembly
    groove = pump.grooves[name]
    due = f"{pump.value(groove.takes)} {groove.material}"
    where = f"{groove.where}, {pump.called(groove.in_)}"
    rings = now.living_rings(name)
    if not rings:
        return name, where, f"{words.OUTSIDE} EMPTY, {due} is due", "", ""
    said = " and ".join(f"{ring.size} {ring.material}" for ring in rings)
    if said != due:
        said = f"{words.OUTSIDE} {said}, {due} is due"
    if not now.closed(name):
        said += ", not closed yet"
    event = fitted(journal, name)
    if event is None:
        return name, where, f"{said}, as it came in", "", ""
    return name, where, said, event.lot, str(event.number)


def _parts(journal: Journal) -> Iterator[str]:
    pump, now = journal.state.pump, journal.state.assembly
    single = [part for part in pump.parts.values() if part.single_use is not None and part.into is not None]
    new = [part.called for part in single if part.id in now.seated and now.seated[part.id].instance > 0]
    kept = [part.called for part in single if part.id in now.seated and now.seated[part.id].instance == 0]
    if new:
        yield f"New single-use parts: {words.listed(new)}."
    if kept:
        yield f"Single-use parts that stayed or were fitted again: {words.listed(kept)}."
    for each in journal.of(happened.PartReplaced):
        yield f"{words.capital(pump.the(each.part))} was replaced: {each.reason} (event {each.number})."
    fresh = {
        part.called
        for part in pump.parts.values()
        if part.single_use is None and part.id in now.seated and now.seated[part.id].instance > 0
    }
    if fresh:
        yield f"Other new parts: {words.listed(sorted(fresh))}."
    lots: dict[str, list[str]] = {}
    for installed in journal.of(happened.PartInstalled):
        if installed.lot and journal.stands(installed):
            lots.setdefault(installed.lot, []).append(pump.called(installed.part))
    for lot, parts in lots.items():
        yield f"Lot {lot}: {words.listed(parts)}."
    if journal.state.lots:
        yield f"Lots in this record: {words.listed(journal.state.lots)}."
    for part in pump.needed():
        if part not in now.seated:
            yield f"{words.capital(pump.the(part))} is not in."


def _counts(journal: Journal) -> Table | None:
    last: dict[tuple[str, str], happened.Counted] = {}
    for each in journal.of(happened.Counted):
        if each.number not in journal.corrected:
            last[each.act.partition("/")[0], each.what] = each
    if not last:
        return None
    rows = tuple(
        (
            each.what,
            f"{words.OUTSIDE} {each.count}" if each.count != each.expected else str(each.count),
            str(each.expected),
            step,
            str(each.number),
        )
        for (step, _), each in last.items()
    )
    columns = (
        Column("what"),
        Column("counted", right=True),
        Column("due", right=True),
        Column("step"),
        Column("event", right=True),
    )
    return Table("Counts of the kit, the scrap, the mat and the tools", columns, rows)
