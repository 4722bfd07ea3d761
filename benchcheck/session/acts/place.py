"""Place: what lies on top where a part is about to go, which way round, before it is covered.

Not a verb of its own: installing asks it.
"""

from __future__ import annotations

from typing import Any

from benchcheck.assembly.acts import Act
from benchcheck.assembly.facing import end_up
from benchcheck.assembly.refusal import Refusal
from benchcheck.session.acts import look
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import Corrected, Event, PartInstalled
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, StackPicture, changed_about
from benchcheck.session.state import State

TURNED = ", turned over"
"""Behind the name of the part on top, where it shows its other end."""
MOST_BELOW = 2
"""How many of the parts further down are offered as answers."""


def right(state: State, act: Act) -> str | None:
    """What should lie on top; None where nobody need look.

    A look tells nothing where nothing else could be seen there. A part that went in with this same step, and
    whose face was told as it did, is not looked at again; one that only a yes put there is.
    """
    found = _pile(state, act.target)
    if not found:
        return None
    top = found[0]
    if _end(state, top) is None and len(found) < 2:
        return None
    return None if top in act.step.all_parts and state.pump.parts[top].ends is not None else top


def prompt(state: State, act: Act, common: dict[str, Any]) -> Prompt:
    part, pump = act.target, state.pump
    top, *below = _pile(state, part)
    end = _end(state, top)
    if end is None:
        choices = [Choice(top, f"{pump.the(top)} is on top")]
    else:
        choices = [
            Choice(
                top if each == end else top + TURNED, f"{pump.the(top)}: {asked.face_words(state, top, each)}"
            )
            for each in pump.ends(top)
        ]
    choices += [Choice(each, f"{pump.the(each)} is on top") for each in below[:MOST_BELOW]]
    order = tuple(each for stack in pump.stacks if part in stack.order for each in stack.order)
    return Prompt(
        **common,
        form=Form.CHOICE,
        ask=f"look at the place {pump.the(part)} will cover: what lies on top there?",
        choices=(
            *changed_about(choices, asked.seed(state, act, "place")),
            Choice(asked.NEITHER, "something else"),
        ),
        enter="records what lies on top",
        picture=StackPicture(pump.planned_end(part), tuple(dict.fromkeys(order)), part),
    )


def seen(state: State, act: Act, shown: Prompt) -> str:
    """The answer of somebody who looks at the assembly of this state, whatever the prompt was made for."""
    offered = {choice.value: choice for choice in shown.choices}
    top = next(iter(_pile(state, act.target)), asked.NEITHER)
    end = _end(state, top) if top in state.pump.parts else None
    if end is not None and top + TURNED in offered:
        words = f"{state.pump.the(top)}: {asked.face_words(state, top, end)}"
        return next(value for value, choice in offered.items() if choice.words == words)
    return top if top in offered else asked.NEITHER


def wrong(state: State, act: Act, answer: str) -> Outcome | None:
    """What is to be said of an answer; None if it is as it should be."""
    top = right(state, act)
    if top is None or answer == top:
        return None
    pump = state.pump
    if answer == top + TURNED:
        seen = next(each for each in pump.ends(top) if each != _end(state, top))
        refusal = look.differs(state, top, seen)
        assert refusal is not None
        return Outcome((), (refusal,), (went_back(state, (top,), refusal.wrong),))
    missing = pump.the(top)
    instead = pump.the(answer) if answer in pump.parts else "something else"
    refusal = Refusal(
        "part-left-out",
        f"{missing} should lie on top; you see {instead}",
        f"under {pump.the(act.target)}",
        f"find {missing} and fit it first",
        passable=False,
        step=next((each.id for each in pump.steps if top in each.all_parts), ""),
    )
    return Outcome((), (refusal,), _not_in_after_all(state, top))


def _pile(state: State, part: str) -> tuple[str, ...]:
    """The parts that lie where a part is about to go, uppermost first, by the first stack that tells."""
    now, pump = state.assembly, state.pump
    told = pump.parts[part]
    if told.into is None or told.temporary or told.hole is not None:
        return ()
    piles = [
        tuple(
            each
            for each in stack.order[stack.order.index(part) + 1 :]
            if each in pump.parts and each in now.seated and now.in_one_work(each, told.into)
        )
        for stack in pump.stacks
        if part in stack.order
    ]
    return next((pile for pile in piles if len(pile) > 1), next((pile for pile in piles if pile), ()))


def _end(state: State, top: str) -> str | None:
    """The end of it that one sees, where it has two and that can be told."""
    return end_up(state.assembly, top) if state.pump.parts[top].ends is not None else None


def _not_in_after_all(state: State, part: str) -> tuple[Event, ...]:
    """A part that the record has in, and that is not there: its fitting does not count."""
    for act in state.acts:
        fact = state.fact(act.id)
        if act.verb.value == "install" and act.target == part and fact is not None:
            return (
                Corrected(
                    event=fact.event,
                    act=act.id,
                    was=PartInstalled.kind,
                    thing=part,
                    reason="found not to be in its place",
                ),
            )
    return ()
