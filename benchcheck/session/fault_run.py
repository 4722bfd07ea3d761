"""Each single fault run through the engine: which steps would see it, and whether one does in time.

A fault leaves the record as the careful way has it, for the technician believes all is well, while the
pump on the bench differs. Where the true answer to a later question is another, it is given to the
engine: if that refuses it, or records it as outside its limits, that is a sighting. The way then goes
on as if it had been overlooked, so that all sightings are counted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum

from benchcheck.assembly import faults
from benchcheck.assembly.clocks import clock_rule
from benchcheck.assembly.every_fault import every_fault
from benchcheck.assembly.faults import Fault
from benchcheck.assembly.refusal import Refusal
from benchcheck.session import engine
from benchcheck.session.acts.last_pass import MOVED
from benchcheck.session.careful import careful_answer
from benchcheck.session.events import Answered, Event, Measured, PositionChecked, Told
from benchcheck.session.fault_walk import Moment, Walk
from benchcheck.session.fold import folded
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.rehearsal import OUTSIDE
from benchcheck.session.state import Job, State
from benchcheck.session.true_answers import true_answer

EARLY = timedelta(seconds=1)


class By(StrEnum):
    """What kind of answer shows a fault."""

    LOOK = "one look"
    NUMBER = "a number"
    WITNESS = "a second person"
    PROGRAM = "the program"
    """The guard, a clock or the reckoning, whatever a person sees."""


@dataclass(frozen=True, slots=True)
class Sighting:
    """One question whose true answer shows a fault."""

    place: int
    """Where on the way."""
    step: str
    question: str
    answer: str
    rule: str
    message: str
    by: By


@dataclass(frozen=True)
class Found:
    """What comes of one fault in one variant."""

    fault: Fault
    variant: str | None
    words: str
    sightings: tuple[Sighting, ...]
    hidden: int
    """The last place on the way at which it is not too late."""
    harms: bool

    @property
    def caught_at(self) -> str | None:
        """The first step that sees it in time."""
        return next((each.step for each in self.sightings if each.place <= self.hidden), None)

    @property
    def caught(self) -> bool:
        return self.caught_at is not None

    @property
    def let_through(self) -> bool:
        return self.harms and not self.caught

    @property
    def steps(self) -> tuple[str, ...]:
        """The steps that would see it, in order, each once."""
        return tuple(dict.fromkeys(each.step for each in self.sightings))

    @property
    def thin(self) -> bool:
        """It ends in harm, one step only would see it, and there one person's look alone.

        A fact found outside is no fault of the hand: it is seen where it is looked for, and nowhere else.
        """
        return (
            self.harms
            and len(self.steps) == 1
            and all(each.by is By.LOOK for each in self.sightings)
            and not isinstance(self.fault, faults.FactOutside)
        )


def faults_of(job: Job, walk: Walk) -> tuple[Fault, ...]:
    """Every single fault of a variant."""
    return every_fault(walk.pump, (each.id for each in job.registers.wrenches))


def run_faults(ways: tuple[Walk, ...], all_faults: Iterable[Fault]) -> Iterator[Found | None]:
    """What comes of each fault, in order; None for one that cannot be made on any of the ways."""
    for fault in all_faults:
        way = next((each for each in ways if fault.act in each.first), None)
        yield None if way is None else run(fault, way)


def run(fault: Fault, walk: Walk) -> Found | None:
    """What comes of one fault; None if it cannot be made on this way."""
    match fault:
        case faults.AnotherWrench():
            return _wrench(fault, walk)
        case faults.OutOfOrder():
            return _out_of_order(fault, walk)
        case faults.CutShort() | faults.TooLate():
            return _out_of_time(fault, walk)
        case faults.PositionOutOfTurn() | faults.TorqueReading():
            return _at_one_position(fault, walk)
        case faults.RunningTorque() | faults.TurnReading():
            return _at_its_reading(fault, walk)
    sightings = []
    recorded = true = walk.moments[0].state.assembly
    for moment in walk.moments[walk.begins(fault.act) :]:
        if moment.act is None:
            continue
        if moment.state.assembly is not recorded:
            recorded = moment.state.assembly
            true = fault.true(recorded)
        told = true_answer(fault, moment, moment.act, true)
        if told is not None and told != moment.answer:
            sightings.append(_sighting(moment, told))
    return _found(fault, walk, sightings)


def _found(fault: Fault, walk: Walk, sightings: Iterable[Sighting | None]) -> Found:
    return Found(
        fault,
        walk.variant,
        fault.words(walk.pump),
        tuple(each for each in sightings if each is not None),
        walk.hidden(fault.thing) if fault.thing else len(walk.moments),
        fault.harms(walk.pump),
    )


# ---------------------------------------------------------------------- sightings


def _sighting(moment: Moment, told: str) -> Sighting | None:
    """What the engine makes of an answer; None if it takes it like any other."""
    state, prompt, now = moment.state, moment.prompt, moment.now
    outcome = engine.answer(state, prompt.id, told, now)
    if not isinstance(outcome, Outcome):
        shown = next((event for event in outcome if _is_outside(event)), None)
        if shown is not None:
            rule = OUTSIDE if isinstance(shown, Measured | Told) else "position-moved"
            return _seen(moment, told, Refusal(rule, f"{getattr(shown, 'what', prompt.ask)}: {told}"))
        refused = _later_in_the_act(folded(state, outcome), prompt, now)
        return _seen(moment, told, refused.refusals[0]) if refused is not None else None
    return _seen(moment, told, outcome.refusals[0])


def _is_outside(event: Event) -> bool:
    if isinstance(event, Measured | Told):
        return event.verdict == "outside"
    if isinstance(event, Answered):  # its reading is still to come
        return event.question.startswith("pass ") and event.value == MOVED
    return isinstance(event, PositionChecked) and event.moved


def _later_in_the_act(state: State, first: Prompt, now: datetime) -> Outcome | None:
    """An answer may only tell together with those that follow it in its act."""
    while (prompt := engine.ask(state, now)) is not None and prompt.act == first.act:
        outcome = engine.answer(state, prompt.id, careful_answer(state, prompt, now), now)
        if isinstance(outcome, Outcome):
            return outcome
        state = folded(state, outcome)
    return None


def _seen(moment: Moment, told: str, refusal: Refusal) -> Sighting:
    prompt = moment.prompt
    return Sighting(
        moment.place, prompt.step, prompt.question, told, refusal.rule, refusal.wrong, _by(prompt, told)
    )


def _by(prompt: Prompt, told: str) -> By:
    first = prompt.question.split(" ")[0]
    if first in ("witness", "saw"):
        return By.WITNESS
    if prompt.form is Form.WAIT or first == "wrench":
        return By.PROGRAM
    # A size and a position are read off and typed too, not picked from a list.
    if prompt.form is Form.NUMBER or first == "size" or ":" in told:
        return By.NUMBER
    return By.LOOK


# ---------------------------------------------------------------------- faults of one moment


def _wrench(fault: faults.AnotherWrench, walk: Walk) -> Found | None:
    """A wrench that does not fit is refused where it is chosen; one that fits is no fault."""
    asked = [m for m in walk.moments if m.prompt.question.split(" ")[:2] == ["wrench", fault.thing]]
    sightings = [_sighting(moment, fault.wrench) for moment in asked]
    return _found(fault, walk, sightings) if asked and all(sightings) else None


def _at_one_position(fault: faults.PositionOutOfTurn | faults.TorqueReading, walk: Walk) -> Found | None:
    """At the first position of the round, or where it is due; only a wrench that shows gives a reading."""
    due = [str(fault.due)] if isinstance(fault, faults.PositionOutOfTurn) else []
    begins = ["round", str(fault.round), "position", *due]
    for moment in walk.moments[walk.first[fault.act] :]:
        prompt = moment.prompt
        if prompt.target != fault.thing or prompt.question.split(" ")[: len(begins)] != begins:
            continue
        if isinstance(fault, faults.PositionOutOfTurn):
            told = f"{fault.position}: {moment.answer}"
        elif prompt.form is Form.NUMBER and prompt.figure is not None:
            told = f"{float(prompt.figure.text) * fault.factor:.4g}"
        else:
            return None
        return _found(fault, walk, [_sighting(moment, told)])
    return None


def _at_its_reading(fault: faults.RunningTorque | faults.TurnReading, walk: Walk) -> Found | None:
    wanted = "turn" if isinstance(fault, faults.TurnReading) else "running"
    for moment in walk.moments[walk.first[fault.act] :]:
        prompt = moment.prompt
        if prompt.target != fault.thing or prompt.question.split(" ")[0] != wanted:
            continue
        if isinstance(fault, faults.RunningTorque):
            told = fault.answer
        else:
            told = f"{float(moment.answer) * fault.factor:.4g}"
        return _found(fault, walk, [_sighting(moment, told)])
    return None


def _out_of_time(fault: faults.CutShort | faults.TooLate, walk: Walk) -> Found | None:
    """Asked and answered a moment before the time is over, or after it has run out."""
    for moment in walk.moments[walk.first[fault.act] :]:
        if moment.prompt.act != fault.act:
            continue
        when = _wrong_time(fault, moment)
        prompt = engine.ask(moment.state, when) if when is not None else None
        if prompt is None or when is None:
            continue
        told = moment.answer if prompt.question == moment.prompt.question else ""
        sighting = _sighting(replace(moment, prompt=prompt, now=when), told)
        return _found(fault, walk, [sighting and replace(sighting, by=By.PROGRAM)])
    return None


def _wrong_time(fault: faults.CutShort | faults.TooLate, moment: Moment) -> datetime | None:
    if not fault.clock:
        return moment.prompt.until - EARLY if moment.prompt.until is not None else None
    rule = clock_rule(moment.state.pump, fault.clock)
    running = moment.state.clocks.get(fault.clock)
    if rule is None or running is None:
        return None
    if isinstance(fault, faults.TooLate):
        return running.at + rule.most + EARLY if rule.most is not None else None
    return running.at + rule.least - EARLY if rule.least is not None else None


def _out_of_order(fault: faults.OutOfOrder, walk: Walk) -> Found | None:
    """The first act is put off with a reason, with all between, and the second is tried.

    None refused is none the worse: the two may change places.
    """
    if fault.first not in walk.first:
        return None
    moment = walk.moments[walk.first[fault.act]]
    state, now = moment.state, moment.now
    while (prompt := engine.ask(state, now)) is not None and prompt.act != fault.first:
        if walk.first.get(prompt.act, walk.first[fault.first]) >= walk.first[fault.first]:
            return None
        put_off = engine.leave_out(state, "out of order", now)
        if isinstance(put_off, Outcome):
            return _found(fault, walk, [_refused(walk, prompt, put_off)])
        state = folded(state, put_off)
    while (prompt := engine.ask(state, now)) is not None and prompt.act == fault.first:
        outcome = engine.answer(state, prompt.id, careful_answer(state, prompt, now), now)
        if isinstance(outcome, Outcome):
            return _found(fault, walk, [_refused(walk, prompt, outcome)])
        state = folded(state, outcome)
    return replace(_found(fault, walk, []), harms=False)


def _refused(walk: Walk, prompt: Prompt, outcome: Outcome) -> Sighting:
    refusal = outcome.refusals[0]
    return Sighting(
        walk.first[prompt.act], prompt.step, prompt.question, "", refusal.rule, refusal.wrong, By.PROGRAM
    )
