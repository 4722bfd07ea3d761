"""Who is at the bench, and what a pause leaves to be read anew; the clock of the bench."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from benchcheck.assembly.changed import changed
from benchcheck.assembly.planned import rounds_of
from benchcheck.session import events as happened
from benchcheck.session import handing_over
from benchcheck.session.fold.case import case, with_person
from benchcheck.session.state import State


@case.register
def _(event: happened.SignedOn, state: State) -> State:
    if state.worker and event.name != state.worker:
        state = interrupted(state)
    state = changed(state, technician=event.name, spelt=event.typed)
    state = handing_over.signed_on(state, event.name)
    return with_person(state, event.name)


@case.register
def _(event: happened.SignedOff, state: State) -> State:
    return changed(state, technician="")


@case.register
def _(event: happened.CardLeft, state: State) -> State:
    return handing_over.card_left(state, event)


@case.register
def _(event: happened.TakenOver, state: State) -> State:
    return handing_over.taken_over(state, event)


@case.register
def _(event: happened.TakenUp, state: State) -> State:
    return interrupted(state)


def interrupted(state: State) -> State:
    """Pose, open grooves and serial are read anew; a round under way starts again; nobody is signed on."""
    now = state.assembly
    for group, hold in now.held.items():
        if not hold.done and not hold.checked:
            continue
        turned_on = state.pump.groups[group].angle is not None and hold.rounds >= rounds_of(state.pump, group)
        if not turned_on:
            now = now.round_restarted(group)
    open_grooves = tuple(
        f"groove {groove}" for groove in now.sealed if not now.closed(groove) and now.sealed[groove]
    )
    # What an earlier pause asked to be read, and nobody has read yet, is still to be read.
    unread = tuple(each for each in state.read_again if each.startswith("pose "))
    works = tuple(dict.fromkeys((*unread, *(f"pose {work}" for work in now.poses))))
    return changed(
        state,
        assembly=changed(now, poses={}),
        technician="",
        hand={},
        outside="",
        wrenches={},
        gauges={},
        filled_since_pause=frozenset(),
        read_again=("serial", *works, *open_grooves),
    )


@case.register
def _(event: happened.ClockWentBack, state: State) -> State:
    """What may last no longer has lasted so much longer; what has to last is not shortened by it."""
    by = timedelta(seconds=event.seconds)
    clocks = {name: replace(clock, set_back=clock.set_back + by) for name, clock in state.clocks.items()}
    run_in = {group: since - by for group, since in state.run_in.items()}
    return changed(state, clocks=clocks, run_in=run_in)


@case.register
def _(event: happened.ReadAgain, state: State) -> State:
    state = changed(state, read_again=tuple(each for each in state.read_again if each != event.what))
    kind, _, thing = event.what.partition(" ")
    if kind == "pose":
        return changed(state, assembly=state.assembly.turned_up(thing, event.value))
    return state
