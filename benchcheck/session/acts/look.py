"""Look: how a part lies, or what is in a groove, seen once more before it is hidden."""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.assembly.facing import end_up
from benchcheck.assembly.refusal import Refusal
from benchcheck.session.acts import questions as asked
from benchcheck.session.arrival import LEFT_EMPTY, ONE_RING, RINGS_SEEN, ring_choices
from benchcheck.session.events import GrooveFound, Told, WorkTurned
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt
from benchcheck.session.state import State


def ask(state: State, act: Act, now: datetime) -> Prompt:
    thing = act.target
    if thing in state.pump.grooves:
        return groove_prompt(state, act, thing)
    return pose_prompt(state, thing) or face_prompt(state, act, thing)


def pose_prompt(state: State, part: str) -> Prompt | None:
    """How the work lies in which a part is looked at; None where that is known, or does not matter."""
    pump, root = state.pump, state.assembly.root(part)
    if pump.parts[root].ends is None or root in state.assembly.poses:
        return None
    return Prompt(
        question="pose",
        form=Form.CHOICE,
        verb="LOOK",
        ask=f"which end of {pump.the(root)} is up now?",
        choices=tuple(Choice(end, f"the {end} is up") for end in pump.ends(root)),
        enter=f"records how {pump.the(root)} lies",
        target=root,
    )


def face_prompt(state: State, act: Act, part: str) -> Prompt:
    faces = asked.face_choices(state, act, part)
    root = state.assembly.root(part)
    up = state.assembly.poses.get(root, "")
    return Prompt(
        question=f"face {part}",
        form=Form.CHOICE,
        verb="LOOK",
        ask=f"as it lies now, {up} up: what of {state.pump.the(part)} points to you?",
        choices=faces,
        enter="records what you see",
        target=part,
        picture=asked.face_picture(part, faces),
    )


def groove_prompt(state: State, act: Act, groove: str) -> Prompt:
    told = state.pump.grooves[groove]
    return Prompt(
        question=f"groove {groove}",
        form=Form.CHOICE,
        verb="LOOK",
        ask=f"{groove}, {told.where}, on {state.pump.the(told.in_)}: what lies in it?",
        choices=ring_choices(asked.seed(state, act, groove)),
        enter=f"records what lies in {groove}",
        target=groove,
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    thing = act.target
    if prompt.question == "pose":
        return Outcome((WorkTurned(act=act.id, work=state.assembly.root(thing), up=answer),))
    event = Told(act=act.id, done=True, what=prompt.question, value=answer)
    wrong = differs(state, thing, answer)
    if wrong is None:
        return Outcome((event,))
    if thing in state.pump.grooves:
        return Outcome((), (wrong,), (GrooveFound(act=act.id, groove=thing, found=answer),))
    return Outcome(
        (), (wrong,), (went_back(state, (thing,), wrong.wrong),) if thing in state.assembly.seated else ()
    )


def expected(state: State, thing: str) -> str:
    """What is to be seen, by the record."""
    return ONE_RING if thing in state.pump.grooves else end_up(state.assembly, thing) or ""


def differs(state: State, thing: str, answer: str) -> Refusal | None:
    """What is wrong with what was seen."""
    pump, right = state.pump, expected(state, thing)
    if answer == right:
        return None
    if thing in pump.grooves:
        told = pump.grooves[thing]
        empty = answer == LEFT_EMPTY
        return Refusal(
            "groove-left-empty" if empty else "second-ring-in-a-groove",
            f"{thing} is to hold one ring, and {RINGS_SEEN[answer]}",
            f"{told.where}, on {pump.the(told.in_)}",
            f"one {pump.value(told.takes)}, {told.material}, in {thing}",
            passable=False,
        )
    because = next((f", because {must.because}" for must in pump.faces if must.part == thing), "")
    return Refusal(
        "part-faces-the-wrong-way",
        f"the {right} of {pump.the(thing)} should point to you now{because}",
        pump.the(thing),
        f"take {pump.the(thing)} out and fit a good one the other way round",
        passable=False,
    )


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    if prompt.question == "pose":
        return state.pump.ends(state.assembly.root(act.target))[0]
    return expected(state, act.target)
