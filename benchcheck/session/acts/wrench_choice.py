"""Choosing a wrench: which one, and, where it can show several units, which one it shows now.

Not an act of its own: laying out the instruments and tightening use it. What each wrench could do is worked
out in `wrenches.py`; the unit is read off the wrench, for whoever had it last may have left it in another.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts import wrenches
from benchcheck.session.events import Answered, WrenchTaken
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, changed_about, refused
from benchcheck.session.state import State

UNIT = "unit"
ANOTHER = "another wrench"


def _name(group: Fasteners, round_number: int) -> str:
    return f"{group.id} {round_number}" if round_number else group.id


def _in_hand(state: State, group: Fasteners, round_number: int) -> Wrench | None:
    """The wrench that was named and whose unit is still to be read."""
    named = state.hand.get(f"wrench {_name(group, round_number)}")
    return state.job.registers.wrench(named) if named else None


def asked_for(state: State, group: Fasteners, now: datetime, round_number: int) -> int:
    """The round that a wrench is asked for: 0 where one does them all."""
    return 0 if wrenches.any_does_all(state, group, now) else round_number


def ask(state: State, group: Fasteners, now: datetime, round_number: int) -> Prompt:
    """Which wrench, for a round or (0) for all; then which unit it shows."""
    assert group.torque is not None
    which = f", round {round_number}" if round_number else ""
    do = (
        asked.sentence(
            f"{group.called}{which}: {group.torque.target} ± {group.torque.tolerance}"
            + (f", in rounds of {', '.join(map(str, group.rounds))}" if len(group.rounds) > 1 else "")
        ),
    )
    named = _in_hand(state, group, round_number)
    if named is not None:
        return _unit_prompt(state, group, named, round_number, do)
    return Prompt(
        question=f"wrench {_name(group, round_number)}",
        form=Form.CHOICE,
        verb="CHOOSE",
        do=do,
        ask=f"which wrench for the {group.called}{which}?",
        choices=wrenches.choices(state, group, now, round_number),
        enter="takes that wrench",
        target=group.id,
    )


def _unit_prompt(
    state: State, group: Fasteners, wrench: Wrench, round_number: int, do: tuple[str, ...]
) -> Prompt:
    units = [Choice(unit, unit) for unit in wrench.units]
    return Prompt(
        question=f"{UNIT} {_name(group, round_number)}",
        form=Form.CHOICE,
        verb="READ",
        do=do,
        ask=f"which unit does {wrench.id} show now? Read it off the wrench",
        choices=(
            *changed_about(units, f"{state.header.opened}|{group.id}|{wrench.id}"),
            Choice(ANOTHER, "another wrench instead"),
        ),
        enter="takes that wrench, with its figures in that unit",
        target=group.id,
    )


def take(
    state: State, act: Act, group: Fasteners, question: str, answer: str, now: datetime, round_number: int
) -> Outcome:
    """The wrench that was named, or the unit that was read off it."""
    named = _in_hand(state, group, round_number)
    if question.startswith(UNIT) and named is not None:
        return _take_unit(state, act, group, named, answer, now, round_number)
    wrench = state.job.registers.wrench(answer)
    if wrench is None:
        return refused("wrench-not-known", f"{answer} is not in the register of instruments")
    why = wrenches.why_not(state, group, wrench, now, round_number)
    if why is not None:
        return Outcome(
            refusals=(
                Refusal("wrench-does-not-fit", f"{wrench.id}: {why}", mend="take another", passable=False),
            )
        )
    if len(wrench.units) < 2:
        assert group.torque is not None
        return _taken(act, group, wrench, wrench.unit_for(group.torque.target), round_number)
    known = wrenches.unit_read(state, wrench)
    if known and wrenches.why_not(state, group, wrenches.showing(wrench, known), now, round_number) is None:
        return _taken(act, group, wrench, known, round_number)
    return Outcome((Answered(act=act.id, question=question, value=wrench.id),))


def _take_unit(
    state: State, act: Act, group: Fasteners, wrench: Wrench, unit: str, now: datetime, round_number: int
) -> Outcome:
    if unit == ANOTHER:
        cleared = Answered(act=act.id, question=f"wrench {_name(group, round_number)}", value="")
        return Outcome((cleared,))
    why = wrenches.why_not(state, group, wrenches.showing(wrench, unit), now, round_number)
    if why is not None:
        assert group.torque is not None
        return Outcome(
            refusals=(
                Refusal(
                    "unit-does-not-serve",
                    f"{wrench.id} in {unit}: {why}",
                    group.called,
                    f"set it to {wrench.unit_for(group.torque.target)} and read it again, or take another",
                    passable=False,
                ),
            )
        )
    return _taken(act, group, wrench, unit, round_number)


def _taken(act: Act, group: Fasteners, wrench: Wrench, unit: str, round_number: int) -> Outcome:
    return Outcome(
        (WrenchTaken(act=act.id, group=group.id, round=round_number, wrench=wrench.id, unit=unit),)
    )


def careful(state: State, prompt: Prompt) -> str:
    """The first that fits; and of its units the one that the target is given in."""
    if not prompt.question.startswith(UNIT):
        return prompt.choices[0].value
    group = state.pump.groups[prompt.target]
    _, _, number = prompt.question.removeprefix(f"{UNIT} {group.id}").partition(" ")
    wrench = _in_hand(state, group, int(number or 0))
    assert wrench is not None and group.torque is not None
    return wrench.unit_for(group.torque.target)
