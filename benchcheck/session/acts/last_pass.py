"""The check pass: all round once at the full torque, after the last round and again after hours.

Not an act of its own: tightening ends with it. Asked of each position: did it move; and, where the wrench
shows a reading, what it showed.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.assembly.planned import rounds_of
from benchcheck.assembly.tightening import figure
from benchcheck.mechanics.units import Quantity
from benchcheck.mechanics.wrench import Refused, Setting, Wrench
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts import shown, wrench_choice, wrenches
from benchcheck.session.acts.joints import at_position, next_to_check, picture
from benchcheck.session.events import Answered, Event, PositionChecked
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Choice, Figure, Form, Outcome, Prompt
from benchcheck.session.state import State

STANDS = "stands"
MOVED = "moved"


def _by_wrench(state: State, group: Fasteners) -> bool:
    return group.torque is not None and rounds_of(state.pump, group.id) not in group.without_wrench


def _figure(
    state: State, group: Fasteners, position: int, running: Quantity | None, now: datetime
) -> tuple[Wrench, Setting] | None:
    """The wrench of the last round, with what goes on it here; None where another has to be chosen."""
    last = rounds_of(state.pump, group.id)
    chosen = wrenches.taken(state, group.id, last)
    if chosen is None:
        return None
    wrench = wrenches.in_use(state, chosen)
    here = at_position(state, group, position)
    outcome = figure(here, wrench, last, position, wrenches.today(state, now), running)
    return None if isinstance(outcome, Refused) else (wrench, outcome)


def ask(state: State, group: Fasteners, running: Quantity | None, now: datetime) -> Prompt:
    """A wrench if none is in hand; then, position by position, whether it moved and what was shown."""
    position = next_to_check(state, group)
    found = _figure(state, group, position, running, now) if _by_wrench(state, group) else None
    if found is None and _by_wrench(state, group):
        last = rounds_of(state.pump, group.id)
        if wrenches.taken(state, group.id, last) is not None:  # it cannot do this position
            return wrench_choice.ask(state, group, now, last)
        return wrench_choice.ask(state, group, now, wrench_choice.asked_for(state, group, now, last))
    where = f"{group.called}, position {position}" if group.count > 1 else group.called
    drawn = picture(state, group, position, _after_that(state, group, position), ())
    if found is not None and f"pass {position}" in state.hand:
        wrench, setting = found
        return Prompt(
            question=f"reading {position}",
            form=Form.NUMBER,
            verb="CHECK",
            ask=f"{where}: what did {wrench.id} show?",
            unit=setting.unit,
            good=f"{setting.low_mark:f} to {setting.high_mark:f} {setting.unit}",
            figure=Figure(
                f"{setting.value:f}",
                setting.unit,
                "the full torque; type what it showed",
                f"{setting.low_mark:f} to {setting.high_mark:f}",
                "",
            ),
            enter=f"records: position {position} showed what you type",
            target=group.id,
            picture=drawn,
        )
    at = f": {found[0].id}, {found[1]}" if found is not None else ""
    return Prompt(
        question=f"pass {position}",
        form=Form.CHOICE,
        verb="CHECK",
        do=(f"All round once at the full torque, clockwise{at}.",),
        ask=f"{where}: did it move before the wrench was satisfied?",
        choices=(Choice(STANDS, "it stood still"), Choice(MOVED, "it moved")),
        enter=f"records whether position {position} moved",
        target=group.id,
        picture=drawn,
    )


def _after_that(state: State, group: Fasteners, position: int) -> int:
    checked = state.assembly.held[group.id].checked
    return next((each for each in range(1, group.count + 1) if each not in (*checked, position)), 0)


def take(
    state: State,
    act: Act,
    group: Fasteners,
    question: str,
    answer: str,
    running: Quantity | None,
    now: datetime,
) -> Outcome:
    """Whether the position moved; with a wrench that shows it, the reading follows."""
    kind, _, number = question.partition(" ")
    position = int(number)
    found = _figure(state, group, position, running, now) if _by_wrench(state, group) else None
    if kind == "pass":
        if found is not None and found[0].indicates:
            return Outcome((Answered(act=act.id, question=question, value=answer),))
        return Outcome((_checked(state, act, group, position, answer, found),))
    assert found is not None
    wrench, setting = found
    read = shown.reading(answer, setting.unit)
    if isinstance(read, Outcome):
        return read
    last = rounds_of(state.pump, group.id)
    wrong, marked = shown.judged(state, group, wrench, read, last, position, running)
    event = _checked(state, act, group, position, state.hand[f"pass {position}"], found, read, marked)
    if wrong is None:
        return Outcome((event,))
    mend: tuple[Event, ...] = (went_back(state, (group.id,), wrong.wrong),) if wrong.passable else ()
    return Outcome((event,), (wrong,), mend)


def _checked(
    state: State,
    act: Act,
    group: Fasteners,
    position: int,
    answer: str,
    found: tuple[Wrench, Setting] | None,
    read: Quantity | None = None,
    marked: str = "",
) -> PositionChecked:
    hold = state.assembly.held[group.id]
    moved = answer == MOVED
    last = not moved and len({*hold.checked, position} | hold.disposed) >= group.count
    return PositionChecked(
        act=act.id,
        done=last,
        group=group.id,
        position=position,
        moved=moved,
        wrench=found[0].id if found is not None else "",
        value=float(read.value) if read is not None else 0.0,
        unit=read.unit if read is not None else "",
        newton_metre=read.si if read is not None else 0.0,
        marked=marked,
    )
