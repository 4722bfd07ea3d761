"""Tighten: position by position in its order, round by round, then the check pass, or the angle.

A setting wrench is set and clicks: that is its event. A reading exists only where the wrench shows one.
An answer may name the position it is about: "3: 134", or "3:" after a click.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.planned import goes_on, order_of, rounds_of
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.tightening import figure, round_target
from benchcheck.mechanics.units import Quantity, parse
from benchcheck.mechanics.wrench import Refused, Setting
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts import last_pass, shown, turning, wrench_choice, wrenches
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts.joints import at_position, named, past_handling, picture
from benchcheck.session.events import (
    Event,
    Measured,
    PositionTightened,
)
from benchcheck.session.fold import RUNNING_TORQUE
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Figure, Form, Outcome, Prompt
from benchcheck.session.state import State


def _running(state: State, act: Act) -> Quantity | None:
    """The running torque measured for this group, where it has one."""
    kept = state.kept.get(act.id)
    return parse(kept, "torque") if kept is not None else None


def _last_round_of_act(state: State, act: Act) -> int:
    return act.step.round or rounds_of(state.pump, act.target)


def _in_pass(state: State, act: Act) -> bool:
    return state.assembly.held[act.target].rounds >= rounds_of(state.pump, act.target)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    pump = state.pump
    group = pump.groups[act.target]
    needed = asked.reached_from(state, group.into, group.from_)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    if _in_pass(state, act):
        if group.angle is not None:
            return turning.ask(state, group)
        return last_pass.ask(state, group, _running(state, act), now)
    round_number = state.assembly.held[group.id].rounds + 1
    if _by_hand(group, round_number):
        return _by_hand_prompt(state, group, round_number)
    chosen = wrenches.taken(state, group.id, round_number)
    if chosen is None:
        return wrench_choice.ask(state, group, now, wrench_choice.asked_for(state, group, now, round_number))
    if group.prevailing is not None and _running(state, act) is None:
        return _running_prompt(group)
    return _position_prompt(state, act, group, round_number, chosen, now)


def _after_that(state: State, group: Fasteners, position: int) -> int:
    """The position whose turn comes after this one; 0 if the round ends with it."""
    hold = state.assembly.held[group.id]
    left = [
        each
        for each in order_of(state.pump, group.id)
        if each not in hold.done and each not in hold.disposed and each != position
    ]
    if left:
        return left[0]
    return order_of(state.pump, group.id)[0] if hold.rounds + 1 < rounds_of(state.pump, group.id) else 0


def _position_prompt(
    state: State, act: Act, group: Fasteners, round_number: int, chosen: tuple[str, str], now: datetime
) -> Prompt:
    position = guard.next_position(state.assembly, group.id)
    assert position is not None
    wrench = wrenches.in_use(state, chosen)
    here = at_position(state, group, position)
    outcome = figure(here, wrench, round_number, position, wrenches.today(state, now), _running(state, act))
    if isinstance(outcome, Refused):
        return wrench_choice.ask(state, group, now, round_number)
    rounds = rounds_of(state.pump, group.id)
    share = round_target(group, round_number).share
    figures = []
    for number in range(1, rounds + 1):
        other = figure(group, wrench, number, 1, wrenches.today(state, now), _running(state, act))
        figures.append(f"{other.value:f}" if isinstance(other, Setting) else "")
    where = f"position {position}" if group.count > 1 else group.called
    foot = group.crowfoot is not None and position in group.crowfoot.at
    how = "pull until it shows this" if wrench.indicates else "set it to this, pull once to the click"
    if group.hand == "left":
        how += "; left-hand thread: pull counter-clockwise"
    wanted = round_target(here, round_number, _running(state, act)).target
    why = f"{wanted} is wanted at the screw" + (", with the crow-foot on" if foot else "")
    kind = "showed" if wrench.indicates else "clicked, set to"
    return Prompt(
        question=f"round {round_number} position {position}",
        form=Form.NUMBER if wrench.indicates else Form.CONFIRM,
        verb="TIGHTEN",
        ask=f"{group.called}, round {round_number} of {rounds} ({share:f} %)"
        + (f", {where}" if group.count > 1 else ""),
        unit=outcome.unit,
        good=f"{outcome.low_mark:f} to {outcome.high_mark:f} {outcome.unit}",
        figure=Figure(
            f"{outcome.value:f}", outcome.unit, how, f"{outcome.low_mark:f} to {outcome.high_mark:f}", why
        ),
        enter=f"records: {where} {kind} "
        + ("what you type" if wrench.indicates else f"{outcome.value:f} {outcome.unit}"),
        notes=(f"with {wrench.id}",),
        target=group.id,
        picture=picture(state, group, position, _after_that(state, group, position), tuple(figures)),
        empty=None if wrench.indicates else "",
    )


def _running_prompt(group: Fasteners) -> Prompt:
    assert group.prevailing is not None
    return Prompt(
        question=RUNNING_TORQUE,
        form=Form.NUMBER,
        verb="MEASURE",
        do=("Turn the nut down until it is one turn from its seat. Read what it takes to turn it.",),
        ask=f"running torque of the {group.called}",
        unit=group.prevailing.min.unit,
        good=f"{group.prevailing.min} to {group.prevailing.max}",
        enter="records the running torque",
        target=group.id,
    )


def _by_hand(group: Fasteners, round_number: int) -> bool:
    """Whether a round is done without a torque wrench."""
    return group.torque is None or round_number in group.without_wrench


def _by_hand_prompt(state: State, group: Fasteners, round_number: int) -> Prompt:
    position = guard.next_position(state.assembly, group.id)
    assert position is not None
    touching = group.torque is not None
    which = f", round {round_number} of {rounds_of(state.pump, group.id)}" if touching else ""
    return Prompt(
        question=f"round {round_number} position {position}",
        form=Form.CONFIRM,
        verb="TIGHTEN",
        do=("By hand, with no torque wrench: until its head touches, and no further.",) if touching else (),
        ask=f"{group.called}{which}, position {position}",
        enter=f"records that position {position} {'touches' if touching else 'is tight'}",
        target=group.id,
        picture=picture(state, group, position, _after_that(state, group, position), ()),
        empty="",
    )


# ---------------------------------------------------------------------- answers


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    group = state.pump.groups[act.target]
    kind, *rest = prompt.question.split(" ")
    match kind:
        case "pose":
            needed = asked.reached_from(state, group.into, group.from_)
            assert needed is not None
            return asked.take_pose(state, act, needed, answer)
        case "wrench" | "unit":
            number = int(rest[1]) if len(rest) > 1 else 0
            return wrench_choice.take(state, act, group, prompt.question, answer, now, number)
        case "running":
            return _take_running(state, act, group, answer)
        case "turn":
            return turning.take(state, act, group, int(rest[0]), answer)
        case "pass" | "reading":
            return last_pass.take(state, act, group, prompt.question, answer, _running(state, act), now)
    return _take_position(state, act, group, prompt, answer, now)


def _take_position(
    state: State, act: Act, group: Fasteners, prompt: Prompt, answer: str, now: datetime
) -> Outcome:
    due = int(prompt.question.rsplit(" ", 1)[1])
    position, text = named(answer, due)
    round_number = state.assembly.held[group.id].rounds + 1
    refusals = list(guard.may_tighten(state.assembly, group.id, position, round_number))
    over = past_handling(state, group, now)
    if over is not None:
        return Outcome((), (over,), (went_back(state, (group.id,), over.wrong),))
    if any(each.rule == "no-such-position" for each in refusals):
        return Outcome((), tuple(refusals))
    if _by_hand(group, round_number):
        event = PositionTightened(
            act=act.id, group=group.id, round=round_number, position=position, wrench="", how="by hand",
            value=0.0, unit="", newton_metre=0.0,
        )  # fmt: skip
        return Outcome((_completing(state, act, group, event, position),), tuple(refusals))
    chosen = wrenches.taken(state, group.id, round_number)
    assert chosen is not None
    wrench = wrenches.in_use(state, chosen)
    running = _running(state, act)
    here = at_position(state, group, position)
    outcome = figure(here, wrench, round_number, position, wrenches.today(state, now), running)
    if isinstance(outcome, Refused):
        return Outcome(
            refusals=(Refusal("wrench-does-not-fit", outcome.why, mend="take another", passable=False),)
        )
    marked, read = "", outcome.quantity
    mend: tuple[Event, ...] = ()
    if wrench.indicates or text:
        # Of a wrench that only clicks, what is typed is the mark it was set to.
        typed = shown.reading(text, outcome.unit)
        if isinstance(typed, Outcome):
            return typed
        read = typed
        first_touch = round_number == group.rounds_with_wrench[0]
        wrong, marked = shown.judged(
            state, group, wrench, read, round_number, position, running, first_touch=first_touch
        )
        if wrong is not None:
            refusals.append(wrong)
            if wrong.passable:
                mend = (went_back(state, (group.id,), wrong.wrong),)
    event = PositionTightened(
        act=act.id,
        group=group.id,
        round=round_number,
        position=position,
        wrench=wrench.id,
        how="showed" if wrench.indicates else "set",
        value=float(read.value),
        unit=read.unit,
        newton_metre=read.si,
        marked=marked,
    )
    return Outcome((_completing(state, act, group, event, position),), tuple(refusals), mend)


def _completing(
    state: State, act: Act, group: Fasteners, event: PositionTightened, position: int
) -> PositionTightened:
    """The event, marked as completing the act if the last position of its last round is done by it."""
    hold = state.assembly.held[group.id]
    last = len({*hold.done, position} | hold.disposed) >= group.count
    ends_act = last and hold.rounds + 1 >= _last_round_of_act(state, act)
    return replace(event, done=ends_act and not goes_on(state.pump, act))


def _take_running(state: State, act: Act, group: Fasteners, answer: str) -> Outcome:
    assert group.prevailing is not None
    unit = group.prevailing.min.unit
    read = shown.reading(answer, unit)
    if isinstance(read, Outcome):
        return read
    refusals: tuple[Refusal, ...] = ()
    if not group.prevailing.min.si <= read.si <= group.prevailing.max.si:
        refusals = (
            Refusal(
                "running-torque-outside",
                f"{read} is outside {group.prevailing.min} to {group.prevailing.max}",
                group.called,
                "replace the nut; was it on its seat already when you read it?",
                passable=False,
            ),
        )
    chosen = wrenches.taken(state, group.id, state.assembly.held[group.id].rounds + 1)
    event = Measured(
        act=act.id,
        what=RUNNING_TORQUE,
        value=float(read.value),
        unit=read.unit,
        si=read.si,
        verdict="inside",
        instrument=chosen[0] if chosen is not None else "",
    )
    return Outcome((event,), refusals)


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    group = state.pump.groups[act.target]
    kind = prompt.question.split(" ")[0]
    match kind:
        case "pose":
            needed = asked.reached_from(state, group.into, group.from_)
            assert needed is not None
            return needed[1][0]
        case "wrench" | "unit":
            return wrench_choice.careful(state, prompt)
        case "running":
            assert group.prevailing is not None
            return f"{group.prevailing.min.value:f}"
        case "turn":
            assert group.angle is not None
            return f"{group.angle.add.to('°'):g}"
        case "pass":
            return last_pass.STANDS
    return prompt.figure.text if prompt.figure is not None and prompt.form is Form.NUMBER else ""
