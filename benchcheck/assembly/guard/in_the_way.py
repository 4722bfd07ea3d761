"""What stands in the way of a thing, what would be loose without it, what it would bury."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.assembly.bars import all_in_the_way_of, in_the_way_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.refusal import Refusal, Refusals
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import StepAct


def stands_in_the_way(now: Assembly, thing: str) -> list[Refusal]:
    """The first thing that has to come off before a part, group or ring can come out."""
    pump = now.pump
    return [
        Refusal(
            "something-in-the-way",
            f"{pump.in_hand(thing)} cannot come out: {pump.the(bar)} is in the way",
            mend=f"take {pump.the(bar)} off first",
            off=bar,
            passable=False,
            about=thing,
        )
        for bar in in_the_way_of(now, thing)[:1]
    ]


def left_loose(now: Assembly, leaving: str) -> tuple[str, ...]:
    """Parts that may never be loose and would lose their last holder."""
    return tuple(
        part
        for part in now.seated
        if now.pump.parts[part].never_loose
        and part != leaving
        and leaving not in now.chain(part)
        and [each for each in now.pump.holders.get(part, ()) if each in now.held or each in now.seated]
        == [leaving]
    )


def left_loose_refusals(now: Assembly, leaving: str) -> list[Refusal]:
    """Each part that may never be loose and would be, without the part or group that leaves."""
    pump = now.pump
    return [
        Refusal(
            "left-loose",
            f"{pump.the(leaving)} is the last that holds {pump.the(part)}, which may never be loose",
            mend=f"put another holder on {pump.the(part)} first",
            passable=False,
            about=part,
        )
        for part in left_loose(now, leaving)
    ]


def buried(after: Assembly, thing: str, suspects: Sequence[str]) -> Refusals:
    """What is doubted, and would have to come off again to be reached behind this."""
    pump = after.pump
    return tuple(
        Refusal(
            "suspect-buried",
            f"{pump.the(suspect)} is doubted, and {pump.the(thing)} would stand in its way",
            where=pump.the(suspect),
            mend=f"go back to {pump.the(suspect)} and fit it anew, or look at it again",
            off=suspect,
        )
        for suspect in suspects
        if suspect != thing and thing in all_in_the_way_of(after, (suspect,))
    )


def step_that_installs(pump: Pump, part: str) -> str:
    """The first step that puts the part in; empty if none does."""
    return next(
        (step.id for step in pump.steps if step.act is StepAct.INSTALL and part in step.all_parts),
        "",
    )
