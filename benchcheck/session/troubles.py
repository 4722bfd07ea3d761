"""What a person says when tightening or measuring goes wrong: what was felt at a position, an instrument that
is laid down or was dropped, a thread that was repaired.

Commands, as in `commands.py`: each gives events ready to be written, or the outcome that refuses it.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.planned import rounds_of
from benchcheck.mechanics.units import QuantityError
from benchcheck.procedure.model import TargetTorque
from benchcheck.session import instrument_work
from benchcheck.session.acts import gauge_choice, turning, wrenches
from benchcheck.session.commands import Result
from benchcheck.session.engine import departure, next_act, written
from benchcheck.session.events import (
    GaugeChanged,
    InstrumentDoubted,
    PositionRepaired,
    TighteningTrouble,
    WrenchChanged,
)
from benchcheck.session.going_back import BACK, went_back
from benchcheck.session.persons import entitled, not_another
from benchcheck.session.prompt import Outcome, refused
from benchcheck.session.state import State

TROUBLES = {
    "at once": "it clicks or stands at once, and did not turn: seized, on the bottom of its hole, "
    "cross-threaded, or oil or water in the hole",
    "never": "it turns and turns and never comes tight: the screw stretches, or the thread is stripped",
    "too far": "it was pulled too far",
    "wrong unit": "the wrench was set in another unit",
    turning.TWICE: "it got its angle a second time: the screw is stretched, and scrap",
}
"""What may be felt at a position, with what it may mean."""
IN_DOUBT = "instrument-in-doubt"
"""The rule under which what an instrument did waits for a decision."""


def group_in_hand(state: State) -> str:
    """The group that is being tightened; empty if none is."""
    act = next_act(state)
    if act is None or act.verb is not Verb.TIGHTEN or act.step.id == BACK or state.closed is not None:
        return ""
    return act.target if act.target in state.assembly.held and not (state.read_again or state.halted) else ""


def wrench_in_hand(state: State) -> str:
    """The wrench chosen for the round or the check pass under way; empty if none is."""
    group = group_in_hand(state)
    if not group:
        return ""
    round_number = min(state.assembly.held[group].rounds + 1, rounds_of(state.pump, group))
    chosen = wrenches.taken(state, group, round_number)
    return chosen[0] if chosen is not None else ""


def gauge_in_hand(state: State) -> str:
    """The gauge that the reading in hand is taken on; empty if there is none."""
    act = next_act(state)
    if (
        act is None
        or act.verb is not Verb.ASK
        or state.closed is not None
        or state.read_again
        or state.halted
    ):
        return ""
    gauge = gauge_choice.taken(state, act.question)
    return gauge.id if gauge is not None else ""


def may_be_felt(state: State) -> dict[str, str]:
    """What may be felt at the group in hand: an angle given twice only where one is given."""
    group = group_in_hand(state)
    turned = bool(group) and state.pump.groups[group].angle is not None
    return {what: told for what, told in TROUBLES.items() if turned or what != turning.TWICE}


def trouble(state: State, position: int, what: str, reason: str, now: datetime) -> Result:
    """A position went wrong under the wrench: the record says so, and the group is begun again."""
    group = group_in_hand(state)
    if not group:
        return refused("nothing-in-hand", "no fastener is being tightened now")
    told = state.pump.groups[group]
    if not 1 <= position <= told.count:
        return refused("no-such-position", f"{told.called} has positions 1 to {told.count}")
    if what not in (known := may_be_felt(state)):
        return refused("no-such-answer", f'"{what}" is none of: {", ".join(known)}')
    if not reason.strip():
        return refused("no-reason", "write one line: what did you feel or see?")
    event = TighteningTrouble(group=group, position=position, what=what, reason=reason.strip())
    back = went_back(state, (group,), f"position {position} of {told.called}, {what}: {reason.strip()}")
    return written(state, (event, back), now)


def change_wrench(state: State, reason: str, now: datetime) -> Result:
    """The wrench in use is laid down, and another is chosen for the positions left."""
    wrench = wrench_in_hand(state)
    if not wrench:
        return refused("nothing-in-hand", "no wrench is in use now")
    if not reason.strip():
        return refused("no-reason", "a change of wrenches needs a reason; write one line")
    event = WrenchChanged(group=group_in_hand(state), wrench=wrench, reason=reason.strip())
    return written(state, (event,), now)


def change_gauge(state: State, reason: str, now: datetime) -> Result:
    """The gauge in hand is laid down, and another is chosen for what is still to be read."""
    gauge = state.job.registers.gauge(gauge_in_hand(state))
    if gauge is None:
        return refused("nothing-in-hand", "no gauge is in use now")
    if not reason.strip():
        return refused("no-reason", "a change of gauges needs a reason; write one line")
    event = GaugeChanged(of_kind=gauge.kind.casefold(), gauge=gauge.id, reason=reason.strip())
    return written(state, (event,), now)


def doubt_instrument(state: State, name: str, reason: str, now: datetime) -> Result:
    """An instrument was dropped or damaged: it rests, and all it did on this pump needs a decision.

    The round, or the set of readings, under way with it begins again, with another.
    """
    instrument = state.job.registers.instrument(name)
    if instrument is None:
        return refused("instrument-not-known", f"{name} is not in the register of instruments")
    known = instrument.id
    if known in state.doubted:
        return refused("doubted-already", f"{known} is in doubt already: {state.doubted[known]}")
    if not reason.strip():
        return refused("no-reason", "write one line: what happened to it?")
    if state.closed is not None or not state.technician:
        return refused("nothing-in-hand", "nobody works on this pump now")
    did = instrument_work.standing(state, known)
    event = InstrumentDoubted(instrument=known, readings=did, reason=reason.strip())
    if not did:
        return written(state, (event,), now)
    again = [state.pump.the(group) for group in instrument_work.under_way_with(state, known)]
    act = next_act(state)
    deviation = departure(
        state,
        act=act.id if act is not None else "",
        rules=(IN_DOUBT,),
        wrong=f"{known} is in doubt, and with it what it did here: {instrument_work.in_words(state, did)}"
        + (f"; what is under way on {', '.join(again)} begins again" if again else ""),
        reason=reason.strip(),
    )
    return written(state, (event, deviation), now)


def repair_position(
    state: State,
    group: str,
    position: int,
    target: str,
    tolerance: str,
    name: str,
    reason: str,
    now: datetime,
) -> Result:
    """A stripped thread got an insert: an entitled person, not the one at work, gives its new limits."""
    told = state.pump.groups.get(group)
    if told is None or told.torque is None or not 1 <= position <= told.count:
        return refused("no-such-position", f"there is no position {position} of {group} with a torque")
    if not reason.strip():
        return refused("no-reason", "new limits need a reason; write one line")
    try:
        limits = TargetTorque.model_validate({"target": target, "tolerance": tolerance})
    except (QuantityError, ValueError):
        return refused(
            "not-a-torque",
            f'"{target}" ± "{tolerance}" is no torque with a tolerance',
            mend='write "14 N·m" and "10 %"',
        )
    person = entitled(state, name, "dispose", now)
    if isinstance(person, Outcome):
        return person
    works = "does this work; another person decides on it"
    if (own := not_another(state, person.name, state.technician, "own-deviation", works)) is not None:
        return own
    if state.closed is not None:
        return refused("record-is-closed", "the work on this pump is over")
    event = PositionRepaired(
        group=group,
        position=position,
        target=str(limits.target),
        tolerance=str(limits.tolerance),
        name=person.name,
        reason=reason.strip(),
        by=person.name,
    )
    return written(state, (event,), now)
