"""Lift: a ring comes out of its open groove."""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import RingLifted
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.state import State


def ask(state: State, act: Act, now: datetime) -> Prompt:
    groove = state.pump.grooves[act.target]
    return Prompt(
        question="out",
        form=Form.CONFIRM,
        verb="TAKE OUT",
        do=(asked.sentence(f"the ring out of {groove.id}: {groove.where}, on {state.pump.the(groove.in_)}"),),
        ask=f"{groove.id} is empty and the ring is in the scrap tray",
        enter=f"records that {groove.id} is empty",
        target=groove.id,
        empty="",
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    return Outcome(
        (RingLifted(act=act.id, done=True, groove=act.target),), guard.may_lift(state.assembly, act.target)
    )


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    return ""
