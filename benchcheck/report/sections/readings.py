"""Readings and looks: every fact that was asked and still stands, with its limits."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Act, Verb
from benchcheck.procedure.model import Ask
from benchcheck.report import words
from benchcheck.report.document import Column, Section, Table
from benchcheck.report.journal import Journal
from benchcheck.session import events as happened

Fact = happened.Measured | happened.Told


def section(journal: Journal) -> Section | None:
    rows = tuple(
        (
            event.act.partition("/")[0],
            _what(journal, event),
            _value(event),
            limits(journal, event),
            str(event.number),
        )
        for event in standing(journal)
    )
    if not rows:
        return None
    columns = (
        Column("step"),
        Column("what"),
        Column("answer"),
        Column("limits"),
        Column("event", right=True),
    )
    return Section(
        "Readings and looks", (Table("Facts in the order in which they were asked", columns, rows),)
    )


def standing(journal: Journal) -> Iterator[Fact]:
    """The readings and looks that count, in order."""
    for event in journal.events:
        if (
            isinstance(event, happened.Measured | happened.Told)
            and journal.stands(event)
            and not is_outside(event)
        ):
            yield event


def is_outside(event: Fact) -> bool:
    """Whether the answer stood outside its limits, and so did not end its act."""
    return event.verdict == "outside"


def limits(journal: Journal, event: Fact) -> str:
    """The limits of a fact, in words; nothing where none were set."""
    act = journal.act(event.act)
    if act is None or act.verb is not Verb.ASK:
        return ""
    if event.value in act.question.good:
        return "as due"
    if event.verdict in act.question.proves:
        low, high = act.question.proves[event.verdict]
        return f"{low} to {high}, as {event.verdict}"
    return _limits(act.question)


def _limits(question: Ask) -> str:
    if question.good:
        return ", ".join(question.good)
    held = f" for {question.hold}" if question.hold is not None else ""
    if question.min is not None and question.max is not None:
        return f"{question.min} to {question.max}{held}"
    if question.max is not None:
        return f"at most {question.max}{held}"
    if question.min is not None:
        return f"at least {question.min}{held}"
    return f"as found: {question.as_}" if question.as_ else ""


def _what(journal: Journal, event: Fact) -> str:
    act = journal.act(event.act)
    if act is not None and act.verb is Verb.LOOK:
        target = act.target
        if target in journal.state.pump.grooves:
            return f"what lies in {target}"
        return f"end of {journal.state.pump.the(target)} that faced the technician"
    if act is not None and act.verb is Verb.ASK and (event.verdict == "taken over" or act.question.kind):
        return act.question.what
    place = ""
    if isinstance(event, happened.Measured) and act is not None and _places(act) > 1:
        place = f", place {event.place}"
    return f"{event.what}{place}"


def _places(act: Act) -> int:
    return act.question.places if act.verb is Verb.ASK else 1


def _value(event: Fact) -> str:
    if isinstance(event, happened.Measured):
        said = f"{words.number(event.value)} {event.unit}"
        said += f", {event.instrument}" if event.instrument else ""
        said = f"{words.UNGUARDED} {said}" if event.marked else said
    else:
        said = event.value.removeprefix(f"{event.what}: ")
    if event.verdict == "taken over":
        return f"{words.TAKEN_OVER} {said.rpartition(': ')[2]}, taken over"
    return said
