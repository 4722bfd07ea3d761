"""What is told, in words: prompts, refusals, what a record was found to hold, how it ended. Lines, no more.

The order is for someone who listens: where we are, what can hurt, what to do; then the question, its limits
and its answers last, so that they stand together just above the answer.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.clocks import clock_rule
from benchcheck.assembly.planned import rounds_of
from benchcheck.lines.talk import kept
from benchcheck.session import events as happened
from benchcheck.session import revisions
from benchcheck.session.clocks import running
from benchcheck.session.engine import CLOCK_SLACK
from benchcheck.session.events import ActEvent, Event, from_table
from benchcheck.session.fold import beginning, folded
from benchcheck.session.going_back import Way
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, RingPicture
from benchcheck.session.record import check_value
from benchcheck.session.state import State, local, local_end
from benchcheck.store.sitting import Sitting


@dataclass(frozen=True, slots=True)
class Told:
    """One prompt in lines, and what of it need not be said again."""

    where: str
    lies: tuple[str, ...]
    around: tuple[str, ...]
    question: tuple[str, ...]

    def after(self, before: Told | None) -> tuple[str, ...]:
        """What is new to someone who heard the prompt before this one; the question is always said.

        A new step says all that belongs to it again, its cautions first, but for how the works lie.
        """
        if before is None:
            return (self.where, *self.lies, *self.around, *self.question)
        lies = (line for line in self.lies if line not in before.lies)
        if self.where != before.where:
            return (self.where, *lies, *self.around, *self.question)
        return (*lies, *(line for line in self.around if line not in before.around), *self.question)


def prompt_told(state: State, prompt: Prompt) -> Told:
    around: list[str] = []
    around += (f"{caution.signal.value}: {caution.text}" for caution in prompt.cautions)
    around += (f"  {line}" for line in prompt.do)
    if isinstance(prompt.picture, RingPicture):
        around += (f"  {line}" for line in _positions(prompt.picture))
    around += (f"  ({note})" for note in prompt.notes)
    if prompt.figure is not None and prompt.figure.why:
        around.append(f"  ({prompt.figure.why})")
    if prompt.standing is not None:
        around += (f"  {line}" for line in prompt.standing.as_text().splitlines())
    unit = f"\u00a0[{prompt.unit}]" if prompt.unit else ""
    question = [f"{prompt.verb}: {prompt.ask}{unit}"]
    if prompt.figure is not None:
        question.append(kept(f"  {prompt.figure.text} {prompt.figure.unit}") + f": {prompt.figure.how}")
    if prompt.good:
        question.append(f"  good: {prompt.good}")
    question += (f"  {number}  {_choice(state, each)}" for number, each in enumerate(prompt.choices, 1))
    if prompt.until is not None and prompt.form is not Form.WAIT:  # which has the time in its question
        question.append(f"  not before {local_end(state, prompt.until)}")
    if prompt.form in (Form.CONFIRM, Form.WAIT):
        question.append(f"  Enter {prompt.enter}.")
    return Told(_where(state, prompt), tuple(_lies(state)), tuple(around), tuple(question))


def _where(state: State, prompt: Prompt) -> str:
    steps = state.pump.steps
    place = next((place for place, step in enumerate(steps, 1) if step.id == prompt.step), None)
    if place is not None:
        name = steps[place - 1].name
        return f"Step {place} of {len(steps)}, {prompt.step}" + (f": {name}" if name else "")
    return "Going back" if prompt.step else f"Pump {state.header.serial}, before the work"


def _positions(ring: RingPicture) -> Iterator[str]:
    """Where the positions of a group are, for someone who sees no picture of them."""
    if ring.count > 1 and ring.datum:
        first = "stands at" if ring.at_datum else "is the first after"
        seen = f" as seen from the {ring.seen_from}" if ring.seen_from else ""
        counted = f"1 {first} {ring.datum}" if ring.circle else f"counted from {ring.datum}"
        shape = f" in {ring.rows} rows of {ring.columns}" if ring.rows else ""
        yield f"{ring.count} positions{shape}, numbered clockwise{seen}; {counted}."
    if ring.count > 1 and not ring.check_pass:
        yield f"Order: {', '.join(map(str, ring.order))}."
    if len({item for _, item in ring.screws}) > 1:
        yield f"At position {ring.now}: {dict(ring.screws).get(ring.now, 'no screw is named')}."


def _lies(state: State) -> Iterator[str]:
    for work, end in state.assembly.poses.items():
        if end:
            the = state.pump.the(work)
            yield f"{the[:1].upper()}{the[1:]} lies with its {end} up."


def _choice(state: State, choice: Choice) -> str:
    """What one sees or what it means; an instrument also by what is engraved on it."""
    instrument = state.job.registers.instrument(choice.value)
    return f"{choice.value}: {choice.words}" if instrument is not None else choice.words


def answer_meant(prompt: Prompt, text: str) -> str:
    """A choice may be typed in the words that were told for it."""
    said = " ".join(text.split()).casefold()
    return next((each.value for each in prompt.choices if each.words.casefold() == said), text)


def refusal_told(outcome: Outcome) -> Iterator[str]:
    yield "NOT YET"
    for refusal in outcome.refusals:
        yield from (f"  {line}" for line in refusal.as_text().splitlines())
    if outcome.mend:
        yield "  ?mend takes the way that mends it"
    if outcome.passable and outcome.events:
        yield "  ?over WHY takes it over, with a reason; another person decides on it"


# ---------------------------------------------------------------------- taking up, standing, ending


def taken_up_told(sitting: Sitting) -> Iterator[str]:
    """What the record was found to hold, how it was left, and what starts again."""
    state, record = sitting.state, sitting.record.record
    left = folded(beginning(state.job, state.header), map(from_table, record.events))
    last = f"the last on {local(state, left.at)}" if left.at is not None else "none yet"
    who = f", by {left.technician}" if left.technician else ""
    yield f"{len(record.events)} events were kept, {last}{who}. All agree with their seals."
    if left.stopped:
        yield "It was left in an orderly way."
    else:
        yield "It was not left in an orderly way: the program or the power was cut off."
        yield "What was confirmed is here."
    torn = sitting.record.set_aside
    if torn is not None:
        yield f"The last write was torn. Its {torn.size} bytes were never confirmed."
        yield f"They are kept as {torn.file}."
    if left.at is not None and state.at is not None and state.at < left.at - CLOCK_SLACK:
        yield clock_went_back_told(left.at - state.at)
    yield from _restarted(left, state)
    for rule, end in running(state, state.at) if state.at is not None else ():
        yield f"Still running: {rule.called}, until {local_end(state, end)}."


def _restarted(left: State, state: State) -> Iterator[str]:
    for group, hold in left.assembly.held.items():
        if state.assembly.held[group] == hold:
            continue
        called, rounds = state.pump.the(group), rounds_of(state.pump, group)
        if hold.rounds < rounds:
            count = state.pump.groups[group].count
            yield (
                f"Round {hold.rounds + 1} of {rounds} of {called} starts again: "
                f"{len(hold.done)} of {count} positions were done."
            )
        else:
            yield f"The check pass of {called} starts again: {len(hold.checked)} positions were done."


def clock_went_back_told(by: timedelta) -> str:
    minutes = f"{by.total_seconds() / 60:.0f}"
    return f"The clock of this machine shows {minutes} minutes less than before. The record says so."


def standing_told(state: State, now: datetime) -> Iterator[str]:
    """Where the work stands, for `?where`."""
    head = state.job.procedure.procedure
    variant = f", {state.variant}" if state.variant else ""
    yield f"Pump {state.header.serial}: {head.title} ({head.id}, revision {head.revision}{variant})"
    yield f"{state.number} events; {state.technician or 'nobody'} is signed on."
    yield from _lies(state)
    if state.reaching:
        yield f"Going back to {', '.join(map(state.pump.the, state.reaching))}."
    inside = [
        part.called
        for part in state.pump.parts.values()
        if part.temporary and part.id in state.assembly.seated
    ]
    if inside:
        yield f"Tools still inside: {', '.join(inside)}."
    for rule, end in running(state, now):
        yield f"Running: {rule.called}, until {local_end(state, end)}."
    yield from departures_told(state)


def card_told(sitting: Sitting, now: datetime) -> str:
    """The handover card of the record as it stands on the disk. Raises StoreFault."""
    from benchcheck.report import handover

    return handover.as_printed(sitting.path, sitting.state.job.registers, now)


def other_text_told(state: State, offer: happened.ProcedureDiffers) -> Iterator[str]:
    """What differs in another text of the procedure, and what moving on to it would bring about."""
    yield f"Revision {offer.revision} is in the workspace. What differs:"
    yield from (f"  {each}" for each in offer.differences)
    yield from (f"{each[:1].upper()}{each[1:]}." for each in revisions.consequences(state))


def way_told(state: State, way: Way) -> Iterator[str]:
    """What a way back takes off, and what that costs."""
    pump = state.pump
    yield "In this order:"
    for place, move in enumerate(way.moves, 1):
        verb = _MOVES.get(move.verb, move.verb.value)
        yield f"  {place}  {verb} {pump.in_hand(move.thing)}"
    yield f"Is scrap then: {', '.join(pump.in_hand(each) for each in way.dies) or 'nothing'}."
    if way.restarts:
        yield f"Begins again with its first round: {', '.join(map(pump.the, way.restarts))}."
    steps = list(dict.fromkeys(name.partition("/")[0] for name in way.again))
    if steps:
        yield f"Is asked again: {', '.join(steps)}."
    for clock in way.clocks:
        rule = clock_rule(pump, clock)
        yield f"Its time begins anew: {rule.called if rule is not None else clock}."
    missing = ", ".join(pump.called(each.piece) for each in way.short)
    yield f"The kit is then short of: {missing}." if missing else "The kit holds all that is needed again."


_MOVES = {Verb.INSTALL: "put on", Verb.REMOVE: "take off", Verb.LOOSEN: "loosen", Verb.LIFT: "take out"}


def departures_told(state: State) -> Iterator[str]:
    if not state.open_deviations:
        yield "No departure is waiting for a decision."
    for each in state.open_deviations:
        yield f"Departure {each.deviation}, not decided: {each.wrong} ({each.by}: {each.reason})"
        if each.again:
            yield f"  It repeats {repeated(each)}."


def repeated(deviation: happened.Deviation) -> str:
    """The earlier departures that one repeats."""
    return f"departure {', '.join(map(str, deviation.again))}"


def end_told(sitting: Sitting) -> Iterator[str]:
    state = sitting.state
    closed = state.closed
    assert closed is not None
    yield f"Pump {state.header.serial}: {closed.outcome.upper()}."
    yield f"{state.number} events, {closed.readings} readings."
    yield f"{closed.deviations} departures, {closed.voided} facts voided."
    yield f"People: {', '.join(closed.people) or 'none'}. Wrenches: {', '.join(closed.wrenches) or 'none'}."
    if closed.gauges:
        yield f"Gauges: {', '.join(closed.gauges)}."
    yield f"Record: {sitting.path.name}"
    value = check_value(sitting.record.chain.last_seal)
    yield kept(f"Check value, for the label: {state.number}: {value}")
    yield from sitting.signed or ("No signature was made: nobody who closed it has a registered key.",)


# ---------------------------------------------------------------------- events


def event_told(event: Event) -> str:
    """One answer of the record, in a line."""
    act = f", {event.act}" if isinstance(event, ActEvent) and event.act else ""
    return f"{event.number}  {_said(event)}{act}"


def _said(event: Event) -> str:
    match event:
        case happened.Measured():
            return f"{event.what}: {event.value:g} {event.unit}"
        case happened.Told():
            return f"{event.what}: {event.value}"
        case happened.Answered():
            return f"{event.question}: {event.value}"
        case happened.Counted():
            return f"{event.what}: {event.count}"
        case happened.RingFitted():
            return f"ring in {event.groove}: {event.size} {event.material}"
        case happened.PartInstalled():
            return f"fitted: {event.part}"
        case happened.PositionTightened():
            return (
                f"{event.group}, round {event.round}, position {event.position}: {event.value:g} {event.unit}"
            )
    return event.kind
