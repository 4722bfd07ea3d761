"""Choosing a gauge: which one of the register a reading is taken on.

Not an act of its own: questions that ask for a kind of gauge use it. It is asked at the first of them and
kept in hand; again where the one in hand does not serve, was laid down, fell, or is out of date.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics import gauge as mechanics
from benchcheck.mechanics.calibration import out_of_date
from benchcheck.mechanics.gauge import Gauge
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.model import Ask
from benchcheck.session.acts import wrenches
from benchcheck.session.events import GaugeTaken
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, refused
from benchcheck.session.state import State

QUESTION = "gauge"


def is_asked(state: State, question: Ask, now: datetime) -> bool:
    """Whether a gauge has to be chosen before this is read."""
    return question.gauge is not None and in_hand(state, question, now) is None


def in_hand(state: State, question: Ask, now: datetime) -> Gauge | None:
    """The gauge that this is read on: the one in hand, as long as it serves."""
    chosen = taken(state, question)
    return chosen if chosen is not None and why_not(state, chosen, question, now) is None else None


def taken(state: State, question: Ask) -> Gauge | None:
    """The gauge of the kind asked for that was chosen last."""
    chosen = state.gauges.get((question.gauge or "").casefold())
    return state.job.registers.gauge(chosen) if chosen else None


def why_not(state: State, gauge: Gauge, question: Ask, now: datetime) -> str | None:
    """Why a gauge is not for this reading; None if it is."""
    if (doubt := wrenches.in_doubt(state, gauge.id)) is not None:
        return doubt
    if gauge.calibration_due is not None:
        late = out_of_date(gauge.calibration_due, wrenches.today(state, now))
        if late is not None:
            return late
    return mechanics.why_not(gauge, question.read_in, *_limits(question), guarded=question.guarded)


def _limits(question: Ask) -> tuple[Quantity | None, Quantity | None]:
    """Least and most that it has to tell: the limits, or what proves the variants."""
    if not question.proves:
        return question.min, question.max
    lows, highs = zip(*question.proves.values(), strict=True)
    return min(lows, key=lambda each: each.si), max(highs, key=lambda each: each.si)


def ask(state: State, act: Act, now: datetime, common: dict[str, Any]) -> Prompt:
    """Which gauge: those that serve first, each with its scale; the others with the reason."""
    question = act.question
    fit: list[Choice] = []
    unfit: list[Choice] = []
    for gauge in state.job.registers.gauges:
        if not gauge.is_kind(question.gauge or ""):
            continue
        why = why_not(state, gauge, question, now)
        if why is not None:
            unfit.append(Choice(gauge.id, f"not for this: {why}", serves=False))
        else:
            fit.append(Choice(gauge.id, _in_words(gauge)))
    return Prompt(
        **{**common, "question": QUESTION, "verb": "CHOOSE", "do": ()},
        form=Form.CHOICE,
        ask=f"{question.what}: which {question.gauge}? Read its number off it",
        choices=(*fit, *unfit),
        enter="takes that gauge",
    )


def _in_words(gauge: Gauge) -> str:
    """Its scale, and until when it is calibrated."""
    scale = [f"{gauge.low} to {gauge.high}"] if gauge.low is not None else []
    due = gauge.calibration_due
    scale.append(f"due {due:%-d %b %Y}" if due is not None else "not calibrated")
    return ", ".join(scale)


def take(state: State, act: Act, answer: str, now: datetime) -> Outcome:
    """The gauge that was named."""
    gauge = state.job.registers.gauge(answer)
    if gauge is None:
        return refused("gauge-not-known", f"{answer} is not in the register of instruments")
    why = why_not(state, gauge, act.question, now)
    if why is not None:
        wrong = f"{gauge.id}: {why}"
        return Outcome(refusals=(Refusal("gauge-does-not-fit", wrong, mend="take another", passable=False),))
    kind = (act.question.gauge or "").casefold()
    return Outcome((GaugeTaken(act=act.id, of_kind=kind, gauge=gauge.id),))


def careful(prompt: Prompt) -> str:
    """The first that serves."""
    return prompt.choices[0].value


def marked(gauge: Gauge | None, question: Ask, read: Quantity) -> str:
    """The mark for QA that a reading inside its limits gets: that the gauge's own error decides."""
    if gauge is None or not question.guarded:
        return ""
    guarded = mechanics.is_guarded(gauge, read, question.min, question.max)
    return "" if guarded else wrenches.UNGUARDED
