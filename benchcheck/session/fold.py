"""State and event give a state; nothing else may make one.

Each event is carried out on the assembly as it says, then whatever lost what it leaned on is void: a seat
that is gone, a ring that is out, a group that is loose. The fold refuses nothing: what is in the record
has happened.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import timedelta
from functools import singledispatch

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.clocks import clock_rules
from benchcheck.assembly.confirmations import AS_IT_CAME_IN
from benchcheck.assembly.planned import as_found, rounds_of
from benchcheck.assembly.state import Assembly
from benchcheck.assembly.way_back import is_free
from benchcheck.session import events as happened
from benchcheck.session import handing_over, instrument_work, revisions
from benchcheck.session.events import ActEvent, Event
from benchcheck.session.going_back import BACK
from benchcheck.session.kit import rings_needed
from benchcheck.session.leaning import (
    about,
    group_token,
    leans,
    pieces,
    places,
    serves,
    step_of,
    step_token,
)
from benchcheck.session.record import Header
from benchcheck.session.state import Fact, Job, Running, State, moment

RUNNING_TORQUE = "running torque"
"""What a locking nut needs before it seats; kept under the name of its act."""
HOLD_STARTED = "value at the start"
HOLD_SINCE = "since"
"""Of a value that must stand for a time: what it was at the start, and when that was."""
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
            raise happened.UnknownEvent(
                f"event {event.number} ({event.kind}) does not fit the procedure and the events before it"
            ) from misfit
    return state


def fold(state: State, event: Event) -> State:
    """The state after one more event."""
    after = _apply(event, state)
    # A decision on a pump that was left, taken at a desk, is no work on it.
    left_in_order = state.stopped and isinstance(event, happened.Disposed)
    after = replace(
        after,
        number=event.number,
        at=moment(event.at),
        stopped=isinstance(event, happened.Stopped) or left_in_order,
        spelt=after.spelt if isinstance(event, happened.SignedOn) else "",
    )
    if isinstance(event, ActEvent):
        after = replace(_settled(after, event), recent=(*state.recent[1 - CORRECTABLE :], event), card=None)
    if after.assembly is not state.assembly or after.facts is not state.facts:
        after = _without_lost(after, state, _undone_as_planned(after, event))
    if after.reaching:
        reaching = tuple(each for each in after.reaching if not is_free(after.assembly, each))
        after = replace(after, reaching=reaching)
    return after


# ---------------------------------------------------------------------- done, and void


def _settled(state: State, event: ActEvent) -> State:
    """The act is done, or one of its questions is answered."""
    if not event.done:
        return state
    act = state.act(event.act)
    if act is None:  # an act of going back has no place in the file
        return replace(state, hand={}, outside="")
    fact = Fact(
        event.number,
        value=str(getattr(event, "value", "")),
        verdict=str(getattr(event, "verdict", "")),
        leans=leans(state, act),
        left_out=isinstance(event, happened.LeftOut),
        by=event.by,
    )
    state = replace(state, facts={**state.facts, act.id: fact}, hand={}, outside="")
    if act.verb in (Verb.LOOK, Verb.ASK, Verb.WITNESS) and not fact.left_out:
        state = replace(state, suspects=_cleared(state, *about(state, act)))
    if act.verb is Verb.ASK and act.question.runs:
        state = replace(state, assembly=state.assembly.ran())
    return _clocks_started(state, act, event)


def _clocks_started(state: State, act: Act, event: Event) -> State:
    last_of_step = [each for each in state.acts if each.step.id == act.step.id][-1].id == act.id
    tight = act.verb is Verb.TIGHTEN and state.assembly.held[act.target].passed
    return _with_clocks(
        state, event, group=act.target if tight else "", step=act.step.id if last_of_step else ""
    )


def _with_clocks(state: State, event: Event, *, group: str = "", step: str = "") -> State:
    """The clocks that a group which is tight, or a step that is done, makes run from now."""
    started = {
        rule.id: Running(moment(event.at), event.number)
        for rule in clock_rules(state.pump)
        if (rule.group and rule.group == group and rule.id not in state.clocks)
        or (rule.step and rule.step == step)
    }
    return replace(state, clocks={**state.clocks, **started}) if started else state


def _undone_as_planned(state: State, event: Event) -> bool:
    """Whether a step of the procedure itself takes something off: what was done before stays done."""
    if not isinstance(event, ActEvent) or not event.done:
        return False
    act = state.act(event.act)
    return act is not None and act.verb in (Verb.REMOVE, Verb.LOOSEN, Verb.LIFT)


def _without_lost(state: State, before: State, as_planned: bool) -> State:
    """What leaned on something that is gone is void, and what came after it; clocks that it ran stop."""
    lost = pieces(before.assembly) - pieces(state.assembly)
    if not as_planned:
        lost |= places(before.assembly) - places(state.assembly)
    facts, clocks = dict(state.facts), dict(state.clocks)
    corrected = {name for name, fact in facts.items() if fact.void and before.fact(name) is not None}
    lost |= {step_token(step_of(name)) for name in corrected}
    on_still = _tools_not_needed(state)
    voided: set[str] = set()
    while lost:
        newly = {name for name, fact in facts.items() if not fact.void and fact.leans & lost} - on_still
        facts.update((name, replace(facts[name], void=True)) for name in newly)
        steps = {step_of(name) for name in newly | corrected}
        for rule in clock_rules(state.pump):
            if (rule.group and group_token(rule.group) in lost) or rule.step in steps:
                clocks.pop(rule.id, None)
        voided |= newly
        lost = frozenset(step_token(step_of(name)) for name in newly)
    if not voided and len(clocks) == len(state.clocks):
        return state
    return replace(state, facts=facts, clocks=clocks, voided=state.voided + len(voided))


def _tools_not_needed(state: State) -> set[str]:
    """The acts that put on a temporary tool and need not be done again: it is on, or all it is for is in."""
    seated, pump = state.assembly.seated, state.pump
    return {
        act.id
        for act in state.acts
        if act.verb is Verb.INSTALL and pump.parts[act.target].temporary
        if act.target in seated or serves(pump, act.target) <= seated.keys()
    }


# ---------------------------------------------------------------------- one case a kind


@singledispatch
def _apply(event: Event, state: State) -> State:
    return state


def _moved(state: State, assembly: Assembly, **changes: object) -> State:
    return replace(state, assembly=assembly, **changes)  # type: ignore[arg-type]


def _in_hand(state: State, **answers: str) -> State:
    return replace(state, hand={**state.hand, **answers})


def _with_person(state: State, name: str) -> State:
    return state if not name or name in state.people else replace(state, people=(*state.people, name))


@_apply.register
def _(event: happened.SignedOn, state: State) -> State:
    if state.worker and event.name != state.worker:
        state = _interrupted(state)
    state = replace(state, technician=event.name, spelt=event.typed)
    state = handing_over.signed_on(state, event.name)
    return _with_person(state, event.name)


@_apply.register
def _(event: happened.SignedOff, state: State) -> State:
    return replace(state, technician="")


@_apply.register
def _(event: happened.CardLeft, state: State) -> State:
    return handing_over.card_left(state, event)


@_apply.register
def _(event: happened.TakenOver, state: State) -> State:
    return handing_over.taken_over(state, event)


@_apply.register
def _(event: happened.TakenUp, state: State) -> State:
    return _interrupted(state)


def _interrupted(state: State) -> State:
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
    return _moved(
        state,
        replace(now, poses={}),
        technician="",
        hand={},
        outside="",
        wrenches={},
        gauges={},
        filled_since_pause=frozenset(),
        read_again=("serial", *works, *open_grooves),
    )


@_apply.register
def _(event: happened.WorkHalted | happened.HaltLifted, state: State) -> State:
    return revisions.halted(state, event)


@_apply.register
def _(event: happened.ProcedureDiffers | happened.StayedOn, state: State) -> State:
    return revisions.told(state, event)


@_apply.register
def _(event: happened.MovedOn, state: State) -> State:
    return revisions.moved(state, event)


@_apply.register
def _(event: happened.ClockWentBack, state: State) -> State:
    """What may last no longer has lasted so much longer; what has to last is not shortened by it."""
    by = timedelta(seconds=event.seconds)
    clocks = {name: replace(clock, set_back=clock.set_back + by) for name, clock in state.clocks.items()}
    run_in = {group: since - by for group, since in state.run_in.items()}
    return replace(state, clocks=clocks, run_in=run_in)


@_apply.register
def _(event: happened.ReadAgain, state: State) -> State:
    state = replace(state, read_again=tuple(each for each in state.read_again if each != event.what))
    kind, _, thing = event.what.partition(" ")
    if kind == "pose":
        return _moved(state, state.assembly.turned_up(thing, event.value))
    return state


@_apply.register
def _(event: happened.Answered, state: State) -> State:
    if event.question == "outside":
        return replace(state, outside="")
    answers = {event.question: event.value}
    if event.question == HOLD_STARTED:
        answers[HOLD_SINCE] = event.at
    return _in_hand(state, **answers)


@_apply.register
def _(event: happened.WorkTurned, state: State) -> State:
    return _moved(state, state.assembly.turned_up(event.work, event.up), filled_since_pause=frozenset())


@_apply.register
def _(event: happened.RingFitted, state: State) -> State:
    return _moved(
        state,
        state.assembly.fitted(event.groove, event.size, event.material),
        filled_since_pause=state.filled_since_pause | {event.groove},
        lots=_with_lot(state, event.lot),
        # A ring from stock takes nothing out of the kit.
        used=state.used if event.cured else _one_more(state.used, f"{event.size} {event.material}"),
        suspects=_cleared(state, event.groove),
    )


@_apply.register
def _(event: happened.RingLifted, state: State) -> State:
    return _moved(state, state.assembly.lifted(event.groove))


@_apply.register
def _(event: happened.GrooveFound, state: State) -> State:
    return _moved(state, state.assembly.lifted(event.groove), hand={})


@_apply.register
def _(event: happened.PartInstalled, state: State) -> State:
    now, used = state.assembly, state.used
    while now.instance(event.part) < event.instance:
        now, used = now.replaced(event.part), _one_more(used, event.part)
    now = now.installed(event.part, event.end, event.turn, None if event.angle < 0 else event.angle)
    state = _with_person(state, event.witness)
    if state.pump.parts[event.part].temporary:  # it has to come out again
        state = replace(state, facts=_to_come_out_again(state, event.part))
    return _moved(
        state,
        now,
        lots=_with_lot(state, event.lot),
        used=used,
        suspects=_cleared(state, event.part),
    )


@_apply.register
def _(event: happened.PartRemoved, state: State) -> State:
    # A tool that is out leaves nothing to doubt; a part is doubted until it is fitted anew.
    tool = state.pump.parts[event.part].temporary
    suspects = _cleared(state, event.part) if tool else state.suspects
    return _moved(state, state.assembly.removed(event.part), suspects=suspects)


@_apply.register
def _(event: happened.PartReplaced, state: State) -> State:
    now = state.assembly
    return _moved(state, now.rejected(event.part), hand={}, outside="")


@_apply.register
def _(event: happened.GroupLoosened, state: State) -> State:
    return _moved(instrument_work.came_loose(state, event.group), state.assembly.loosened(event.group))


@_apply.register
def _(event: happened.GroupStarted, state: State) -> State:
    return _moved(
        state,
        state.assembly.started(event.group),
        suspects=_cleared(state, event.group),
        run_in={**state.run_in, event.group: moment(event.at)},
    )


@_apply.register
def _(event: happened.WrenchTaken, state: State) -> State:
    used = state.wrenches_used
    return replace(
        state,
        wrenches={**state.wrenches, (event.group, event.round): (event.wrench, event.unit)},
        wrenches_used=used if event.wrench in used else (*used, event.wrench),
        hand={name: told for name, told in state.hand.items() if not name.startswith("wrench ")},
    )


@_apply.register
def _(event: happened.GaugeTaken, state: State) -> State:
    used = state.gauges_used
    return replace(
        state,
        gauges={**state.gauges, event.of_kind: event.gauge},
        gauges_used=used if event.gauge in used else (*used, event.gauge),
    )


@_apply.register
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
    return _moved(state, now, readings=state.readings + 1, hand={})


@_apply.register
def _(event: happened.PositionTurned, state: State) -> State:
    now = state.assembly.turned_on(event.group, event.position, count=state.pump.groups[event.group].count)
    return _moved(state, now, readings=state.readings + 1, hand={})


@_apply.register
def _(event: happened.PositionChecked, state: State) -> State:
    group = state.pump.groups[event.group]
    did = instrument_work.name_of(event.group, instrument_work.PASS, event.position)
    return _moved(
        instrument_work.done_with(state, event.wrench, did),
        state.assembly.checked(event.group, event.position, moved=event.moved, count=group.count),
        readings=state.readings + bool(event.unit),
        hand={},
    )


@_apply.register
def _(event: happened.Measured, state: State) -> State:
    did = instrument_work.name_of_reading(event.act, event.place)
    state = instrument_work.done_with(state, event.instrument, did)
    state = replace(state, readings=state.readings + 1)
    if event.what == RUNNING_TORQUE:
        return replace(state, kept={**state.kept, event.act: f"{event.value:g} {event.unit}"})
    if event.verdict == "outside":
        return replace(state, outside=f"{event.what}: {event.value:g} {event.unit}")
    if not event.done:
        return _in_hand(state, **{f"place {event.place}": f"{event.value:g}"})
    return _verdict(state, event.act, f"{event.value:g} {event.unit}", event.verdict)


@_apply.register
def _(event: happened.Told, state: State) -> State:
    if event.verdict == "outside":
        return replace(state, outside=f"{event.what}: {event.value}")
    return _verdict(state, event.act, event.value, event.value)


def _verdict(state: State, act_name: str, value: str, verdict: str) -> State:
    act = state.act(act_name)
    if act is None or act.verb is not Verb.ASK:
        return state
    question = act.question
    if question.keep:
        state = replace(state, kept={**state.kept, question.keep: value})
    if question.kind == "lot":
        state = replace(state, lots=_with_lot(state, value))
    if question.sets == "variant":
        pump = state.job.pump(verdict)
        return replace(
            state, variant=verdict, variant_proved=True, assembly=replace(state.assembly, pump=pump)
        )
    if question.sets:
        state = replace(state, verdicts={**state.verdicts, question.sets: verdict})
    return state


@_apply.register
def _(event: happened.Counted, state: State) -> State:
    mat_counted = event.number if event.what == "mat" else state.mat_counted
    return replace(state, kit={**state.kit, event.what: event.count}, mat_counted=mat_counted)


@_apply.register
def _(event: happened.Witnessed, state: State) -> State:
    return _with_person(state, event.name)


@_apply.register
def _(event: happened.Signed, state: State) -> State:
    return _with_person(state, event.second)


@_apply.register
def _(event: happened.Deviation, state: State) -> State:
    return replace(state, deviations=(*state.deviations, event))


@_apply.register
def _(event: happened.LeftOut, state: State) -> State:
    # Going back is given up: what was doubted stays doubted.
    return replace(state, reaching=()) if step_of(event.act) == BACK else state


@_apply.register
def _(event: happened.Disposed, state: State) -> State:
    return _with_person(
        replace(state, dispositions={**state.dispositions, event.deviation: event}), event.name
    )


@_apply.register
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
    state = _moved(_with_person(state, event.name), now, hand={}, positions_disposed=decided)
    return _with_clocks(state, event, group=event.group) if now.held[event.group].passed else state


@_apply.register
def _(event: happened.PositionRepaired, state: State) -> State:
    limits = (event.target, event.tolerance)
    state = replace(state, repaired={**state.repaired, (event.group, event.position): limits}, hand={})
    return _with_person(state, event.name)


@_apply.register
def _(event: happened.WrenchChanged, state: State) -> State:
    left = {key: chosen for key, chosen in state.wrenches.items() if key[0] != event.group}
    return replace(state, wrenches=left, hand={})


@_apply.register
def _(event: happened.GaugeChanged, state: State) -> State:
    return replace(state, gauges=_laid_down(state, event.gauge), hand={})


@_apply.register
def _(event: happened.InstrumentDoubted, state: State) -> State:
    left = {key: chosen for key, chosen in state.wrenches.items() if chosen[0] != event.instrument}
    now = state.assembly
    for group in instrument_work.under_way_with(state, event.instrument):
        now = now.round_restarted(group)
    doubted = {**state.doubted, event.instrument: event.reason}
    gauges = _laid_down(state, event.instrument)
    return _moved(state, now, wrenches=left, gauges=gauges, doubted=doubted, hand={})


def _laid_down(state: State, gauge: str) -> Mapping[str, str]:
    """The gauges in hand without one: another is asked for at the next reading of its kind."""
    return {kind: chosen for kind, chosen in state.gauges.items() if chosen != gauge}


@_apply.register
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
    return _moved(
        state,
        now,
        facts=facts,
        kit=kit,
        used=used,
        hand={},
        outside="",
        voided=state.voided + 1,
        recent=recent,
    )


@_apply.register
def _(event: happened.WentBack, state: State) -> State:
    return replace(
        state,
        reaching=tuple(dict.fromkeys((*event.targets, *state.reaching))),
        suspects=tuple(dict.fromkeys((*state.suspects, *event.targets))),
        hand={},
        outside="",
    )


@_apply.register
def _(event: happened.Closed, state: State) -> State:
    return _with_person(replace(state, closed=event), event.second)


@_apply.register
def _(event: happened.Judged, state: State) -> State:
    # Who judges took no part in the work.
    return replace(state, judged=event)


def _cleared(state: State, *things: str) -> tuple[str, ...]:
    """What is doubted still, once these things are fitted anew or looked at again."""
    return tuple(each for each in state.suspects if each not in things)


def _with_lot(state: State, lot: str) -> tuple[str, ...]:
    return state.lots if not lot or lot in state.lots else (*state.lots, lot)


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


def _one_more(used: Mapping[str, int], piece: str) -> Mapping[str, int]:
    return {**used, piece: used.get(piece, 0) + 1}
