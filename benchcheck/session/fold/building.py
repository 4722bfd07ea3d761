"""Parts and rings that go in or come out, and the work as it is turned."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.changed import changed
from benchcheck.assembly.confirmations import AS_IT_CAME_IN
from benchcheck.session import events as happened
from benchcheck.session.fold.case import case, cleared, one_more, with_lot, with_person
from benchcheck.session.state import Fact, State


@case.register
def _(event: happened.WorkTurned, state: State) -> State:
    turned = state.assembly.turned_up(event.work, event.up)
    return changed(state, assembly=turned, filled_since_pause=frozenset())


@case.register
def _(event: happened.RingFitted, state: State) -> State:
    return changed(
        state,
        assembly=state.assembly.fitted(event.groove, event.size, event.material),
        filled_since_pause=state.filled_since_pause | {event.groove},
        lots=with_lot(state, event.lot),
        # A ring from stock takes nothing out of the kit.
        used=state.used if event.cured else one_more(state.used, f"{event.size} {event.material}"),
        suspects=cleared(state, event.groove),
    )


@case.register
def _(event: happened.RingLifted, state: State) -> State:
    return changed(state, assembly=state.assembly.lifted(event.groove))


@case.register
def _(event: happened.GrooveFound, state: State) -> State:
    return changed(state, assembly=state.assembly.lifted(event.groove), hand={})


@case.register
def _(event: happened.PartInstalled, state: State) -> State:
    now, used = state.assembly, state.used
    while now.instance(event.part) < event.instance:
        now, used = now.replaced(event.part), one_more(used, event.part)
    now = now.installed(event.part, event.end, event.turn, None if event.angle < 0 else event.angle)
    state = with_person(state, event.witness)
    if state.pump.parts[event.part].temporary:  # it has to come out again
        state = changed(state, facts=_to_come_out_again(state, event.part))
    return changed(
        state,
        assembly=now,
        lots=with_lot(state, event.lot),
        used=used,
        suspects=cleared(state, event.part),
    )


def _to_come_out_again(state: State, tool: str) -> Mapping[str, Fact]:
    """The facts, without those that a tool was taken off again after building with it."""
    removals = {
        act.id
        for act in state.acts
        if act.verb is Verb.REMOVE and act.target == tool and act.phase not in AS_IT_CAME_IN
    }
    return {
        name: replace(fact, void=True) if name in removals else fact for name, fact in state.facts.items()
    }


@case.register
def _(event: happened.PartRemoved, state: State) -> State:
    # A tool that is out leaves nothing to doubt; a part is doubted until it is fitted anew.
    tool = state.pump.parts[event.part].temporary
    suspects = cleared(state, event.part) if tool else state.suspects
    return changed(state, assembly=state.assembly.removed(event.part), suspects=suspects)


@case.register
def _(event: happened.PartReplaced, state: State) -> State:
    return changed(state, assembly=state.assembly.rejected(event.part), hand={}, outside="")
