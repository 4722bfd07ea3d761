"""Ask: one fact of a step. A number with its limits, one of a few answers, words, or a count.

What stands outside its limits is recorded as it is; what becomes of it is asked next (`outside.py`).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Any

from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.session.acts import bags, gauge_choice, laid_out, number, tray
from benchcheck.session.acts import questions as asked
from benchcheck.session.arrival import another_pump, same_serial
from benchcheck.session.events import Told
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, refused
from benchcheck.session.state import State


def ask(state: State, act: Act, now: datetime) -> Prompt:
    question = act.question
    match question.kind:
        case "kit":
            return bags.ask(state, question)
        case "instruments":
            return laid_out.ask(state, now)
        case "mat":
            return tray.mat_prompt(state, _common(act))
        case "tools":
            return tray.tools_prompt(state, _common(act))
        case "serial" | "lot" | "words":
            return Prompt(
                **{**_common(act), "verb": "READ"}, form=Form.WORDS, ask=question.what, enter="records it"
            )
        case "scrap" | "count":
            return Prompt(
                **{**_common(act), "verb": "COUNT"},
                form=Form.NUMBER,
                ask=question.what,
                enter="records the count",
            )
    if question.one_of:
        choices = tuple(Choice(each, each) for each in question.one_of)
        return Prompt(
            **{**_common(act), "verb": "CHECK"},
            form=Form.CHOICE,
            ask=question.what,
            choices=choices,
            enter="records what you say",
        )
    if not number.is_asked(question):
        return Prompt(
            **{**_common(act), "verb": "READ"}, form=Form.WORDS, ask=question.what, enter="records it"
        )
    if gauge_choice.is_asked(state, question, now):
        return gauge_choice.ask(state, act, now, _common(act))
    return number.ask(state, act, _common(act))


def _common(act: Act) -> dict[str, Any]:
    tool = act.question.tool
    return {
        "question": "ask",
        "target": (act.question.of or act.step.of or ("",))[0],
        "do": (asked.sentence(f"with {tool}"),) if tool else (),
    }


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    question = act.question
    match question.kind:
        case "kit":
            return bags.take(state, act, answer)
        case "instruments":
            return laid_out.take(state, act, prompt, answer, now)
        case "mat" | "tools" | "scrap":
            counted = tray.take(state, act, question.kind, answer)
            if isinstance(counted, Outcome):
                return counted
            return Outcome((replace(counted[0], done=True),), counted[1])
        case "count":
            return _take_count(act, answer)
        case "serial" if not same_serial(answer, state.header.serial):
            return another_pump(answer)
    if question.one_of or not number.is_asked(question):
        return _take_words(state, act, answer)
    if prompt.question == gauge_choice.QUESTION:
        return gauge_choice.take(state, act, answer, now)
    return number.take(state, act, answer, now)


def _take_count(act: Act, answer: str) -> Outcome:
    if not (answer.isascii() and answer.isdigit() and len(answer) < 7):
        return refused("not-a-count", f'"{answer}" is not a count; type a whole number')
    return Outcome((Told(act=act.id, done=True, what=act.question.what, value=answer),))


def _take_words(state: State, act: Act, answer: str) -> Outcome:
    question = act.question
    good = not question.good or answer in question.good
    if question.sets == "variant" and answer not in state.pump.procedure.procedure.variants:
        return refused("no-such-variant", f"{answer} is no variant of this procedure")
    if question.sets == "variant" and state.variant is not None and answer != state.variant:
        refusal = number.variant_differs(state, answer, answer)
        return Outcome((Told(act=act.id, done=True, what=question.what, value=answer),), (refusal,))
    if not good and act.step.cannot_pass:
        refusal = Refusal(
            "may-not-go-on",
            f"{question.what}: {answer}",
            mend=f"go on only with: {', '.join(question.good)}",
            passable=False,
        )
        return Outcome((), (refusal,))
    return Outcome(
        (
            Told(
                act=act.id,
                done=good,
                what=question.what,
                value=answer,
                verdict="inside" if good else "outside",
            ),
        )
    )


# ---------------------------------------------------------------------- the careful technician


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    question = act.question
    if prompt.question == gauge_choice.QUESTION:
        return gauge_choice.careful(prompt)
    match question.kind:
        case "kit":
            return bags.careful(state)
        case "instruments":
            return laid_out.careful(state, prompt)
        case "mat":
            return str(tray.on_the_mat(state))
        case "tools":
            return str(tray.tools_on_hooks(state))
        case "scrap":
            return str(tray.scrap(state))
        case "count":
            return "0"
        case "serial":
            return state.header.serial
        case "lot":
            return "LOT-1"
        case "words":
            return "none"
    if question.sets == "variant" and question.one_of:
        return state.variant or question.one_of[0]
    if question.one_of:
        return (question.good or question.one_of)[0]
    if question.proves:
        low, high = question.proves[state.variant or next(iter(question.proves))]
        return f"{(low.value + high.value) / 2:f}"
    if not number.is_asked(question):
        return "none"
    return number.careful(state, question)
