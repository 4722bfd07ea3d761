"""Install: a part goes home. Asked: how the work lies, what lies on top, which end one sees, what stands
over the mark, every groove that closes, and at a hold point a second person, before the part is put
home.
"""

from __future__ import annotations

from datetime import datetime
from typing import Any

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.facing import seat_angle
from benchcheck.assembly.planned import over, planned_install
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Fit
from benchcheck.session.acts import place
from benchcheck.session.acts import questions as asked
from benchcheck.session.arrival import LEFT_EMPTY, ONE_RING, RINGS_SEEN, ring_choices
from benchcheck.session.events import Answered, Event, GrooveFound, PartInstalled
from benchcheck.session.prompt import (
    Choice,
    Form,
    GroovePicture,
    Outcome,
    Prompt,
    changed_about,
    refused,
)
from benchcheck.session.state import State

ELSEWHERE = "elsewhere"
MARKS_APART = "marks-do-not-line-up"
VERBS = {Fit.SLIDE: "PUT IN", Fit.PRESS: "PRESS IN", Fit.HEAT: "FIT HOT"}


def _ready(state: State, part: str) -> Assembly:
    """The assembly with a living part in hand: a dead one is replaced by a new one."""
    now = state.assembly
    return now.replaced(part) if now.is_dead(part) else now


def _end(state: State, part: str) -> str:
    """The end of the body the part goes in from: the one that is up, where two will do."""
    pump = state.pump
    for end in pump.parts[part].ends_it_goes_in_from:
        needed = asked.reached_from(state, pump.parts[part].into or "", end)
        if needed is not None and state.assembly.poses.get(needed[0]) in needed[1]:
            return end
    return pump.planned_end(part)


def _after(state: State, part: str, seen: str, mark: str) -> Assembly:
    """The assembly with the part home, as it is seen now."""
    pump, now = state.pump, _ready(state, part)
    end = _end(state, part)
    turn = pump.turn(part, end, seen)
    angle = None
    for target in pump.lines_up(part).values():
        over_part, over_mark = over(target)
        if mark in pump.parts[part].marks:
            angle = seat_angle(now, part, turn, mark, over_part, over_mark)
    return now.installed(part, end, turn, angle)


def _questions(state: State, act: Act) -> tuple[str, ...]:
    """The questions of this act, in order, as far as they can be known now."""
    part, pump = act.target, state.pump
    told = pump.parts[part]
    found: list[str] = []
    if place.right(state, act) is not None:
        found.append("place")
    if told.ends is not None:
        found.append("face")
    if told.lines_up:
        found.append("mark")
    planned = planned_install(_ready(state, part), part)
    for groove in guard.grooves_closing(state.assembly, planned):
        # A ring that lies loose in a face can fall as its part is turned over to go in.
        filled_here = (
            groove in act.step.rings
            and groove in state.filled_since_pause
            and pump.grooves[groove].face is None
        )
        if not filled_here and state.assembly.sealed.get(groove):
            found.append(f"groove {groove}")
    if act.step.witness and part == act.step.all_parts[-1]:
        found.append("witness")
        if told.ends is not None:
            found.append("witness face")
    if not found or told.fit is not Fit.SLIDE:
        found.append("home")
    return tuple(found)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    part, pump = act.target, state.pump
    told = pump.parts[part]
    needed = asked.needed_up(state, part)
    if needed is not None and asked.pose_asked(state, needed):
        return asked.pose_prompt(state, needed)
    question = asked.first_open(_questions(state, act), state.hand) or "home"
    do = _do(state, part)
    the = pump.the(part)
    common: dict[str, Any] = {"question": question, "verb": VERBS[told.fit], "do": do, "target": part}
    match question.split(" ")[0]:
        case "place":
            return place.prompt(state, act, common)
        case "face":
            faces = asked.face_choices(state, act, part)
            return Prompt(
                **common,
                form=Form.CHOICE,
                ask=f"look at {the} as it lies over its place now: which do you see?",
                choices=faces,
                enter="records what you see",
                picture=asked.face_picture(part, faces),
            )
        case "mark":
            return _mark_prompt(state, act, common)
        case "groove":
            return _groove_prompt(state, act, question, common)
        case "witness":
            if question == "witness":
                return Prompt(
                    **{**common, "verb": "HOLD POINT"},
                    form=Form.WORDS,
                    ask=f"a second person looks before {the} goes home: that person's name",
                    enter="records who looks",
                )
            faces = asked.face_choices(state, act, part)
            return Prompt(
                **{**common, "verb": "HOLD POINT", "do": ()},
                form=Form.CHOICE,
                ask=f"{state.hand.get('witness', 'witness')}: which do you see of {the}?",
                choices=faces,
                enter="records what the second person sees",
                picture=asked.face_picture(part, faces),
            )
        case _:
            return Prompt(
                **common,
                form=Form.CONFIRM,
                ask=f"put {the} home",
                enter=f"records {the} as home",
                empty="",
            )


