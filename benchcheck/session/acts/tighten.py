"""Tighten: position by position in its order, round by round, then the check pass, or the angle.

A setting wrench is set and clicks: that is its event. A reading exists only where the wrench shows one.
An answer may name the position it is about: "3: 134", or "3:" after a click.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.planned import goes_on, order_of, rounds_of
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.tightening import figure, on_its_scale, round_target, share_shown
from benchcheck.mechanics.units import Quantity, QuantityError, parse, parse_number
from benchcheck.mechanics.wrench import Refused, Setting, Wrench, reading_verdict
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts import wrenches, wrong_readings
from benchcheck.session.acts.joints import at_position, past_handling
from benchcheck.session.events import (
    Event,
    Measured,
    PositionChecked,
    PositionTightened,
    PositionTurned,
    WrenchTaken,
)
from benchcheck.session.fold import RUNNING_TORQUE
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Choice, Figure, Form, Outcome, Prompt, RingPicture, refused
from benchcheck.session.state import State

STANDS = "stands"
MOVED = "moved"


def _running(state: State, act: Act) -> Quantity | None:
    """The running torque measured for this group, where it has one."""
    kept = state.kept.get(act.id)
    return parse(kept, "torque") if kept is not None else None


def _last_round_of_act(state: State, act: Act) -> int:
    return act.step.round or rounds_of(state.pump, act.target)


def _in_pass(state: State, act: Act) -> bool:
    return state.assembly.held[act.target].rounds >= rounds_of(state.pump, act.target)


def _next_to_check(state: State, group: Fasteners) -> int:
    hold = state.assembly.held[group.id]
    order = order_of(state.pump, group.id) if group.angle else tuple(range(1, group.count + 1))
    return next(each for each in order if each not in hold.checked and each not in hold.disposed)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    pump = state.pump
    group = pump.groups[act.target]
    needed = asked.reached_from(state, group.into, group.from_)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    if _in_pass(state, act):
        return _pass_prompt(state, group)
    round_number = state.assembly.held[group.id].rounds + 1
    if _by_hand(group, round_number):
        return _by_hand_prompt(state, group, round_number)
    chosen = wrenches.taken(state, group.id, round_number)
    if chosen is None:
        return wrench_prompt(
            state, group, now, 0 if wrenches.any_does_all(state, group, now) else round_number
        )
    if group.prevailing is not None and _running(state, act) is None:
        return _running_prompt(group, chosen)
    return _position_prompt(state, act, group, round_number, chosen, now)


def wrench_prompt(state: State, group: Fasteners, now: datetime, round_number: int) -> Prompt:
    assert group.torque is not None
    which = f", round {round_number}" if round_number else ""
    return Prompt(
        question=f"wrench {group.id}" if not round_number else f"wrench {group.id} {round_number}",
        form=Form.CHOICE,
        verb="CHOOSE",
        do=(
            asked.sentence(
                f"{group.called}{which}: {group.torque.target} ± {group.torque.tolerance}"
                + (f", in rounds of {', '.join(map(str, group.rounds))}" if len(group.rounds) > 1 else "")
            ),
        ),
        ask=f"which wrench for the {group.called}{which}?",
        choices=wrenches.choices(state, group, now, round_number),
        enter="takes that wrench",
        target=group.id,
    )


def take_wrench(
    state: State, act: Act, group: Fasteners, answer: str, now: datetime, round_number: int
) -> Outcome:
    wrench = state.job.registers.wrench(answer)
    if wrench is None:
        return refused("wrench-not-known", f"{answer} is not in the register of instruments")
    why = wrenches.why_not(state, group, wrench, now, round_number)
    if why is not None:
        return Outcome(
            refusals=(
                Refusal("wrench-does-not-fit", f"{wrench.id}: {why}", mend="take another", passable=False),
            )
        )
    assert group.torque is not None
    unit = wrench.unit_for(group.torque.target)
    return Outcome(
        (WrenchTaken(act=act.id, group=group.id, round=round_number, wrench=wrench.id, unit=unit),)
    )


def _wrench(state: State, chosen: tuple[str, str]) -> Wrench:
    wrench = state.job.registers.wrench(chosen[0])
    assert wrench is not None
    return wrench


def picture(
    state: State, group: Fasteners, now_at: int, next_at: int, figures: tuple[str, ...]
) -> RingPicture:
    """The group as drawn: which positions are done, which is now and which next."""
    hold = state.assembly.held[group.id]
    layout = group.layout
    in_pass = hold.rounds >= rounds_of(state.pump, group.id)
    mine = [each for each in group.screws if not each.for_ or state.variant in each.for_]
    return RingPicture(
        group=group.called,
        count=group.count,
        circle=(layout.circle or 0) if layout else 0,
        rows=layout.rectangle[0] if layout and layout.rectangle else 0,
        columns=layout.rectangle[1] if layout and layout.rectangle else 0,
        points=(layout.points or ()) if layout else (),
        seen_from=(layout.seen_from or "") if layout else "",
        datum=(layout.datum or "") if layout else "",
        at_datum=layout.at_datum if layout else True,
        order=order_of(state.pump, group.id),
        done=hold.checked if in_pass else hold.done,
        now=now_at,
        next=next_at,
        round=hold.rounds + 1,
        rounds=tuple(str(each) for each in group.rounds) or ("100 %",),
        figures=figures,
        check_pass=in_pass,
        screws=tuple((position, each.item) for each in mine for position in each.at),
    )


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
    wrench = _wrench(state, chosen)
    here = at_position(state, group, position)
    outcome = figure(here, wrench, round_number, position, wrenches.today(state, now), _running(state, act))
    if isinstance(outcome, Refused):
        return wrench_prompt(state, group, now, round_number)
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


def _running_prompt(group: Fasteners, chosen: tuple[str, str]) -> Prompt:
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


def _pass_prompt(state: State, group: Fasteners) -> Prompt:
    position = _next_to_check(state, group)
    hold = state.assembly.held[group.id]
    left = [each for each in range(1, group.count + 1) if each not in hold.checked and each != position]
    if group.angle is not None:
        low, high = _angle_limits(group)
        return Prompt(
            question=f"turn {position}",
            form=Form.NUMBER,
            verb="TURN",
            do=("Onward in one pull, from the snug torque. Once only: a second angle scraps the screw.",),
            ask=f"{group.called}: by how much was position {position} turned on?",
            unit="°",
            good=f"{low:g} to {high:g} °",
            figure=Figure(
                f"{group.angle.add.to('°'):g}", "°", "onward, in one pull", f"{low:g} to {high:g}", ""
            ),
            enter=f"records the angle; position {position} is then finished for good",
            target=group.id,
            picture=picture(state, group, position, left[0] if left else 0, ()),
        )
    return Prompt(
        question=f"pass {position}",
        form=Form.CHOICE,
        verb="CHECK",
        do=("All round once at the full torque, clockwise.",),
        ask=f"{group.called}, position {position}: did it move before the wrench was satisfied?",
        choices=(Choice(STANDS, "it stood still"), Choice(MOVED, "it moved")),
        enter=f"records whether position {position} moved",
        target=group.id,
        picture=picture(state, group, position, left[0] if left else 0, ()),
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


def _angle_limits(group: Fasteners) -> tuple[float, float]:
    assert group.angle is not None
    add, room = group.angle.add.to("°"), group.angle.tolerance.to("°")
    return add - room, add + room


# ---------------------------------------------------------------------- answers


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    group = state.pump.groups[act.target]
    kind, *rest = prompt.question.split(" ")
    match kind:
        case "pose":
            needed = asked.reached_from(state, group.into, group.from_)
            assert needed is not None
            return asked.take_pose(state, act, needed, answer)
        case "wrench":
            return take_wrench(state, act, group, answer, now, int(rest[1]) if len(rest) > 1 else 0)
        case "running":
            return _take_running(act, group, answer)
        case "turn":
            return _take_turn(state, act, group, int(rest[0]), answer)
        case "pass":
            return _take_pass(state, act, group, int(rest[0]), answer)
    return _take_position(state, act, group, prompt, answer, now)


def _named(answer: str, due: int) -> tuple[int, str]:
    """The position an answer is about, and the rest of it."""
    head, colon, tail = answer.partition(":")
    if colon and head.strip().isascii() and head.strip().isdigit() and len(head) < 5:
        return int(head), tail.strip()
    return due, answer


def _take_position(
    state: State, act: Act, group: Fasteners, prompt: Prompt, answer: str, now: datetime
) -> Outcome:
    due = int(prompt.question.rsplit(" ", 1)[1])
    position, text = _named(answer, due)
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
    wrench = _wrench(state, chosen)
    running = _running(state, act)
    here = at_position(state, group, position)
    outcome = figure(here, wrench, round_number, position, wrenches.today(state, now), running)
    if isinstance(outcome, Refused):
        return Outcome(
            refusals=(Refusal("wrench-does-not-fit", outcome.why, mend="take another", passable=False),)
        )
    marked, shown = "", outcome.quantity
    mend: tuple[Event, ...] = ()
    if wrench.indicates or text:
        # Of a wrench that only clicks, what is typed is the mark it was set to.
        read = _reading(text, outcome.unit)
        if isinstance(read, Outcome):
            return read
        shown = read
        wrong, marked = _judged(state, group, wrench, shown, round_number, position, running)
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
        value=float(shown.value),
        unit=shown.unit,
        newton_metre=shown.si,
        marked=marked,
    )
    return Outcome((_completing(state, act, group, event, position),), tuple(refusals), mend)


def _reading(text: str, unit: str) -> Quantity | Outcome:
    """What the wrench showed: a number in its unit, or a whole quantity in that unit."""
    if not text:
        return refused("nothing-answered", f"what did it show, in {unit}?")
    try:
        if any(letter.isalpha() for letter in text):
            quantity = parse(text, "torque", decimal_comma=True)
            if quantity.unit != unit:
                return refused(
                    "reading-in-another-unit",
                    f"the wrench is used in {unit}; you typed {quantity.unit}",
                    mend=f"read it in {unit}",
                )
            return quantity
        return Quantity(parse_number(text), unit)
    except QuantityError as fault:
        return refused("not-a-reading", str(fault))


def _judged(
    state: State,
    group: Fasteners,
    wrench: Wrench,
    shown: Quantity,
    round_number: int,
    position: int,
    running: Quantity | None,
) -> tuple[Refusal | None, str]:
    """What is wrong with a reading, and the mark it gets for QA."""
    group = at_position(state, group, position)
    wanted = round_target(group, round_number, running)
    share = share_shown(group, position, wrench)
    wanted = on_its_scale(wanted, share, shown.unit)
    verdict = reading_verdict(wrench, shown, wanted.low_newton_metre, wanted.high_newton_metre)
    if verdict == "inside":
        return None, ""
    if verdict != "outside":
        return None, "outside the guarded part of the tolerance"
    first_touch = round_number == group.rounds_with_wrench[0]
    full = on_its_scale(round_target(group, rounds_of(state.pump, group.id), running), share, shown.unit)
    where = f"{group.called}, position {position}" + (", with the crow-foot on" if share != 1 else "")
    found = wrong_readings.refusal(shown, wanted, full, where, first_touch=first_touch)
    return found, f"{'above' if shown.si > wanted.target.si else 'below'} the tolerance"


def _completing(
    state: State, act: Act, group: Fasteners, event: PositionTightened, position: int
) -> PositionTightened:
    """The event, marked as completing the act if the last position of its last round is done by it."""
    from dataclasses import replace

    hold = state.assembly.held[group.id]
    last = len({*hold.done, position} | hold.disposed) >= group.count
    ends_act = last and hold.rounds + 1 >= _last_round_of_act(state, act)
    return replace(event, done=ends_act and not goes_on(state.pump, act))


def _take_running(act: Act, group: Fasteners, answer: str) -> Outcome:
    assert group.prevailing is not None
    unit = group.prevailing.min.unit
    read = _reading(answer, unit)
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
    event = Measured(
        act=act.id, what=RUNNING_TORQUE, value=float(read.value), unit=read.unit, si=read.si, verdict="inside"
    )
    return Outcome((event,), refusals)


def _take_turn(state: State, act: Act, group: Fasteners, due: int, answer: str) -> Outcome:
    position, text = _named(answer, due)
    try:
        degree = float(parse_number(text.removesuffix("°")))
    except QuantityError as fault:
        return refused("not-a-reading", str(fault))
    low, high = _angle_limits(group)
    refusals: list[Refusal] = []
    if position in state.assembly.held[group.id].checked:
        twice = Refusal(
            "angle-given-twice",
            f"position {position} was turned by its angle before",
            group.called,
            "the screw is scrap: loosen the group and begin again with a new one",
            passable=False,
        )
        return Outcome((), (twice,), (went_back(state, (group.id,), twice.wrong),))
    if position != due:
        refusals.append(
            Refusal(
                "position-out-of-order",
                f"position {due} is due, not {position}",
                group.called,
                f"go to {due}",
                False,
            )
        )
    marked = ""
    if degree > high:
        marked = "beyond the tolerance"
        refusals.append(
            Refusal(
                "angle-too-far",
                f"{degree:g}° is more than {high:g}°",
                group.called,
                "the screw is scrap: begin again with a new one",
            )
        )
    elif degree < low:
        refusals.append(
            Refusal(
                "angle-too-small",
                f"{degree:g}° is less than {low:g}°",
                group.called,
                "pull on to the full angle",
                False,
            )
        )
    hold = state.assembly.held[group.id]
    last = len({*hold.checked, position} | hold.disposed) >= group.count
    event = PositionTurned(
        act=act.id, done=last, group=group.id, position=position, degree=degree, marked=marked
    )
    return Outcome((event,), tuple(refusals))


def _take_pass(state: State, act: Act, group: Fasteners, position: int, answer: str) -> Outcome:
    hold = state.assembly.held[group.id]
    moved = answer == MOVED
    last = not moved and len({*hold.checked, position} | hold.disposed) >= group.count
    return Outcome(
        (PositionChecked(act=act.id, done=last, group=group.id, position=position, moved=moved),),
    )


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    group = state.pump.groups[act.target]
    kind = prompt.question.split(" ")[0]
    match kind:
        case "pose":
            needed = asked.reached_from(state, group.into, group.from_)
            assert needed is not None
            return needed[1][0]
        case "wrench":
            return prompt.choices[0].value
        case "running":
            assert group.prevailing is not None
            return f"{group.prevailing.min.value:f}"
        case "turn":
            assert group.angle is not None
            return f"{group.angle.add.to('°'):g}"
        case "pass":
            return STANDS
    return prompt.figure.text if prompt.figure is not None and prompt.form is Form.NUMBER else ""
