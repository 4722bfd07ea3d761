"""The way back to a thing: what must come off to reach it, in order, and what that costs.

Pure: nothing is undone here. One move is worked out at a time from how the pump is now, so a way that
was left half done goes on from wherever it stands.
What a person has confirmed and what that voids is not known here: the session adds it.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Verb
from benchcheck.assembly.bars import all_in_the_way_of, in_the_way_of
from benchcheck.assembly.planned import planned_install
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly, instance_name


@dataclass(frozen=True, slots=True)
class Move:
    """One act of a way back: a thing comes off, or a temporary tool goes on for what comes off next."""

    verb: Verb
    thing: str


def next_move(now: Assembly, targets: Iterable[str]) -> Move | None:
    """The first act of the way to the targets; None if each of them is free."""
    wanted = all_in_the_way_of(now, (each for each in targets if not is_free(now, each)))
    if not wanted:
        return None
    free = [each for each in wanted if not wanted & set(in_the_way_of(now, each))]
    # A tool that something goes out under, or is held by, stays for so long.
    idle = [each for each in free if not _serves(now, each, wanted)] or free
    # A ring that lies open is lifted before it is lost; else the latest comes first.
    thing = max(idle, key=lambda each: (each in now.pump.grooves, _sequence(now, each)))
    tool = _tool_first(now, thing)
    return Move(Verb.INSTALL, tool) if tool is not None else Move(_verb_off(now, thing), thing)


def owed(now: Assembly) -> tuple[str, ...]:
    """What is used up and still in its place: it has to come out before the pump can be finished."""
    parts = tuple(part for part in now.seated if now.used_up(part))
    rings = tuple(groove for groove, rings in now.sealed.items() if any(ring.dead for ring in rings))
    return (*parts, *rings)


def is_free(now: Assembly, thing: str) -> bool:
    """Whether the thing is out: part not seated, group loose, no ring in the groove."""
    return not (thing in now.seated or thing in now.held or now.sealed.get(thing))


def may_move(now: Assembly, move: Move) -> tuple[Refusal, ...]:
    """What the guard says to a move."""
    match move.verb:
        case Verb.INSTALL:
            return guard.may_install(now, planned_install(now, move.thing), move.thing)
        case Verb.REMOVE:
            return guard.may_remove(now, move.thing)
        case Verb.LOOSEN:
            return guard.may_loosen(now, move.thing)
    return guard.may_lift(now, move.thing)


def died(now: Assembly, after: Assembly) -> tuple[str, ...]:
    """Parts and grooves of which a piece was good in hand or in its place before, and is dead after."""
    # What may be fitted once only is good as long as it stays where it is.
    parts = tuple(
        part
        for part in now.pump.parts
        if instance_name(part, now.instance(part)) in after.dead
        if not now.is_dead(part)
        or (part in now.seated and part not in after.seated and not now.used_up(part))
    )
    # A ring that was pressed and no longer lies there was opened on the way, and so is dead.
    rings = tuple(
        groove
        for groove in now.pump.grooves
        if now.closed(groove) and now.living_rings(groove) and not after.living_rings(groove)
    )
    return (*parts, *rings)


def _serves(now: Assembly, tool: str, wanted: set[str]) -> bool:
    """Whether a temporary tool that is on is still needed by something else that has to come off."""
    if tool not in now.seated or not now.pump.parts[tool].temporary:
        return False
    goes_under = any(
        now.pump.parts[each].under == tool and now.present(each)
        for each in wanted
        if each in now.seated and each != tool
    )
    holds_alone = any(
        now.pump.parts[held].never_loose
        and held in now.seated
        and all(
            other == tool or other in wanted or is_free(now, other)
            for other in now.pump.holders.get(held, ())
        )
        for held in now.pump.parts[tool].holds
    )
    return goes_under or holds_alone


def _tool_first(now: Assembly, thing: str) -> str | None:
    """The temporary tool that has to go on before a thing comes off."""
    if thing in now.pump.parts:
        under = guard.comes_out_under(now, thing)
        if under is not None:
            return under
    for loose in guard.left_loose(now, thing):
        for tool in now.pump.parts.values():
            if not tool.temporary or loose not in tool.holds or tool.id in now.seated or tool.id == thing:
                continue
            with_it = planned_install(now, tool.id)
            refused = guard.may_install(now, with_it, tool.id)
            if not refused and tool.id not in in_the_way_of(with_it, thing):
                return tool.id
    return None


def _verb_off(now: Assembly, thing: str) -> Verb:
    if thing in now.pump.parts:
        return Verb.REMOVE
    return Verb.LOOSEN if thing in now.pump.groups else Verb.LIFT


def _sequence(now: Assembly, thing: str) -> int:
    if thing in now.seated:
        return now.seated[thing].sequence
    if thing in now.held:
        return now.held[thing].sequence
    return max((ring.sequence for ring in now.sealed.get(thing, ())), default=0)
