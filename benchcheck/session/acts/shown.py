"""What a torque wrench showed: read as it was typed, and judged against what the position is to get.

Not an act of its own: tightening and its check pass use it. What a reading outside its limits may mean is
told by `wrong_readings.py`.
"""

from __future__ import annotations

from benchcheck.assembly.planned import rounds_of
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.tightening import on_its_scale, round_target, share_shown
from benchcheck.mechanics.units import Quantity, QuantityError, parse, parse_number
from benchcheck.mechanics.wrench import Wrench, reading_verdict
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts import wrenches, wrong_readings
from benchcheck.session.acts.joints import at_position
from benchcheck.session.prompt import Outcome, refused
from benchcheck.session.state import State


def reading(text: str, unit: str) -> Quantity | Outcome:
    """What the wrench showed: a number in its unit, or a whole quantity in that unit."""
    if not text:
        return refused("nothing-answered", f"what did it show, in {unit}?")
    try:
        if any(letter.isalpha() for letter in text):
            quantity = parse(text, "torque", decimal_comma=True)
            if quantity.unit != unit:
                return refused(
                    "reading-in-another-unit",
                    f"the wrench is used in {unit}; you typed {quantity.unit}",
                    mend=f"read it in {unit}",
                )
            return quantity
        return Quantity(parse_number(text), unit)
    except QuantityError as fault:
        return refused("not-a-reading", str(fault))


def judged(
    state: State,
    group: Fasteners,
    wrench: Wrench,
    read: Quantity,
    round_number: int,
    position: int,
    running: Quantity | None,
    *,
    first_touch: bool = False,
) -> tuple[Refusal | None, str]:
    """What is wrong with a reading, and the mark it gets for QA.

    `first_touch` says that no torque wrench was on the position before.
    """
    group = at_position(state, group, position)
    wanted = round_target(group, round_number, running)
    share = share_shown(group, position, wrench)
    wanted = on_its_scale(wanted, share, read.unit)
    verdict = reading_verdict(wrench, read, wanted.low_newton_metre, wanted.high_newton_metre)
    if verdict == "inside":
        return None, ""
    if verdict != "outside":
        return None, wrenches.UNGUARDED
    full = on_its_scale(round_target(group, rounds_of(state.pump, group.id), running), share, read.unit)
    where = f"{group.called}, position {position}" + (", with the crow-foot on" if share != 1 else "")
    found = wrong_readings.refusal(read, wanted, full, where, first_touch=first_touch)
    return found, f"{'above' if read.si > wanted.target.si else 'below'} the tolerance"
