"""The careful technician: answers every prompt as the procedure means it, with a clock set on by hand.

What a careful answer is says each act's own module. Each step is worked out once for a state and a time, so
that all who walk the same way share it.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from benchcheck.session import arrival, commands, engine
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import Event
from benchcheck.session.fold import folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.state import State

ONE_ANSWER = timedelta(seconds=15)
"""How long an answer takes."""


def careful_answer(state: State, prompt: Prompt, now: datetime) -> str:
    """What a careful technician answers."""
    if not prompt.act:
        return arrival.careful(state, prompt)
    act = engine.next_act(state)
    assert act is not None
    if prompt.question in ("outside", "clock"):
        return prompt.choices[0].value if prompt.choices else ""
    return engine.module_of(act).careful(state, act, prompt, now)


def asked_at(state: State, now: datetime) -> Prompt | None:
    """What is asked, worked out once for a state and a time."""
    return state.once(f"asked at {now.isoformat()}", lambda: engine.ask(state, now))


@dataclass(frozen=True, slots=True)
class CarefulStep:
    """One prompt answered with care."""

    prompt: Prompt
    answer: str
    asked: datetime
    """When the prompt was asked: waited for, where it had to be."""
    state: State
    """The state after it."""
    now: datetime
    events: tuple[Event, ...]
    refused: str = ""
    """That the answer was refused, and why."""
    mended: bool = False
    """Whether the way that the refusal offers was taken; if not, nothing changed."""


def careful_step(state: State, now: datetime) -> CarefulStep | None:
    """The next prompt answered with care; None if nothing is asked."""
    return state.once(f"careful step at {now.isoformat()}", lambda: _careful_step(state, now))


def _careful_step(state: State, now: datetime) -> CarefulStep | None:
    before: tuple[Event, ...] = ()
    while (prompt := asked_at(state, now)) is not None and prompt.until is not None and prompt.until > now:
        now = prompt.until
    if prompt is not None and prompt.question == "second" and state.open_deviations:
        before = _decided(state, now)
        state = folded(state, before)
        prompt = asked_at(state, now)
    if prompt is None:
        return None
    answer = careful_answer(state, prompt, now)
    then = now + ONE_ANSWER
    outcome = engine.answer(state, prompt.id, answer, then)
    if not isinstance(outcome, Outcome):
        return CarefulStep(prompt, answer, now, folded(state, outcome), then, (*before, *outcome))
    refusal = outcome.refusals[0]
    refused = (
        f"{prompt.step or 'arrival'}: a careful answer ({answer!r} to {prompt.question}) was refused by "
        f"{refusal.rule}: {refusal.wrong}"
    )
    mend = engine.written(state, outcome.mend, then) if outcome.mend else ()
    return CarefulStep(
        prompt, answer, now, folded(state, mend), then, (*before, *mend), refused, bool(outcome.mend)
    )


def _decided(state: State, now: datetime) -> tuple[Event, ...]:
    """Every open deviation used as it is, by somebody entitled."""
    events: tuple[Event, ...] = ()
    for deviation in state.open_deviations:
        name = asked.careful_second(state, "dispose", now)
        result = commands.dispose(state, deviation.deviation, "use as is", name, "rehearsed", now)
        if not isinstance(result, Outcome):
            state = folded(state, result)
            events += result
    return events
