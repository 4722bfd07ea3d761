"""Do: work without a number, such as packing with grease. One word that it is done."""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.session.events import Done
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.state import State


def ask(state: State, act: Act, now: datetime) -> Prompt:
    name = act.step.name or act.step.id
    return Prompt(
        question="done",
        form=Form.CONFIRM,
        verb="DO",
        ask=f"{name}: done",
        enter=f"records that it is done: {name}",
        empty="",
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    return Outcome((Done(act=act.id, done=True),))


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    return ""
