"""Remove: a part comes out. Asked: which end one sees, before it moves; a difference from what it should
be is a finding on the pump as it came in, not an error of the bench.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.procedure.model import Phase
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import PartRemoved
from benchcheck.session.prompt import Form, Outcome, Prompt, refused
from benchcheck.session.state import State


def _needed(state: State, act: Act) -> tuple[str, tuple[str, ...]] | None:
    seat = state.assembly.seated.get(act.target)
    return None if seat is None else asked.reached_from(state, seat.body, seat.end)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    part, pump = act.target, state.pump
    told = pump.parts[part]
    needed = _needed(state, act)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    the = pump.the(part)
    do = [f"take {the} out" if told.temporary else f"take {the} off"]
    if told.single_use is not None and not told.temporary:
        do.append(f"{the} is single-use: {told.single_use.value}")
    common: dict[str, Any] = {
        "verb": "TAKE OUT",
        "do": tuple(asked.sentence(line) for line in do),
        "target": part,
    }
    if told.ends is not None and act.phase is Phase.TEARDOWN:
        faces = asked.face_choices(state, act, part)
        return Prompt(
            **common,
            question="face",
            form=Form.CHOICE,
            ask=f"before {the} moves: which do you see?",
            choices=faces,
            enter=f"records how {the} lay, and as out",
            picture=asked.face_picture(part, faces),
        )
    return Prompt(
        **common,
        question="out",
        form=Form.CONFIRM,
        ask=the,
        enter=f"records {the} as out",
        empty="",
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    needed = _needed(state, act)
    if prompt.question == "pose":
        assert needed is not None
        return asked.take_pose(state, act, needed, answer)
    if answer == asked.NEITHER:
        return refused(
            "part-not-recognised", "neither picture is what you see", mend="compare it with the parts list"
        )
    event = PartRemoved(
        act=act.id, done=True, part=act.target, seen=answer if prompt.question == "face" else ""
    )
    refusals = guard.may_remove(state.assembly, act.target)
    if act.phase is Phase.TEARDOWN:  # what the tool protects is scrap by then
        refusals = tuple(each for each in refusals if each.rule != "guard-missing")
    return Outcome((event,), refusals)


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    if prompt.question == "pose":
        needed = _needed(state, act)
        assert needed is not None
        return needed[1][0]
    if prompt.question == "face":
        return state.pump.planned_seen[act.target]
    return ""
