"""What a fastener group asks at this moment: its limits where a thread was repaired, its thread-locker's
handling time, where it stands as drawn. Not an act of its own: tightening and what belongs to it use it.
"""

from __future__ import annotations

from datetime import datetime, timedelta

from benchcheck.assembly.planned import order_of, rounds_of
from benchcheck.assembly.refusal import Refusal
from benchcheck.mechanics.units import parse
from benchcheck.procedure.model import Fasteners, TargetTorque
from benchcheck.session.clocks import no_earlier
from benchcheck.session.prompt import RingPicture
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
    if no_earlier(state, now) <= over:
        return None
    return Refusal(
        "handling-time-over",
        f"the thread-locker on the {group.called} may not be moved since {local(state, over)}",
        group.called,
        "undo it, clean both threads, and put it on again with fresh thread-locker",
        passable=False,
        chain=("thread-locker that is moved while it sets does not hold",),
    )


def next_to_check(state: State, group: Fasteners) -> int:
    """The position of the check pass whose turn it is: clockwise, from the first."""
    hold = state.assembly.held[group.id]
    positions = range(1, group.count + 1)
    return next(each for each in positions if each not in hold.checked and each not in hold.disposed)


def named(answer: str, due: int) -> tuple[int, str]:
    """The position an answer is about, and the rest of it."""
    head, colon, tail = answer.partition(":")
    if colon and head.strip().isascii() and head.strip().isdigit() and len(head) < 5:
        return int(head), tail.strip()
    return due, answer


def picture(
    state: State, group: Fasteners, now_at: int, next_at: int, figures: tuple[str, ...]
) -> RingPicture:
    """The group as drawn: which positions are done, which is now and which next."""
    hold = state.assembly.held[group.id]
    layout = group.layout
    in_pass = hold.rounds >= rounds_of(state.pump, group.id)
    mine = [each for each in group.screws if not each.for_ or state.variant in each.for_]
    return RingPicture(
        group=group.called,
        count=group.count,
        circle=(layout.circle or 0) if layout else 0,
        rows=layout.rectangle[0] if layout and layout.rectangle else 0,
        columns=layout.rectangle[1] if layout and layout.rectangle else 0,
        points=(layout.points or ()) if layout else (),
        seen_from=(layout.seen_from or "") if layout else "",
        datum=(layout.datum or "") if layout else "",
        at_datum=layout.at_datum if layout else True,
        order=order_of(state.pump, group.id),
        done=hold.checked if in_pass else hold.done,
        now=now_at,
        next=next_at,
        round=hold.rounds + 1,
        rounds=tuple(str(each) for each in group.rounds) or ("100 %",),
        figures=figures,
        check_pass=in_pass,
        screws=tuple((position, each.item) for each in mine for position in each.at),
    )
