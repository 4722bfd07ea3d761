"""Loosen: a fastener group comes off, in the reverse of its order."""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.planned import order_of
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import GroupLoosened
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.state import State


def ask(state: State, act: Act, now: datetime) -> Prompt:
    group = state.pump.groups[act.target]
    needed = asked.reached_from(state, group.into, group.from_)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    the = state.pump.the(group.id)
    do = [f"loosen {the}"]
    if group.count > 1:
        order = ", ".join(str(position) for position in reversed(order_of(state.pump, group.id)))
        do.append(f"a quarter turn each first, then out, in the order {order}")
    if group.hand == "left":
        do.append("left-hand thread: it loosens clockwise")
    return Prompt(
        question="loose",
        form=Form.CONFIRM,
        verb="LOOSEN",
        do=tuple(asked.sentence(line) for line in do),
        ask=the,
        enter=f"records {the} as loose",
        target=group.id,
        empty="",
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    group = state.pump.groups[act.target]
    if prompt.question == "pose":
        needed = asked.reached_from(state, group.into, group.from_)
        assert needed is not None
        return asked.take_pose(state, act, needed, answer)
    return Outcome(
        (GroupLoosened(act=act.id, done=True, group=act.target),),
        guard.may_loosen(state.assembly, act.target),
    )


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    if prompt.question == "pose":
        group = state.pump.groups[act.target]
        needed = asked.reached_from(state, group.into, group.from_)
        assert needed is not None
        return needed[1][0]
    return ""
