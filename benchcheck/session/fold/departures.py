"""Departures from the procedure, what was decided on them, corrections, and going back."""

from __future__ import annotations

from dataclasses import replace

from benchcheck.assembly.changed import changed
from benchcheck.session import events as happened
from benchcheck.session.fold.case import case, with_person
from benchcheck.session.going_back import BACK
from benchcheck.session.kit import rings_needed
from benchcheck.session.leaning import step_of
from benchcheck.session.state import State


@case.register
def _(event: happened.Deviation, state: State) -> State:
    return changed(state, deviations=(*state.deviations, event))


@case.register
def _(event: happened.LeftOut, state: State) -> State:
    # Going back is given up: what was doubted stays doubted.
    return changed(state, reaching=()) if step_of(event.act) == BACK else state


@case.register
def _(event: happened.Disposed, state: State) -> State:
    decided = {**state.dispositions, event.deviation: event}
    return with_person(changed(state, dispositions=decided), event.name)


@case.register
def _(event: happened.Corrected, state: State) -> State:
    """That answer does not count: what it did is undone, and it is asked again."""
    now, kit, used = state.assembly, dict(state.kit), dict(state.used)
    counted = event.was == happened.Counted.kind
    match event.was:
        case happened.Counted.kind if event.thing in rings_needed(state.pump):
            kit[event.thing] -= 1
        case happened.RingFitted.kind:
            now = now.lifted(event.thing)
            for fitted in state.recent:
                if (
                    isinstance(fitted, happened.RingFitted)
                    and fitted.number == event.event
                    and not fitted.cured
                ):
                    used[f"{fitted.size} {fitted.material}"] -= 1
        case happened.PartInstalled.kind:
            now = now.never_in(event.thing)
        case happened.PositionTightened.kind:
            now = now.last_position_undone(event.thing)
    facts = {
        name: replace(fact, void=True)
        if fact.event == event.event or (counted and name == event.act)
        else fact
        for name, fact in state.facts.items()
    }
    recent = tuple(each for each in state.recent if each.number != event.event)
    return changed(
        state,
        assembly=now,
        facts=facts,
        kit=kit,
        used=used,
        hand={},
        outside="",
        voided=state.voided + 1,
        recent=recent,
    )


@case.register
def _(event: happened.WentBack, state: State) -> State:
    return changed(
        state,
        reaching=tuple(dict.fromkeys((*event.targets, *state.reaching))),
        suspects=tuple(dict.fromkeys((*state.suspects, *event.targets))),
        hand={},
        outside="",
    )
