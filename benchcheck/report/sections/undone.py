"""What was done and did not stay: facts that became void, what was done again, going back, corrections."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report import words
from benchcheck.report.document import Block, Column, Points, Section, Table
from benchcheck.report.journal import Journal
from benchcheck.report.sections import tightening
from benchcheck.report.sections.readings import is_outside, limits
from benchcheck.session import events as happened


def section(journal: Journal) -> Section | None:
    blocks: list[Block] = []
    if sentences := (*_went_back(journal), *_corrections(journal), *_asked_again(journal)):
        blocks.append(Points(sentences))
    if journal.voidings:
        columns = (
            Column("what was void"),
            Column("event", right=True),
            Column("undone by"),
            Column("done again"),
        )
        blocks.append(Table("Facts that did not stay", columns, tuple(_rows(journal))))
    blocks += tightening.undone(journal)
    return Section("Voided and redone", tuple(blocks)) if blocks else None


def _went_back(journal: Journal) -> Iterator[str]:
    pump = journal.state.pump
    for each in journal.of(happened.WentBack):
        targets = words.listed(pump.the(target) for target in each.targets)
        off = words.listed(
            dict.fromkeys(
                f"ring of {thing}" if thing in pump.grooves else pump.called(thing) for thing in each.off
            )
        )
        yield f"Event {each.number}, {each.by}: back to {targets}, because {each.reason}. To come off: {off}."


def _corrections(journal: Journal) -> Iterator[str]:
    numbered = {each.number: each for each in journal.events}
    for each in journal.of(happened.Corrected):
        old = numbered.get(each.event)
        was = words.event_words(journal.state.pump, old) if old is not None else each.was
        yield f"Event {each.number}, {each.by}: corrects event {each.event} ({was}), because {each.reason}."


def _asked_again(journal: Journal) -> Iterator[str]:
    """Answers outside their limits: what was read, before whatever became of it."""
    for each in outside(journal):
        asked = limits(journal, each)
        yield (
            f"Event {each.number}, {each.by}: {words.event_words(journal.state.pump, each)}, "
            f"outside its limits{f' ({asked})' if asked else ''}; {_after(journal, each)}."
        )


def outside(journal: Journal) -> Iterator[happened.Measured | happened.Told]:
    """Answers that stood outside their limits when they were given."""
    for each in journal.events:
        if isinstance(each, happened.Measured | happened.Told) and is_outside(each):
            yield each


def _after(journal: Journal, event: happened.ActEvent) -> str:
    for each in journal.events[event.number :]:
        match each:
            case happened.Told(act=event.act, verdict="taken over"):
                return f"taken over at event {each.number}"
            case happened.PartReplaced(act=event.act):
                return f"the part was replaced at event {each.number}"
            case happened.WentBack():
                return f"gone back for it at event {each.number}"
            case happened.Measured(act=event.act) | happened.Told(act=event.act):
                return f"then, at event {each.number}: {words.event_words(journal.state.pump, each)}"
            case happened.LeftOut(act=event.act):
                return f"left out at event {each.number}"
    return "nothing was decided on it"


def _rows(journal: Journal) -> Iterator[tuple[str, ...]]:
    pump = journal.state.pump
    numbered = {each.number: each for each in journal.events}
    for each in journal.voidings:
        was, by = numbered.get(each.was), numbered.get(each.by)
        step = each.act.partition("/")[0]
        yield (
            f"{words.event_words(pump, was) if was is not None else journal.thing(each.act)}, {step}",
            str(each.was),
            f"{each.by}, {words.event_words(pump, by)}" if by is not None else str(each.by),
            str(each.again) if each.again else f"{words.OUTSIDE} no",
        )
