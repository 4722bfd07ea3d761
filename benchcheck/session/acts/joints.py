"""What a fastener group asks at this moment: its limits where a thread was repaired, and its thread-locker's
handling time. Not an act of its own: tightening uses it.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.units import parse
from benchcheck.procedure.model import Fasteners, TargetTorque
from benchcheck.session.state import State, local


def at_position(state: State, group: Fasteners, position: int) -> Fasteners:
    """The group with the limits of one of its positions: others than the procedure's, once repaired."""
    repaired = state.repaired.get((group.id, position))
    if repaired is None:
        return group
    target, tolerance = repaired
    torque = TargetTorque.model_construct(target=parse(target, "torque"), tolerance=parse(tolerance))
    return group.model_copy(update={"torque": torque})


def past_handling(state: State, group: Fasteners, now: datetime) -> Refusal | None:
    """What stands against moving a fastener whose thread-locker has begun to set."""
    begun = state.run_in.get(group.id)
    if group.threadlocker is None or begun is None:
        return None
    over = begun + timedelta(seconds=group.threadlocker.handling.si)
    if now <= over:
        return None
    return Refusal(
        "handling-time-over",
        f"the thread-locker on the {group.called} may not be moved since {local(state, over)}",
        group.called,
        "undo it, clean both threads, and put it on again with fresh thread-locker",
        passable=False,
        chain=("thread-locker that is moved while it sets does not hold",),
    )
