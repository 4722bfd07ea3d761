"""What was read and by which gauge, told, counted and confirmed."""

from __future__ import annotations

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.changed import changed
from benchcheck.session import events as happened
from benchcheck.session import instrument_work
from benchcheck.session.fold.case import case, in_hand, with_lot, with_person, without_gauge
from benchcheck.session.state import State

RUNNING_TORQUE = "running torque"
"""What a locking nut needs before it seats; kept under the name of its act."""
HOLD_STARTED = "value at the start"
HOLD_SINCE = "since"
"""Of a value that must stand for a time: what it was at the start, and when that was."""


@case.register
def _(event: happened.Answered, state: State) -> State:
    if event.question == "outside":
        return changed(state, outside="")
    answers = {event.question: event.value}
    if event.question == HOLD_STARTED:
        answers[HOLD_SINCE] = event.at
    return in_hand(state, **answers)


@case.register
def _(event: happened.GaugeTaken, state: State) -> State:
    used = state.gauges_used
    return changed(
        state,
        gauges={**state.gauges, event.of_kind: event.gauge},
        gauges_used=used if event.gauge in used else (*used, event.gauge),
    )


@case.register
def _(event: happened.GaugeChanged, state: State) -> State:
    return changed(state, gauges=without_gauge(state, event.gauge), hand={})


@case.register
def _(event: happened.Measured, state: State) -> State:
    did = instrument_work.name_of_reading(event.act, event.place)
    state = instrument_work.done_with(state, event.instrument, did)
    state = changed(state, readings=state.readings + 1)
    if event.what == RUNNING_TORQUE:
        return changed(state, kept={**state.kept, event.act: f"{event.value:g} {event.unit}"})
    if event.verdict == "outside":
        return changed(state, outside=f"{event.what}: {event.value:g} {event.unit}")
    if not event.done:
        return in_hand(state, **{f"place {event.place}": f"{event.value:g}"})
    return _verdict(state, event.act, f"{event.value:g} {event.unit}", event.verdict)


@case.register
def _(event: happened.Told, state: State) -> State:
    if event.verdict == "outside":
        return changed(state, outside=f"{event.what}: {event.value}")
    return _verdict(state, event.act, event.value, event.value)


def _verdict(state: State, act_name: str, value: str, verdict: str) -> State:
    act = state.act(act_name)
    if act is None or act.verb is not Verb.ASK:
        return state
    question = act.question
    if question.keep:
        state = changed(state, kept={**state.kept, question.keep: value})
    if question.kind == "lot":
        state = changed(state, lots=with_lot(state, value))
    if question.sets == "variant":
        pump = state.job.pump(verdict)
        return changed(
            state, variant=verdict, variant_proved=True, assembly=changed(state.assembly, pump=pump)
        )
    if question.sets:
        state = changed(state, verdicts={**state.verdicts, question.sets: verdict})
    return state


@case.register
def _(event: happened.Counted, state: State) -> State:
    mat_counted = event.number if event.what == "mat" else state.mat_counted
    return changed(state, kit={**state.kit, event.what: event.count}, mat_counted=mat_counted)


@case.register
def _(event: happened.Witnessed, state: State) -> State:
    return with_person(state, event.name)


@case.register
def _(event: happened.Signed, state: State) -> State:
    return with_person(state, event.second)