def _do(state: State, part: str) -> tuple[str, ...]:
    pump = state.pump
    told = pump.parts[part]
    new = "a new " if state.assembly.is_dead(part) else ""
    name = f"{new}{pump.called(part)}" if new else pump.the(part)
    count = f" ({told.count} of them)" if told.count > 1 else ""
    lines = [f"{name}{count} into {pump.the(told.into or '')}, from its {_end(state, part)}"]
    if part in pump.planned_seen and told.ends:
        lines.append(f"its {pump.planned_seen[part]} toward you")
    for mark, target in pump.lines_up(part).items():
        lines.append(f"its {mark} over {target.replace(':', ',')}")
    if told.lubricate:
        lines.append(told.lubricate)
    return tuple(asked.sentence(line) for line in lines)


def _mark_prompt(state: State, act: Act, common: dict[str, Any]) -> Prompt:
    part, pump = act.target, state.pump
    told = pump.parts[part]
    target = next(iter(pump.lines_up(part).values()))
    over_part, over_mark = over(target)
    choices = [Choice(mark, f"the {mark} stands there") for mark in told.marks]
    choices = list(changed_about(choices, asked.seed(state, act, "mark")))
    return Prompt(
        **common,
        form=Form.CHOICE,
        ask=f"what of {pump.the(part)} stands over the {over_mark} of {pump.the(over_part)}?",
        choices=(*choices, Choice(ELSEWHERE, "no mark stands there")),
        enter="records what stands over the mark",
    )


