"""May the fasteners of a group be run in, tightened, loosened."""

from __future__ import annotations

from benchcheck.assembly.guard.in_the_way import left_loose_refusals, stands_in_the_way, step_that_installs
from benchcheck.assembly.planned import order_of, rounds_of
from benchcheck.assembly.refusal import Refusal, Refusals
from benchcheck.assembly.state import Assembly


def may_start(now: Assembly, group: str) -> Refusals:
    """May the fasteners of the group be run in?"""
    pump = now.pump
    told = pump.groups[group]
    if group in now.held:
        return (
            Refusal("already-started", f"{pump.the(group)} is run in already", passable=False, about=group),
        )
    found = [
        Refusal(
            "fastener-holds-nothing",
            f"{pump.the(group)} holds {pump.the(part)}, which is not in",
            mend=f"fit {pump.the(part)} first",
            step=step_that_installs(pump, part),
            passable=False,
            about=part,
        )
        for part in (*told.holds, *told.parts)
        if part in pump.parts and part not in now.seated
    ]
    found += (
        Refusal(
            "single-use-fitted-again",
            f"{pump.the(part)} was tight before and may not be used again",
            mend=f"take it off; take a new {pump.called(part)}",
            off=part,
            passable=False,
            about=part,
        )
        for part in told.parts
        if part in now.seated and now.used_up(part)
    )
    return tuple(found)


def next_position(now: Assembly, group: str) -> int | None:
    """The position whose turn it is in the round under way; None when all rounds are done."""
    hold = now.held[group]
    if hold.rounds >= rounds_of(now.pump, group):
        return None
    return next(
        (each for each in order_of(now.pump, group) if each not in hold.done and each not in hold.disposed),
        None,
    )


def may_tighten(now: Assembly, group: str, position: int, round_number: int) -> Refusals:
    """May this position be tightened in this round (from 1)?"""
    pump = now.pump
    told = pump.groups[group]
    where = f"{told.called}, position {position}"
    hold = now.held.get(group)
    if hold is None:
        return (
            Refusal(
                "not-run-in",
                f"{pump.the(group)} is not run in by hand yet",
                where,
                "run all in first",
                passable=False,
                about=group,
            ),
        )
    found: list[Refusal] = []
    if not 1 <= position <= told.count:
        return (
            Refusal(
                "no-such-position", f"{told.called} has positions 1 to {told.count}", where, passable=False
            ),
        )
    if round_number != hold.rounds + 1:
        found.append(
            Refusal(
                "round-out-of-order",
                f"round {hold.rounds + 1} is due, not round {round_number}",
                where,
                f"go on with round {hold.rounds + 1}",
                passable=False,
                about=group,
            )
        )
    if position in hold.done:
        found.append(
            Refusal(
                "position-done-twice",
                f"position {position} is done in this round already",
                where,
                f"go on with position {next_position(now, group)}",
                passable=False,
            )
        )
    due = next_position(now, group)
    if due is not None and due != position:
        found.append(
            Refusal(
                "position-out-of-order",
                f"position {due} is due, not {position}",
                where,
                f"go to position {due}; {position} gets its turn",
            )
        )
    return tuple(found)


def may_loosen(now: Assembly, group: str) -> Refusals:
    """May the group come loose?"""
    pump = now.pump
    if group not in now.held:
        return (Refusal("not-on", f"{pump.the(group)} is not on", passable=False, about=group),)
    return (*stands_in_the_way(now, group), *left_loose_refusals(now, group))
