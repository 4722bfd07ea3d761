"""Who worked, who looked at what, who signed."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report.document import Cell, Column, Section, Table
from benchcheck.report.journal import Journal
from benchcheck.session import events as happened


def section(journal: Journal) -> Section | None:
    rows = tuple(_rows(journal))
    if not rows:
        return None
    columns = (
        Column("name"),
        Column("did"),
        Column("at"),
        Column("event", right=True),
    )
    return Section("People, witnesses and signatures", (Table("In the order of the record", columns, rows),))


def workers(journal: Journal) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.name for each in journal.of(happened.SignedOn)))


def witnesses(journal: Journal) -> tuple[str, ...]:
    named = [each.name for each in journal.of(happened.Witnessed) if journal.stands(each)]
    named += [
        each.witness for each in journal.of(happened.PartInstalled) if each.witness and journal.stands(each)
    ]
    return tuple(dict.fromkeys(named))


def _rows(journal: Journal) -> Iterator[tuple[Cell, ...]]:
    pump = journal.state.pump
    for event in journal.events:
        name = did = ""
        match event:
            case happened.SignedOn():
                name, did = event.name, "signed on"
            case happened.CardLeft(signed=True):
                name, did = event.name, "signed the handover card, and left"
            case happened.TakenOver():
                name, did = event.name, f"signed the handover card, and took over from {event.left_by}"
            case happened.Witnessed():
                saw = "; ".join(_saw(journal, event.act, each) for each in event.saw)
                name, did = (
                    event.name,
                    f"looked at {journal.step_words(event.act)}" + (f": {saw}" if saw else ""),
                )
            case happened.PartInstalled(witness=witness) if witness:
                saw = f", {event.seen} toward them" if event.seen else ""
                name, did = witness, f"saw {pump.the(event.part)} go in{saw}"
            case happened.Signed():
                name, did = event.second, f"signed {journal.step_words(event.act)}"
            case happened.Disposed():
                name, did = event.name, f"decided on deviation {event.deviation}: {event.disposition}"
            case happened.PositionDisposed():
                name = event.name
                did = f"decided on {pump.called(event.group)}, position {event.position}: {event.disposition}"
            case happened.Closed():
                name, did = event.by, f"closed the record: {event.outcome}"
            case happened.Judged():
                name, did = event.name, f"judged: {event.outcome}, because {event.reason}"
        if name:
            void = isinstance(event, happened.ActEvent) and not journal.stands(event)
            yield name, f"{did} (void)" if void else did, journal.when(event.at), str(event.number)


def _saw(journal: Journal, act: str, said: str) -> str:
    """What a witness said, with the question instead of its number."""
    target, _, value = said.partition(": ")
    step = next((each.step for each in journal.state.acts if each.id == act), None)
    if step is not None and target.isdigit() and int(target) < len(step.ask):
        return f"{step.ask[int(target)].what}: {value}"
    return f"{journal.state.pump.called(target)}: {value}"
