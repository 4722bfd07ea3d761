"""Witness: a second person sees the same facts with own eyes. Not "is it right", but "what do you see"."""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act, Verb, acts_of
from benchcheck.session.acts import look
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import Answered, Witnessed, WorkTurned
from benchcheck.session.leaning import about
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, refused
from benchcheck.session.state import State

_DEEDS = (Verb.FIT, Verb.INSTALL, Verb.START, Verb.TIGHTEN)


def _facts(state: State, act: Act) -> tuple[Act, ...]:
    """The acts of the step whose facts are asked anew: looks, and questions with a few answers."""
    return tuple(
        each
        for each in acts_of(state.pump, act.step)
        if each.verb is Verb.LOOK or (each.verb is Verb.ASK and each.question.one_of)
    )


def _questions(state: State, act: Act) -> tuple[str, ...]:
    return ("witness", *(f"saw {fact.target}" for fact in _facts(state, act)))


def _doers(state: State, act: Act) -> tuple[str, ...]:
    """Who put in, filled or tightened what is looked at."""
    things = about(state, act)
    facts = (state.fact(each.id) for each in state.acts if each.target in things and each.verb in _DEEDS)
    return tuple(fact.by for fact in facts if fact is not None and fact.by)


def _asked_fact(state: State, act: Act, question: str) -> Act:
    return next(fact for fact in _facts(state, act) if question == f"saw {fact.target}")


def ask(state: State, act: Act, now: datetime) -> Prompt:
    question = asked.first_open(_questions(state, act), state.hand) or "witness"
    name = act.step.name or act.step.id
    if question == "witness":
        return Prompt(
            question=question,
            form=Form.WORDS,
            verb="HOLD POINT",
            ask=f"{name}: a second person looks now. That person's name",
            enter="records who looks",
        )
    fact = _asked_fact(state, act, question)
    who = state.hand["witness"]
    if fact.verb is Verb.ASK:
        return Prompt(
            question=question,
            form=Form.CHOICE,
            verb="HOLD POINT",
            ask=f"{who}, what do you say: {fact.question.what}?",
            choices=tuple(Choice(each, each) for each in fact.question.one_of),
            enter="records what the second person sees",
        )
    if fact.target in state.pump.grooves:
        shown = look.groove_prompt(state, act, fact.target)
    else:
        pose = look.pose_prompt(state, fact.target)
        if pose is not None:
            return pose
        shown = look.face_prompt(state, act, fact.target)
    return Prompt(
        question=question,
        form=shown.form,
        verb="HOLD POINT",
        ask=f"{who}, look for yourself: {shown.ask}",
        choices=shown.choices,
        enter="records what the second person sees",
        target=fact.target,
        picture=shown.picture,
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    if prompt.question == "pose":
        return Outcome((WorkTurned(act=act.id, work=prompt.target, up=answer),))
    if prompt.question == "witness":
        name = asked.second_person(state, answer, "witness", now, _doers(state, act))
        if isinstance(name, Outcome):
            return name
        answer = name
    else:
        fact = _asked_fact(state, act, prompt.question)
        if fact.verb is Verb.ASK:
            told = state.fact(fact.id)
            if told is not None and answer != told.value:
                return refused(
                    "witness-sees-otherwise",
                    f"the second person says {answer}; {state.technician} said {told.value}",
                    mend="look again together; then correct the answer that is wrong",
                )
        else:
            wrong = look.differs(state, fact.target, answer)
            if wrong is not None:
                again = look.take(state, fact, prompt, answer, now)
                return Outcome((), (wrong,), again.mend)
    answers = {**state.hand, prompt.question: answer}
    if asked.first_open(_questions(state, act), answers) is not None:
        return Outcome((Answered(act=act.id, question=prompt.question, value=answer),))
    saw = tuple(
        f"{question.removeprefix('saw ')}: {value}"
        for question, value in answers.items()
        if question != "witness"
    )
    return Outcome((Witnessed(act=act.id, done=True, name=answers["witness"], saw=saw),))


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    if prompt.question == "pose":
        return prompt.choices[0].value
    if prompt.question == "witness":
        return asked.careful_second(state, "witness", now, _doers(state, act))
    fact = _asked_fact(state, act, prompt.question)
    if fact.verb is Verb.ASK:
        told = state.fact(fact.id)
        return told.value if told is not None else fact.question.one_of[0]
    return look.expected(state, fact.target)
