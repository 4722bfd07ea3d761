"""Start: a fastener group is run in by hand. Asked: which screw goes where, whether each runs down by
fingers, and, the first time something is closed up, how much still lies on the mat and which tools
hang on their hooks.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.procedure.model import Fasteners, Screws
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts import tray
from benchcheck.session.events import Answered, Counted, Event, GroupStarted
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, changed_about
from benchcheck.session.state import State

FREE = "free"
BINDS = "binds"


def _screws(state: State, group: Fasteners) -> tuple[Screws, ...]:
    return tuple(each for each in group.screws if not each.for_ or state.variant in each.for_)


def _positions(screws: Screws) -> str:
    return f"positions {', '.join(map(str, screws.at))}" if screws.at else "all positions"


def _questions(state: State, act: Act) -> tuple[str, ...]:
    group = state.pump.groups[act.target]
    found = []
    items = {each.item for each in group.screws}
    if len(items) > 1:
        found += [f"screws {number}" for number in range(len(_screws(state, group)))]
    found.append("fingers")
    if tray.closes_up(state, act):
        found.append("mat")
        if tray.tools(state):
            found.append("tools")
    return tuple(found)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    pump = state.pump
    group = pump.groups[act.target]
    needed = asked.reached_from(state, group.into, group.from_)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    question = asked.first_open(_questions(state, act), state.hand) or "fingers"
    the = pump.the(group.id)
    common: dict[str, Any] = {
        "question": question,
        "verb": "RUN IN",
        "target": group.id,
        "do": _do(state, group),
    }
    kind, _, number = question.partition(" ")
    if kind == "screws":
        screws = _screws(state, group)[int(number)]
        where = f"at {_positions(screws)}"
        items = [Choice(item, item) for item in dict.fromkeys(each.item for each in group.screws)]
        return Prompt(
            **common,
            form=Form.CHOICE,
            ask=f"{the}, {where}: which screw is in your hand? Read its length",
            choices=(
                *changed_about(items, asked.seed(state, act, question)),
                Choice(asked.NEITHER, "another one"),
            ),
            enter="records the screw",
        )
    if kind == "mat":
        return tray.mat_prompt(state, common)
    if kind == "tools":
        return tray.tools_prompt(state, common)
    return Prompt(
        **common,
        form=Form.CHOICE,
        ask=f"{the}, by fingers until it touches: does each run freely, or does one bind?",
        choices=changed_about(
            (Choice(FREE, "each runs down by fingers"), Choice(BINDS, "one or more bind")),
            asked.seed(state, act, "fingers"),
        ),
        enter="records how they run",
    )


def _do(state: State, group: Fasteners) -> tuple[str, ...]:
    do = []
    if group.hand == "left":
        do.append("left-hand thread: it runs in counter-clockwise")
    if any(each.single_use is not None for each in _screws(state, group)):
        do.append("new screws only: one that was tight before is scrap")
    if group.lubricate:
        do.append(group.lubricate)
    if group.threadlocker is not None:
        locker = group.threadlocker
        do.append(f"thread-locker, {locker.strength} strength, {locker.amount}, on the {locker.where}")
        do.append(f"after {locker.handling} it may not be moved any more")
    return tuple(asked.sentence(line) for line in do)


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    pump = state.pump
    group = pump.groups[act.target]
    if prompt.question == "pose":
        needed = asked.reached_from(state, group.into, group.from_)
        assert needed is not None
        return asked.take_pose(state, act, needed, answer)
    refusals = list(guard.may_start(state.assembly, group.id))
    refusals += guard.buried(state.assembly.started(group.id), group.id, state.suspects)
    event: Event = Answered(act=act.id, question=prompt.question, value=answer)
    kind, _, number = prompt.question.partition(" ")
    if kind == "screws":
        right = _screws(state, group)[int(number)]
        if answer != right.item:
            refusals.append(
                Refusal(
                    "screw-of-another-length",
                    f"{answer} is in your hand; here goes {right.item}",
                    f"{group.called}, {_positions(right)}",
                    f"take {right.item}: a longer one bottoms first, a shorter one holds too little",
                )
            )
    elif kind in ("mat", "tools"):
        counted = tray.take(state, act, kind, answer)
        if isinstance(counted, Outcome):
            return counted
        event, wrong = counted
        refusals += wrong
    elif answer == BINDS:
        refusals.append(
            Refusal(
                "fastener-binds",
                "a screw that does not run down by fingers is cross-threaded, dirty, or meets oil",
                group.called,
                "take it out; clean screw and hole, blow the hole dry, try again",
            )
        )
    answers = {**state.hand, prompt.question: answer}
    if asked.first_open(_questions(state, act), answers) is not None:
        if isinstance(event, Counted):
            return Outcome((event, Answered(act=act.id, question=kind, value=answer)), tuple(refusals))
        return Outcome((event,), tuple(refusals))
    return Outcome((event, GroupStarted(act=act.id, done=True, group=group.id)), tuple(refusals))


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    group = state.pump.groups[act.target]
    kind, _, number = prompt.question.partition(" ")
    match kind:
        case "pose":
            needed = asked.reached_from(state, group.into, group.from_)
            assert needed is not None
            return needed[1][0]
        case "screws":
            return _screws(state, group)[int(number)].item
        case "mat":
            return str(tray.on_the_mat(state))
        case "tools":
            return str(tray.tools_on_hooks(state))
    return FREE
