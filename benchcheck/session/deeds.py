"""What is done in a rehearsal besides answering: the commands of the bench, each with what it needs.

One departure does one of them, at the question it is due at. A pause lets the clock go on.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Literal

from pydantic import Field

from benchcheck.procedure.model import Duration, Text
from benchcheck.procedure.table import Table
from benchcheck.session import commands, engine, kit, troubles
from benchcheck.session.events import Deviation, Event, TakenUp
from benchcheck.session.fold import folded
from benchcheck.session.prompt import Outcome, refused
from benchcheck.session.state import State

Came = tuple[Event, ...] | Outcome
What = Literal[
    "trouble", "another wrench", "wrench dropped", "insert", "kit", "remark", "stop", "cut off", "correct",
    "decide", "decide on position",
]  # fmt: skip


class Deed(Table):
    """`do` of a departure: what is done instead of answering."""

    what: What = Field(description="which of the commands")
    position: int = Field(default=1, description="position in the group in hand")
    felt: Text | None = Field(default=None, description="of a trouble: what was felt")
    wrench: Text | None = Field(
        default=None, description="which one was dropped; the one in hand if left out"
    )
    torque: Text | None = Field(default=None, description="of an insert: the torque that holds there")
    tolerance: Text | None = Field(default=None, description="of an insert: its tolerance")
    decision: Text | None = Field(default=None, description="what is decided on the last open departure")
    name: Text | None = Field(default=None, description="who decides, or gives the limits")
    pause: Duration | None = Field(default=None, description="how long the work lies after stop or cut off")


def done(state: State, deed: Deed, reason: str, now: datetime) -> tuple[Came, str, datetime]:
    """What comes of a deed, what is said of it beside its events, and the time after it."""
    group = troubles.group_in_hand(state)
    name = deed.name or ""
    match deed.what:
        case "trouble":
            return troubles.trouble(state, deed.position, deed.felt or "", reason, now), "", now
        case "another wrench":
            return troubles.change_wrench(state, reason, now), "", now
        case "wrench dropped":
            wrench = deed.wrench or troubles.wrench_in_hand(state)
            came = troubles.doubt_instrument(state, wrench, reason, now)
            return came, _departed(came), now
        case "insert":
            limits = (deed.torque or "", deed.tolerance or "")
            return troubles.repair_position(state, group, deed.position, *limits, name, reason, now), "", now
        case "kit":
            return (), "\n".join(kit.told(state)), now
        case "remark":
            return commands.remark(state, reason, now), "", now
        case "stop" | "cut off":
            return _left(state, deed, reason, now)
        case "correct":
            last = next(commands.correctable(state), None)
            return commands.correct(state, last.number if last is not None else 0, reason, now), "", now
        case "decide":
            waiting = state.open_deviations
            if not waiting:
                return refused("no-such-deviation", "no departure waits for a decision"), "", now
            number, decision = waiting[-1].deviation, deed.decision or ""
            return commands.dispose(state, number, decision, name, reason, now), "", now
    decide: Callable[..., Came] = commands.dispose_position
    return decide(state, group, deed.position, deed.decision or "", name, reason, now), "", now


def _departed(came: Came) -> str:
    events = came if not isinstance(came, Outcome) else ()
    return "; ".join(each.wrong for each in events if isinstance(each, Deviation))


def _left(state: State, deed: Deed, reason: str, now: datetime) -> tuple[Came, str, datetime]:
    """The pump is left, in an orderly way or not, and taken up again; what is to be read then is said."""
    stopped = commands.stop(state, reason, now) if deed.what == "stop" else ()
    if isinstance(stopped, Outcome):
        return stopped, "", now
    left = folded(state, stopped)
    then = now + timedelta(seconds=deed.pause.si if deed.pause is not None else 0.0)
    pause = int((then - now).total_seconds())
    taken_up = engine.written(left, (TakenUp(stopped=left.stopped, pause_seconds=pause),), then)
    after = folded(left, taken_up)
    begun = [
        f"{after.pump.called(group)}: {len(hold.done)} positions of round {hold.rounds + 1} are done"
        for group, hold in after.assembly.held.items()
        if hold != left.assembly.held[group]
    ]
    told = (f"to be read again: {', '.join(after.read_again)}", *begun)
    return (*stopped, *taken_up), "\n".join(told), then
