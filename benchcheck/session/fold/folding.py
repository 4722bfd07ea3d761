"""What every event does: its case, the act that it ends, and what goes void by it."""

from __future__ import annotations

from collections.abc import Iterable

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.changed import changed
from benchcheck.assembly.planned import as_found
from benchcheck.assembly.way_back import is_free
from benchcheck.session.events import ActEvent, Disposed, Event, LeftOut, SignedOn, Stopped, UnknownEvent
from benchcheck.session.fold.case import case, cleared
from benchcheck.session.fold.clocks import clocks_started
from benchcheck.session.fold.voiding import without_lost
from benchcheck.session.leaning import about, leans
from benchcheck.session.record import Header
from benchcheck.session.state import Fact, Job, State, moment

CORRECTABLE = 6
"""How many of the last answers can be corrected."""


def beginning(job: Job, header: Header) -> State:
    """The state before the first event: the pump as it comes in."""
    variant = header.variant or None
    job = job.as_begun()
    return State(job=job, header=header, assembly=as_found(job.pump(variant)), variant=variant)


def folded(state: State, events: Iterable[Event]) -> State:
    """The state after more events.

    Raises UnknownEvent for one that cannot follow on those before it, as in a record that was not made here.
    """
    for event in events:
        try:
            state = fold(state, event)
        except Exception as misfit:  # whatever it names that is not there
            raise UnknownEvent(
                f"event {event.number} ({event.kind}) does not fit the procedure and the events before it"
            ) from misfit
    return state


def fold(state: State, event: Event) -> State:
    """The state after one more event."""
    after = case(event, state)
    # A decision on a pump that was left, taken at a desk, is no work on it.
    left_in_order = state.stopped and isinstance(event, Disposed)
    recent, card = after.recent, after.card
    if isinstance(event, ActEvent):
        after = _settled(after, event)
        recent, card = (*recent[1 - CORRECTABLE :], event), None
    after = changed(
        after,
        number=event.number,
        at=moment(event.at),
        stopped=isinstance(event, Stopped) or left_in_order,
        spelt=after.spelt if isinstance(event, SignedOn) else "",
        recent=recent,
        card=card,
    )
    if after.assembly is not state.assembly or after.facts is not state.facts:
        after = without_lost(after, state, event)
    if after.reaching:
        reaching = tuple(each for each in after.reaching if not is_free(after.assembly, each))
        after = changed(after, reaching=reaching)
    return after


def _settled(state: State, event: ActEvent) -> State:
    """The act is done, or one of its questions is answered."""
    if not event.done:
        return state
    act = state.act(event.act)
    if act is None:  # an act of going back has no place in the file
        return changed(state, hand={}, outside="")
    fact = Fact(
        event.number,
        value=str(getattr(event, "value", "")),
        verdict=str(getattr(event, "verdict", "")),
        leans=leans(state, act),
        left_out=isinstance(event, LeftOut),
        by=event.by,
    )
    state = changed(state, facts={**state.facts, act.id: fact}, hand={}, outside="")
    if act.verb in (Verb.LOOK, Verb.ASK, Verb.WITNESS) and not fact.left_out:
        state = changed(state, suspects=cleared(state, *about(state, act)))
    if act.verb is Verb.ASK and act.question.runs:
        state = changed(state, assembly=state.assembly.ran())
    return clocks_started(state, act, event)
