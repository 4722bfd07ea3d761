"""The handover card: for whoever goes on with a pump that another left."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from benchcheck.report import standing_work
from benchcheck.report.document import Block, Document, Fields, Paragraph, Points, Section
from benchcheck.report.journal import Journal, journal_of, proof_of
from benchcheck.report.plain_text import as_text
from benchcheck.report.sections import people
from benchcheck.report.words import count, listed, step_words
from benchcheck.session import events as happened
from benchcheck.session.engine import applies, is_done, next_act, steps_done
from benchcheck.session.going_back import BACK
from benchcheck.session.state import Registers
from benchcheck.store.recorded import read_recorded, state_of_recorded

_LINE = "______________________"
"""To sign on, where the card is paper."""
_FOUND = (
    happened.TakenUp,
    happened.SignedOff,
    happened.ClockWentBack,
    happened.ProcedureDiffers,
    happened.WorkHalted,
    happened.HaltLifted,
)
"""What the program notes by itself, in the name of who worked last."""


def card(journal: Journal, now: datetime) -> Document:
    """The card as a document, to be printed like any other."""
    header = journal.state.header
    sentence = f"Left by {journal.state.worker or 'nobody signed on'}"
    if (left := _left_at(journal)) is not None:
        sentence += f" on {journal.day(left)}"
    sections = (
        Section("Where it stands", _where(journal)),
        Section("Next", _next(journal)),
        _listed("Must not be touched", standing_work.not_to_be_touched(journal, now)),
        _listed("Half done", standing_work.half_done(journal)),
        _listed("Tools inside", standing_work.tools_inside(journal)),
        _listed("Cautions", tuple(_cautions(journal))),
        _listed("Not decided", tuple(_open(journal))),
        _listed("Done", tuple(_done(journal))),
        Section("Signed", (Fields(_signatures(journal)),)),
    )
    return Document(
        title=f"Handover: pump {header.serial}",
        verdict="GO ON HERE" if journal.state.closed is None else "NOTHING LEFT TO DO",
        sentence=f"{sentence}.",
        sections=sections,
        pump=f"Pump {header.serial}, {journal.model}",
        issue=f"{header.procedure} revision {journal.revisions}",
        check=f"check {journal.proof.check}",
    )


def as_printed(path: Path, registers: Registers, now: datetime) -> str:
    """The card of a record as it stands on the disk.

    Raises StoreFault and what reading a record raises.
    """
    recorded = read_recorded(path)
    state, events = state_of_recorded(recorded, registers)
    proof = proof_of(recorded.path.name, recorded.record, recorded.verdict)
    return as_text((card(journal_of(state, events, proof), now),))


def _left_at(journal: Journal) -> datetime | None:
    """When the one who leaves did the last thing; what was found since, on coming back, is nobody's deed."""
    worker = journal.state.worker
    for event in reversed(journal.events):
        if event.by == worker and not isinstance(event, _FOUND):
            return journal.time(event.at)
    return journal.state.at


def _signatures(journal: Journal) -> tuple[tuple[str, str], ...]:
    """Who leaves and who comes, as far as they have signed; else a line to sign on."""
    left = next(iter(reversed(tuple(journal.of(happened.CardLeft)))), None)
    if left is None or journal.state.card is None:
        return (("leaves", _LINE), ("comes", _LINE))
    words = f': "{left.words}"' if left.words else ""
    signed = f"signed {journal.day(left.at)}" if left.signed else "not signed"
    return (("leaves", f"{left.name}, {signed}{words}"), ("comes", _LINE))


def _listed(title: str, sentences: tuple[str, ...]) -> Section:
    return Section(title, (Points(sentences),) if sentences else (Paragraph("Nothing."),))


def _where(journal: Journal) -> tuple[Block, ...]:
    state = journal.state
    rows = [
        ("pump", f"{state.header.serial}, {journal.model}"),
        ("procedure", f"{state.header.procedure}, revision {journal.revisions}: {journal.head.title}"),
        ("steps", f"{steps_done(state)} of {len(state.pump.steps)} done"),
        ("who", listed(people.workers(journal))),
        ("bench", state.header.bench),
        ("record", journal.proof.file),
    ]
    lies = standing_work.how_it_lies(journal)
    return (Fields(tuple(rows)), *((Points(lies),) if lies else ()))


def _next(journal: Journal) -> tuple[Block, ...]:
    act = next_act(journal.state)
    if act is None or journal.state.closed is not None:
        return (Paragraph("Nothing more is asked."),)
    if act.step.id == BACK:
        return (Paragraph(f"Going back: {journal.state.pump.the(act.target)} comes off."),)
    steps = journal.state.pump.steps
    number = next(place for place, step in enumerate(steps, 1) if step.id == act.step.id)
    rows = [("step", f"{number} of {len(steps)}, {act.step.id}: {step_words(journal.state.pump, act.step)}")]
    if act.target in journal.state.pump.parts or act.target in journal.state.pump.groups:
        rows.append(("what", f"{act.verb.value}: {journal.state.pump.called(act.target)}"))
    elif act.verb.value == "ask":
        rows.append(("what", act.question.what))
    if act.step.text:
        rows.append(("how", act.step.text))
    if journal.state.read_again:
        rows.append(("first", f"read again: {listed(journal.state.read_again)}"))
    return (Fields(tuple(rows)),)


def _cautions(journal: Journal) -> Iterator[str]:
    """Those of the step in hand and of the whole procedure, worst first."""
    act = next_act(journal.state)
    order = ("DANGER", "WARNING", "CAUTION", "NOTICE")
    due = [
        caution
        for caution in journal.state.job.procedure.caution
        if not caution.before or (act is not None and act.step.id in caution.before)
    ]
    for caution in sorted(due, key=lambda each: order.index(each.signal.value)):
        yield f"{caution.signal.value}: {caution.text}"


def _open(journal: Journal) -> Iterator[str]:
    for each in journal.state.open_deviations:
        yield f"Deviation {each.deviation}: {each.wrong} ({each.by}, because {each.reason})."


def _done(journal: Journal) -> Iterator[str]:
    """The steps that stand, by phase."""
    state = journal.state
    steps = [step for step in state.pump.steps if applies(state, step)]
    undone = {act.step.id for act in state.acts if not is_done(state, act)}
    for phase in dict.fromkeys(step.phase for step in steps):
        mine = [step for step in steps if step.phase is phase]
        done = [step for step in mine if step.id not in undone]
        if len(done) == len(mine):
            yield f"{phase.value.capitalize()}: all done."
        elif done:
            names = listed(step.id for step in done)
            yield f"{phase.value.capitalize()}: {len(done)} of {count(len(mine), 'step')}: {names}."
