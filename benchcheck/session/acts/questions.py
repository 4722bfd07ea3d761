"""Questions that several acts ask: how the work lies, which end one sees, who looks on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.assembly.facing import direction
from benchcheck.procedure.model import SIDE
from benchcheck.procedure.registers import Right
from benchcheck.session.events import WorkTurned
from benchcheck.session.persons import entitled, known, not_another
from benchcheck.session.prompt import Choice, FacingPicture, Form, Outcome, Prompt, changed_about, refused
from benchcheck.session.state import State

NEITHER = "neither"


def sentence(text: str) -> str:
    """The text as a sentence: a capital first, a full stop last."""
    text = text.strip()
    return text[:1].upper() + text[1:] + ("" if text.endswith((".", "?", "!")) else ".")


def seed(state: State, act: Act, what: str) -> str:
    """What the order of choices hangs on: the record, the act, and how often it was asked."""
    return f"{state.header.opened}|{state.header.serial}|{act.id}|{what}|{state.voided}"


# ---------------------------------------------------------------------- how the work lies


def needed_up(state: State, part: str) -> tuple[str, tuple[str, ...]] | None:
    """The work a part goes into, and the ends of it that may be up; None where it does not matter."""
    told = state.pump.parts[part]
    if told.into is None:
        return None
    return _work_and_ends(state, told.into, told.ends_it_goes_in_from)


def reached_from(state: State, body: str, end: str) -> tuple[str, tuple[str, ...]] | None:
    """The same for something reached from an end of a body."""
    return _work_and_ends(state, body, (end,))


def _work_and_ends(state: State, body: str, ends: tuple[str, ...]) -> tuple[str, tuple[str, ...]] | None:
    now, pump = state.assembly, state.pump
    root = now.root(body)
    if SIDE in ends or not ends or pump.parts[root].ends is None or pump.parts[body].ends is None:
        return None
    way = direction(now, body, root)
    if way is None:
        return None
    up = tuple(
        pump.ends(root)[0 if way * (1 if end == pump.ends(body)[0] else -1) > 0 else 1] for end in ends
    )
    return root, up


def pose_asked(state: State, needed: tuple[str, tuple[str, ...]] | None) -> bool:
    """Whether the technician has to turn the work, or say how it lies."""
    return needed is not None and state.assembly.poses.get(needed[0]) not in needed[1]


def pose_prompt(state: State, needed: tuple[str, tuple[str, ...]]) -> Prompt:
    work, ends = needed
    pump = state.pump
    known = state.assembly.poses.get(work)
    wanted = " or ".join(f"the {end}" for end in ends)
    lies = pump.procedure.procedure.lies and work == pump.main
    way = "toward you" if lies else "up"
    do = (
        f"turn {pump.the(work)} so that {wanted} is {way}"
        if known
        else f"{pump.the(work)}: {wanted} has to be {way}"
    )
    return Prompt(
        question="pose",
        form=Form.CHOICE,
        verb="TURN IT" if known else "LAY IT",
        do=(sentence(do),),
        ask=f"which end of {pump.the(work)} is {way} now?",
        choices=tuple(Choice(end, f"the {end} is {way}") for end in pump.ends(work)),
        enter=f"records how {pump.the(work)} lies",
        target=work,
    )


def take_pose(state: State, act: Act, needed: tuple[str, tuple[str, ...]], text: str) -> Outcome:
    work, ends = needed
    if text not in ends:
        return refused(
            "work-lies-the-wrong-way",
            f"with the {text} up, the place cannot be reached",
            mend=f"turn {state.pump.the(work)} until the {ends[0]} is up",
            where=state.pump.the(work),
        )
    return Outcome((WorkTurned(act=act.id, work=work, up=text),))


# ---------------------------------------------------------------------- which end one sees


def face_words(state: State, part: str, end: str) -> str:
    told = state.pump.parts[part]
    return told.seen.get(end) or f"its {end} faces you"


def face_choices(state: State, act: Act, part: str) -> tuple[Choice, ...]:
    """The two ends by what one sees, changed about, and neither."""
    ends = state.pump.ends(part)
    pictures = [Choice(end, face_words(state, part, end)) for end in ends]
    return (*changed_about(pictures, seed(state, act, part)), Choice(NEITHER, "neither of these"))


def face_picture(part: str, choices: tuple[Choice, ...]) -> FacingPicture:
    return FacingPicture(part, tuple(each.value for each in choices if each.value != NEITHER))


# ---------------------------------------------------------------------- another person


def second_person(
    state: State, text: str, right: Right, now: datetime, doers: tuple[str, ...] = ()
) -> str | Outcome:
    """The register's spelling of another, entitled person's name; or the refusal.

    `doers` did what is looked at, besides who is signed on now.
    """
    person = known(state, text)
    if isinstance(person, Outcome):
        return person
    for doer in dict.fromkeys((state.technician, *doers)):
        did = "does this work; another person has to look"
        if (own := not_another(state, person.name, doer, "witness-is-the-doer", did)) is not None:
            return own
    person = entitled(state, text, right, now)
    return person if isinstance(person, Outcome) else person.name


def careful_second(state: State, right: Right, now: datetime, doers: tuple[str, ...] = ()) -> str:
    """A second person that a careful technician would call; `doers` as for `second_person`."""
    people = (person.name for person in state.job.registers.people.person)
    asked = (second_person(state, name, right, now, doers) for name in people)
    return next((name for name in asked if isinstance(name, str)), "nobody")


def first_open(questions: tuple[str, ...], answers: Mapping[str, str]) -> str | None:
    """The first question of an act that is not answered yet."""
    return next((question for question in questions if question not in answers), None)
