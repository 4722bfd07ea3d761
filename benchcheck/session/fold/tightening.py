"""Fastener groups: run in, tightened position by position, looked at again, loose; and the instruments."""

from __future__ import annotations

from benchcheck.assembly.changed import changed
from benchcheck.assembly.planned import rounds_of
from benchcheck.session import events as happened
from benchcheck.session import instrument_work
from benchcheck.session.fold.case import case, cleared, with_person, without_gauge
from benchcheck.session.fold.clocks import with_clocks
from benchcheck.session.state import State, moment


@case.register
def _(event: happened.GroupLoosened, state: State) -> State:
    loosened = state.assembly.loosened(event.group)
    return changed(instrument_work.came_loose(state, event.group), assembly=loosened)


@case.register
def _(event: happened.GroupStarted, state: State) -> State:
    return changed(
        state,
        assembly=state.assembly.started(event.group),
        suspects=cleared(state, event.group),
        run_in={**state.run_in, event.group: moment(event.at)},
    )


@case.register
def _(event: happened.WrenchTaken, state: State) -> State:
    used = state.wrenches_used
    return changed(
        state,
        wrenches={**state.wrenches, (event.group, event.round): (event.wrench, event.unit)},
        wrenches_used=used if event.wrench in used else (*used, event.wrench),
        hand={name: told for name, told in state.hand.items() if not name.startswith("wrench ")},
    )


@case.register
def _(event: happened.PositionTightened, state: State) -> State:
    group = state.pump.groups[event.group]
    now = state.assembly.tightened(
        event.group,
        event.position,
        rounds=rounds_of(state.pump, event.group),
        count=group.count,
        has_pass=group.goes_on,
    )
    did = instrument_work.name_of(event.group, event.round, event.position)
    state = instrument_work.done_with(state, event.wrench, did)
    return changed(state, assembly=now, readings=state.readings + 1, hand={})


@case.register
def _(event: happened.PositionTurned, state: State) -> State:
    now = state.assembly.turned_on(event.group, event.position, count=state.pump.groups[event.group].count)
    return changed(state, assembly=now, readings=state.readings + 1, hand={})


@case.register
def _(event: happened.PositionChecked, state: State) -> State:
    group = state.pump.groups[event.group]
    did = instrument_work.name_of(event.group, instrument_work.PASS, event.position)
    return changed(
        instrument_work.done_with(state, event.wrench, did),
        assembly=state.assembly.checked(event.group, event.position, moved=event.moved, count=group.count),
        readings=state.readings + bool(event.unit),
        hand={},
    )


@case.register
def _(event: happened.PositionDisposed, state: State) -> State:
    group = state.pump.groups[event.group]
    now = state.assembly.position_disposed(
        event.group,
        event.position,
        rounds=rounds_of(state.pump, event.group),
        count=group.count,
        has_pass=group.goes_on,
    )
    decided = {**state.positions_disposed, (event.group, event.position): event}
    state = changed(with_person(state, event.name), assembly=now, hand={}, positions_disposed=decided)
    return with_clocks(state, event, group=event.group) if now.held[event.group].passed else state


@case.register
def _(event: happened.PositionRepaired, state: State) -> State:
    limits = (event.target, event.tolerance)
    state = changed(state, repaired={**state.repaired, (event.group, event.position): limits}, hand={})
    return with_person(state, event.name)


@case.register
def _(event: happened.WrenchChanged, state: State) -> State:
    left = {key: chosen for key, chosen in state.wrenches.items() if key[0] != event.group}
    return changed(state, wrenches=left, hand={})


@case.register
def _(event: happened.InstrumentDoubted, state: State) -> State:
    left = {key: chosen for key, chosen in state.wrenches.items() if chosen[0] != event.instrument}
    now = state.assembly
    for group in instrument_work.under_way_with(state, event.instrument):
        now = now.round_restarted(group)
    doubted = {**state.doubted, event.instrument: event.reason}
    gauges = without_gauge(state, event.instrument)
    return changed(state, assembly=now, wrenches=left, gauges=gauges, doubted=doubted, hand={})
