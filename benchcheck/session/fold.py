"""State and event give a state; nothing else may make one.

Each event is carried out on the assembly as it says, then whatever lost what it leaned on is void: a seat
that is gone, a ring that is out, a group that is loose. The fold refuses nothing: what is in the record
has happened.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import singledispatch

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.planned import as_found, rounds_of
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase
from benchcheck.session import events as happened
from benchcheck.session.clocks import clock_rules
from benchcheck.session.events import ActEvent, Event
from benchcheck.session.record import Header
from benchcheck.session.state import Fact, Job, Running, State, moment

LOOKS_AT_PARTS_ONLY = (Phase.INTAKE, Phase.TEARDOWN, Phase.INSPECTION)
"""Facts of these phases are about the parts themselves, not about how they sit."""
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
    return State(job=job, header=header, assembly=as_found(job.pump(variant)), variant=variant)


def folded(state: State, events: Iterable[Event]) -> State:
    for event in events:
        state = fold(state, event)
    return state


def fold(state: State, event: Event) -> State:
    """The state after one more event."""
    before = state.assembly
    after = _apply(event, state)
    after = replace(
        after, number=event.number, at=moment(event.at), stopped=isinstance(event, happened.Stopped)
    )
    if isinstance(event, ActEvent):
        after = replace(_settled(after, event), recent=(*state.recent[1 - CORRECTABLE :], event))
    if after.assembly is not before:
        after = _without_lost(after, before)
    return after


def act_named(state: State, name: str) -> Act | None:
    return next((act for act in state.acts if act.id == name), None)


# ---------------------------------------------------------------------- what facts lean on


def seat_token(part: str) -> str:
    return f"seat:{part}"


def ring_token(groove: str) -> str:
    return f"ring:{groove}"


def group_token(group: str) -> str:
    return f"group:{group}"


def part_token(part: str, instance: int) -> str:
    return f"part:{part}#{instance}"


def _tokens(now: Assembly) -> frozenset[str]:
    """Everything that facts can lean on, as it is now."""
    found = {seat_token(part) for part in now.seated}
    found |= {ring_token(groove) for groove in now.sealed if now.living_rings(groove)}
    found |= {group_token(group) for group in now.held}
    found |= {part_token(part, now.instance(part)) for part in now.pump.parts}
    return frozenset(found)


def leans(state: State, act: Act) -> frozenset[str]:
    """What the fact of an act leans on once it is done."""
    now, pump = state.assembly, state.pump
    match act.verb:
        case Verb.FIT:
            return frozenset({ring_token(act.target)})
        case Verb.INSTALL | Verb.REMOVE:
            told = pump.parts[act.target]
            if told.temporary:
                served = {part.id for part in pump.parts.values() if part.under == told.id} | set(told.holds)
                return frozenset(seat_token(part) for part in served if part in now.seated)
            return frozenset({seat_token(act.target)}) if act.verb is Verb.INSTALL else frozenset()
        case Verb.START | Verb.TIGHTEN:
            return frozenset({group_token(act.target)})
        case Verb.LIFT | Verb.LOOSEN:
            return frozenset()
    about = _about(state, act)
    if act.phase in LOOKS_AT_PARTS_ONLY or not act.step.between:
        return frozenset(part_token(part, now.instance(part)) for part in about if part in pump.parts)
    found: set[str] = set()
    for thing in about:
        if thing in pump.grooves:
            found.add(ring_token(thing))
        elif thing in pump.groups:
            found.add(group_token(thing))
        elif thing in now.seated:
            found.add(seat_token(thing))
    return frozenset(found)


def _about(state: State, act: Act) -> tuple[str, ...]:
    """What a reading or look is about: as said, else what its step handles, else all that is in the work."""
    step = act.step
    if act.verb is Verb.LOOK:
        return (act.target,)
    if act.verb is Verb.ASK and act.question.of:
        return act.question.of
    if step.of:
        return step.of
    own = (*step.rings, *step.all_parts, *((step.group,) if step.group else ()))
    if own:
        return own
    if act.verb in (Verb.WAIT, Verb.SIGN) or act.phase in LOOKS_AT_PARTS_ONLY:
        return ()
    return tuple(part for part in state.assembly.seated if state.assembly.present(part))


def _settled(state: State, event: ActEvent) -> State:
    """The act is done, or one of its questions is answered."""
    if not event.done:
        return state
    act = act_named(state, event.act)
    if act is None:  # an act of going back has no place in the file
        return replace(state, hand={}, outside="")
    fact = Fact(
        event.number,
        value=str(getattr(event, "value", "")),
        verdict=str(getattr(event, "verdict", "")),
        leans=leans(state, act),
        left_out=isinstance(event, happened.LeftOut),
    )
    state = replace(state, facts={**state.facts, act.id: fact}, hand={}, outside="")
    if act.verb is Verb.ASK and act.question.runs:
        state = replace(state, assembly=state.assembly.ran())
    return _clocks_started(state, act, event)


def _clocks_started(state: State, act: Act, event: Event) -> State:
    clocks = dict(state.clocks)
    last_of_step = [each for each in state.acts if each.step.id == act.step.id][-1].id == act.id
    for rule in clock_rules(state.pump):
        group_done = (
            act.verb is Verb.TIGHTEN and rule.group == act.target and state.assembly.held[act.target].passed
        )
        if group_done or (last_of_step and rule.step == act.step.id):
            clocks[rule.id] = Running(moment(event.at), event.number)
    return replace(state, clocks=clocks) if clocks != state.clocks else state


def _without_lost(state: State, before: Assembly) -> State:
    """Facts that leaned on something that is gone are void; clocks of loosened groups stop."""
    lost = _tokens(before) - _tokens(state.assembly)
    if not lost:
        return state
    facts, voided = dict(state.facts), 0
    for name, fact in state.facts.items():
        if not fact.void and fact.leans & lost:
            facts[name] = replace(fact, void=True)
            voided += 1
    slack = {rule.id for rule in clock_rules(state.pump) if rule.group and group_token(rule.group) in lost}
    clocks = {name: running for name, running in state.clocks.items() if name not in slack}
    return replace(state, facts=facts, clocks=clocks, voided=state.voided + voided)


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
    if state.technician and event.name != state.technician:
        state = _interrupted(state)
    return _with_person(replace(state, technician=event.name), event.name)


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
    works = tuple(f"pose {work}" for work in now.poses)
    return _moved(
        state,
        replace(now, poses={}),
        technician="",
        hand={},
        outside="",
        wrenches={},
        filled_since_pause=frozenset(),
        read_again=("serial", *works, *open_grooves),
    )


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
        suspects=_cleared(state, event.groove),
    )


@_apply.register
def _(event: happened.RingLifted, state: State) -> State:
    return _came_off(_moved(state, state.assembly.lifted(event.groove)), event.groove)


@_apply.register
def _(event: happened.GrooveFound, state: State) -> State:
    return _moved(state, state.assembly.lifted(event.groove), hand={})


@_apply.register
def _(event: happened.PartInstalled, state: State) -> State:
    now = state.assembly
    while now.instance(event.part) < event.instance:
        now = now.replaced(event.part)
    now = now.installed(event.part, event.end, event.turn, None if event.angle < 0 else event.angle)
    state = _with_person(state, event.witness)
    return _moved(
        state,
        now,
        lots=_with_lot(state, event.lot),
        suspects=_cleared(state, event.part),
    )


@_apply.register
def _(event: happened.PartRemoved, state: State) -> State:
    return _came_off(_moved(state, state.assembly.removed(event.part)), event.part)


@_apply.register
def _(event: happened.PartReplaced, state: State) -> State:
    now = state.assembly
    return _moved(state, now.rejected(event.part), hand={}, outside="")


@_apply.register
def _(event: happened.GroupLoosened, state: State) -> State:
    return _came_off(_moved(state, state.assembly.loosened(event.group)), event.group)


@_apply.register
def _(event: happened.GroupStarted, state: State) -> State:
    return _moved(state, state.assembly.started(event.group), suspects=_cleared(state, event.group))


@_apply.register
def _(event: happened.WrenchTaken, state: State) -> State:
    used = state.wrenches_used
    return replace(
        state,
        wrenches={**state.wrenches, (event.group, event.round): (event.wrench, event.unit)},
        wrenches_used=used if event.wrench in used else (*used, event.wrench),
    )


@_apply.register
def _(event: happened.PositionTightened, state: State) -> State:
    group = state.pump.groups[event.group]
    now = state.assembly.tightened(
        event.group,
        event.position,
        rounds=rounds_of(state.pump, event.group),
        count=group.count,
        has_pass=group.has_pass or group.angle is not None,
    )
    return _moved(state, now, readings=state.readings + 1, hand={})


@_apply.register
def _(event: happened.PositionTurned, state: State) -> State:
    now = state.assembly.turned_on(event.group, event.position, count=state.pump.groups[event.group].count)
    return _moved(state, now, readings=state.readings + 1, hand={})


@_apply.register
def _(event: happened.PositionChecked, state: State) -> State:
    group = state.pump.groups[event.group]
    return _moved(
        state,
        state.assembly.checked(event.group, event.position, moved=event.moved, count=group.count),
        hand={},
    )


@_apply.register
def _(event: happened.Measured, state: State) -> State:
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
    act = act_named(state, act_name)
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
    return replace(state, kit={**state.kit, event.what: event.count})


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
    if state.off and event.act.startswith("back/"):
        return replace(state, off=state.off[1:])
    return state


@_apply.register
def _(event: happened.Disposed, state: State) -> State:
    return _with_person(
        replace(state, dispositions={**state.dispositions, event.deviation: event}), event.name
    )


@_apply.register
def _(event: happened.PositionDisposed, state: State) -> State:
    return _moved(
        _with_person(state, event.name), state.assembly.position_disposed(event.group, event.position)
    )


@_apply.register
def _(event: happened.Corrected, state: State) -> State:
    """That answer does not count: what it did is undone, and it is asked again."""
    now = state.assembly
    match event.was:
        case happened.RingFitted.kind:
            now = now.lifted(event.thing)
        case happened.PartInstalled.kind:
            now = now.never_in(event.thing)
        case happened.PositionTightened.kind:
            now = now.last_position_undone(event.thing)
    facts = {
        name: replace(fact, void=True) if fact.event == event.event else fact
        for name, fact in state.facts.items()
    }
    recent = tuple(each for each in state.recent if each.number != event.event)
    return _moved(state, now, facts=facts, hand={}, outside="", voided=state.voided + 1, recent=recent)


@_apply.register
def _(event: happened.WentBack, state: State) -> State:
    return replace(
        state,
        off=event.off,
        suspects=tuple(dict.fromkeys((*state.suspects, *event.targets))),
        hand={},
        outside="",
    )


@_apply.register
def _(event: happened.Closed, state: State) -> State:
    return _with_person(replace(state, closed=event), event.second)


@_apply.register
def _(event: happened.Judged, state: State) -> State:
    return _with_person(replace(state, judged=event), event.name)


def _cleared(state: State, thing: str) -> tuple[str, ...]:
    """What is doubted still, once this thing is fitted anew."""
    return tuple(each for each in state.suspects if each != thing)


def _with_lot(state: State, lot: str) -> tuple[str, ...]:
    return state.lots if not lot or lot in state.lots else (*state.lots, lot)


def _came_off(state: State, thing: str) -> State:
    return replace(state, off=tuple(each for each in state.off if each != thing))
