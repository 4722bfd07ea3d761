"""The instruments laid out before the work: a wrench for each group and round that wants one.

One of the questions of `ask.py`; how one wrench is chosen is in `wrench_choice.py`.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.session.acts import wrench_choice, wrenches
from benchcheck.session.events import Told
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.state import State

ALL_LIE_READY = "done"


def ask(state: State, now: datetime) -> Prompt:
    waiting = _without_a_wrench(state, now)
    if not waiting:
        return Prompt(
            question=ALL_LIE_READY,
            form=Form.CONFIRM,
            verb="LAY OUT",
            ask="the wrenches lie ready, none was dropped since its calibration",
            enter="records that the instruments lie ready",
            empty="",
        )
    group, round_number = waiting[0]
    return wrench_choice.ask(state, state.pump.groups[group], now, round_number)


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    if prompt.question == ALL_LIE_READY:
        return Outcome(
            (Told(act=act.id, done=True, what=act.question.what, value=", ".join(state.wrenches_used)),)
        )
    group, round_number = _without_a_wrench(state, now)[0]
    chosen_for = state.pump.groups[group]
    return wrench_choice.take(state, act, chosen_for, prompt.question, answer, now, round_number)


def careful(state: State, prompt: Prompt) -> str:
    return "" if prompt.question == ALL_LIE_READY else wrench_choice.careful(state, prompt)


def _without_a_wrench(state: State, now: datetime) -> tuple[tuple[str, int], ...]:
    """Groups and rounds that still want a wrench, in order."""
    return tuple(
        (group.id, round_number)
        for group in state.pump.groups.values()
        if group.torque is not None
        for round_number in wrenches.rounds_to_choose(state, group, now)
    )
