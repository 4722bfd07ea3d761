"""Turning on by an angle, after the snug torque: each position once, for a second angle scraps its screw.

Not an act of its own: tightening ends with it where the procedure has an angle.
"""

from __future__ import annotations

from benchcheck.assembly.acts import Act
from benchcheck.assembly.planned import order_of
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.units import QuantityError, parse_number
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts.joints import named, picture
from benchcheck.session.events import PositionTurned, TighteningTrouble
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Figure, Form, Outcome, Prompt, refused
from benchcheck.session.state import State

TWICE = "turned twice"


def _left(state: State, group: Fasteners) -> list[int]:
    hold = state.assembly.held[group.id]
    order = order_of(state.pump, group.id)
    return [each for each in order if each not in hold.checked and each not in hold.disposed]


def _limits(group: Fasteners) -> tuple[float, float]:
    assert group.angle is not None
    add, room = group.angle.add.to("°"), group.angle.tolerance.to("°")
    return add - room, add + room


def ask(state: State, group: Fasteners) -> Prompt:
    """By how much the position that is due was turned on."""
    assert group.angle is not None
    position, *rest = _left(state, group)
    low, high = _limits(group)
    return Prompt(
        question=f"turn {position}",
        form=Form.NUMBER,
        verb="TURN",
        do=("Onward in one pull, from the snug torque. Once only: a second angle scraps the screw.",),
        ask=f"{group.called}: by how much was position {position} turned on?",
        unit="°",
        good=f"{low:g} to {high:g} °",
        figure=Figure(f"{group.angle.add.to('°'):g}", "°", "onward, in one pull", f"{low:g} to {high:g}", ""),
        enter=f"records the angle; position {position} is then finished for good",
        target=group.id,
        picture=picture(state, group, position, rest[0] if rest else 0, ()),
    )


def take(state: State, act: Act, group: Fasteners, due: int, answer: str) -> Outcome:
    """The angle of a position; one that has its angle already, or too much of it, is scrap."""
    position, text = named(answer, due)
    try:
        degree = float(parse_number(text.removesuffix("°")))
    except QuantityError as fault:
        return refused("not-a-reading", str(fault))
    low, high = _limits(group)
    hold = state.assembly.held[group.id]
    if position in hold.checked:
        return _twice(state, group, position, degree)
    refusals: list[Refusal] = []
    if position != due:
        refusals.append(
            Refusal(
                "position-out-of-order",
                f"position {due} is due, not {position}",
                group.called,
                f"go to {due}",
                False,
            )
        )
    marked = ""
    if degree > high:
        marked = "beyond the tolerance"
        refusals.append(
            Refusal(
                "angle-too-far",
                f"{degree:g}° is more than {high:g}°",
                group.called,
                "the screw is scrap: begin again with a new one",
            )
        )
    elif degree < low:
        refusals.append(
            Refusal(
                "angle-too-small",
                f"{degree:g}° is less than {low:g}°",
                group.called,
                "pull on to the full angle",
                False,
            )
        )
    last = len({*hold.checked, position} | hold.disposed) >= group.count
    event = PositionTurned(
        act=act.id, done=last, group=group.id, position=position, degree=degree, marked=marked
    )
    return Outcome((event,), tuple(refusals))


def _twice(state: State, group: Fasteners, position: int, degree: float) -> Outcome:
    """Nobody may leave it so: the record says what was done to the screw, and the group is begun again."""
    where = f"{group.called}, position {position}"
    twice = Refusal(
        "angle-given-twice",
        f"position {position} was turned by its angle before",
        where,
        "the screw is scrap: loosen the group and begin again, with a new one there",
        passable=False,
        chain=("torque and angle a second time stretch the screw beyond what it can give back",),
    )
    happened = TighteningTrouble(
        group=group.id, position=position, what=TWICE, reason=f"a second time, by {degree:g}°"
    )
    return Outcome((), (twice,), (happened, went_back(state, (group.id,), twice.wrong)))