def _groove_prompt(state: State, act: Act, question: str, common: dict[str, Any]) -> Prompt:
    groove = question.split(" ", 1)[1]
    pump = state.pump
    told = pump.grooves[groove]
    planned = planned_install(_ready(state, act.target), act.target)
    closing = guard.grooves_closing(state.assembly, planned)
    return Prompt(
        **{**common, "verb": "LOOK", "target": groove},
        form=Form.CHOICE,
        ask=f"{groove}, {told.where}, on {pump.the(told.in_)}: what lies in it?",
        choices=ring_choices(asked.seed(state, act, groove)),
        enter=f"records what lies in {groove}",
        picture=GroovePicture(
            act.target,
            tuple(
                (
                    each,
                    pump.grooves[each].where,
                    ", ".join(ring.size for ring in state.assembly.sealed.get(each, ())),
                )
                for each in closing
            ),
            groove,
        ),
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    part, pump = act.target, state.pump
    needed = asked.needed_up(state, part)
    if prompt.question == "pose":
        assert needed is not None
        return asked.take_pose(state, act, needed, answer)
    refusals: list[Refusal] = []
    match prompt.question.split(" ")[0]:
        case "place":
            outcome = place.wrong(state, act, answer)
            if outcome is not None:
                return outcome
        case "face" if answer == asked.NEITHER:
            return refused(
                "part-not-recognised",
                f"neither picture is what you see; then this may not be {pump.the(part)}",
                mend="compare the part with the parts list",
            )
        case "groove" if answer != ONE_RING:
            groove = prompt.question.split(" ", 1)[1]
            told = pump.grooves[groove]
            rule = "groove-left-empty" if answer == LEFT_EMPTY else "second-ring-in-a-groove"
            refusals.append(
                Refusal(
                    rule,
                    f"{groove} is to hold one ring, and {RINGS_SEEN[answer]}",
                    f"{told.where}, on {pump.the(told.in_)}",
                    f"fit one {pump.value(told.takes)}, {told.material}, in {groove}",
                    passable=False,
                    step=next((each.id for each in pump.steps if groove in each.rings), ""),
                )
            )
            return Outcome((), tuple(refusals), (GrooveFound(act=act.id, groove=groove, found=answer),))
        case "witness":
            if prompt.question == "witness":
                name = asked.second_person(state, answer, "witness", now)
                if isinstance(name, Outcome):
                    return name
                answer = name
            elif answer != state.hand.get("face"):
                return refused(
                    "witness-sees-otherwise",
                    f"the second person sees otherwise: {answer}",
                    mend="look again together; what is seen has to be the same",
                    where=pump.the(part),
                )
    answers = {**state.hand, prompt.question: answer}
    remaining = asked.first_open(_questions(state, act), answers)
    if "face" in answers or pump.parts[part].ends is None:
        ready = _ready(state, part)
        after = _after(state, part, answers.get("face", ""), answers.get("mark", ""))
        found = (*guard.may_install(ready, after, part), *guard.buried(after, part, state.suspects))
        found = (*_marks_apart(state, part, answers.get("mark"), found), *found)
        refusals += (each for each in found if not _taken_over(state, act, each))
    if remaining is not None and remaining != prompt.question:
        step_on: Event = Answered(act=act.id, question=prompt.question, value=answer)
        return Outcome((step_on,), tuple(refusals))
    return Outcome((_installed(state, act, answers),), tuple(refusals))


def _marks_apart(
    state: State, part: str, mark: str | None, found: tuple[Refusal, ...]
) -> tuple[Refusal, ...]:
    """That another mark than its own, or none, stands there, where the guard does not say so already."""
    pump = state.pump
    if mark is None or mark in pump.lines_up(part) or any(each.rule == MARKS_APART for each in found):
        return ()
    stands = "no mark" if mark == ELSEWHERE else f"the {mark}"
    must = any(line.part == part for line in pump.lines)
    return (
        Refusal(
            MARKS_APART,
            f"{stands} of {pump.the(part)} stands where its {next(iter(pump.lines_up(part)))} should",
            pump.the(part),
            "turn it round until the marks stand together",
            passable=not must,
        ),
    )


def _taken_over(state: State, act: Act, refusal: Refusal) -> bool:
    """Whether a person took this over already, at an earlier question of this same fitting."""
    last = state.facts.get(act.id)
    return refusal.passable and any(
        each.act == act.id and refusal.wrong in each.wrong and (last is None or each.number > last.event)
        for each in state.deviations
    )


def _installed(state: State, act: Act, answers: dict[str, str]) -> PartInstalled:
    part = act.target
    after = _after(state, part, answers.get("face", ""), answers.get("mark", ""))
    seat = after.seated[part]
    return PartInstalled(
        act=act.id,
        done=True,
        part=part,
        instance=seat.instance,
        end=seat.end,
        seen=answers.get("face", ""),
        turn=seat.turn,
        angle=-1 if seat.angle is None else seat.angle,
        witness=answers.get("witness", ""),
    )


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    part, pump = act.target, state.pump
    match prompt.question.split(" ")[0]:
        case "pose":
            needed = asked.needed_up(state, part)
            assert needed is not None
            return needed[1][0]
        case "place":
            return place.right(state, act) or asked.NEITHER
        case "mark":
            return next(iter(pump.parts[part].lines_up))
        case "groove":
            return ONE_RING
        case "witness" if prompt.question == "witness":
            return asked.careful_second(state, "witness", now)
        case "face" | "witness":
            return pump.planned_seen[part]
    return ""
