"""Clocks: what had to wait and did; and where the work itself was interrupted."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from benchcheck.assembly.clocks import clock_rule, clock_rules
from benchcheck.report import words
from benchcheck.report.document import Block, Cell, Column, Points, Section, Table, When
from benchcheck.report.journal import Journal
from benchcheck.session import events as happened
from benchcheck.session.clocks import ends
from benchcheck.session.fold import HOLD_STARTED


def section(journal: Journal) -> Section | None:
    blocks: list[Block] = []
    if rows := (*_waited(journal), *_held(journal)):
        columns = (
            Column("what"),
            Column("began"),
            Column("due over"),
            Column("went on"),
            Column("passed", right=True),
        )
        blocks.append(Table("Times that had to pass", columns, rows))
    if notes := (*still_running(journal), *interruptions(journal)):
        blocks.append(Points(notes))
    return Section("Clocks and interruptions", tuple(blocks)) if blocks else None


def _waited(journal: Journal) -> Iterator[tuple[Cell, ...]]:
    for event in journal.of(happened.WaitOver):
        rule = clock_rule(journal.state.pump, event.clock)
        called = rule.called if rule is not None else event.clock
        passed = journal.time(event.at) - journal.time(event.started)
        void = "" if journal.stands(event) else " (void)"
        yield (
            f"{called}{void}",
            journal.when(event.started),
            journal.when(event.ended),
            journal.when(event.at),
            words.duration(passed),
        )


def _held(journal: Journal) -> Iterator[tuple[Cell, ...]]:
    """Values that had to stand for a time."""
    started: dict[str, happened.Answered] = {}
    for event in journal.events:
        match event:
            case happened.Answered(question=question) if question == HOLD_STARTED:
                started[event.act] = event
            case happened.Measured() if event.act in started:
                begun = started.pop(event.act)
                act = journal.act(event.act)
                hold = act.question.hold if act is not None else None
                from_time = journal.time(begun.at)
                due = from_time + timedelta(seconds=hold.si if hold is not None else 0)
                yield (
                    f"{event.what}: {begun.value} at its start, "
                    f"{words.number(event.value)} {event.unit} at its end",
                    journal.when(begun.at),
                    When(due.strftime("%-d %b %H:%M"), due.isoformat(timespec="seconds")),
                    journal.when(event.at),
                    words.duration(journal.time(event.at) - from_time),
                )


def still_running(journal: Journal) -> Iterator[str]:
    """Clocks that were not over at the last event."""
    state = journal.state
    for rule in clock_rules(state.pump):
        end = ends(state, rule)
        if end is not None and state.at is not None and end > state.at:
            yield f"{rule.called}: not over before {journal.until(end)}."


def interruptions(journal: Journal) -> Iterator[str]:
    """Where the work stood still, changed hands, or the clock did what clocks should not."""
    signed_on = 0
    for event in journal.events:
        at = f"Event {event.number}, {journal.when(event.at)}"
        match event:
            case happened.Stopped():
                yield f"{at}: {event.by or 'nobody signed on'} left the pump as it was" + _because(
                    event.reason
                )
            case happened.TakenUp():
                how = "" if event.stopped else ", without having been left in an orderly way"
                pause = words.duration(timedelta(seconds=event.pause_seconds))
                yield f"{at}: taken up again after {pause}{how}."
                if event.torn_bytes:
                    yield (
                        f"Event {event.number}: the last write had been torn off; its "
                        f"{words.count(event.torn_bytes, 'byte')} had not been confirmed and are kept as "
                        f"{event.torn_file}."
                    )
            case happened.ClockWentBack():
                span = words.duration(timedelta(seconds=event.seconds))
                yield f"{at}: the clock of the bench had gone back by {span}."
            case happened.GrooveFound():
                found = words.found_words(event.found)
                yield f"{at}: {event.groove} was found {found}, not as the record had it."
            case happened.SignedOn():
                signed_on += 1
                if signed_on > 1:
                    yield f"{at}: {event.name} signed on."


def _because(reason: str) -> str:
    return f": {reason}." if reason else "."
