"""Ways back on a whole pump, gone and come again: what every way from anywhere to anything has to keep to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.planned import BUILDS, planned, planned_install
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.assembly.way_back import Move, died, is_free, may_move, next_move, owed


@dataclass(frozen=True, slots=True)
class Plan:
    """What comes off, in order, and what that costs."""

    targets: tuple[str, ...]
    moves: tuple[Move, ...]
    dies: tuple[str, ...]
    """Parts and grooves whose living piece dies by it."""
    restarts: tuple[str, ...]
    """Groups that start again from their first round."""
    refusals: tuple[Refusal, ...] = ()
    """Why the way cannot be gone; empty if it can."""

    @property
    def off(self) -> tuple[str, ...]:
        """Groups, parts and grooves (their rings), in the order they come off."""
        return tuple(move.thing for move in self.moves if move.verb is not Verb.INSTALL)

    @property
    def tools(self) -> tuple[str, ...]:
        """Temporary tools that go on in between."""
        return tuple(move.thing for move in self.moves if move.verb is Verb.INSTALL)


def way_back(now: Assembly, targets: Iterable[str]) -> Plan:
    """The plan to reach parts, groups or grooves. What dies on the way and is still in comes out too."""
    targets = tuple(targets)
    before = owed(now)
    walked, moves, refusals = now, [], list[Refusal]()
    while move := next_move(walked, (*targets, *(each for each in owed(walked) if each not in before))):
        refusals += may_move(walked, move)
        moves.append(move)
        walked = moved(walked, move)
    return Plan(
        targets,
        tuple(moves),
        died(now, walked),
        tuple(each for each in now.held if each not in walked.held),
        tuple(refusals),
    )


def moved(now: Assembly, move: Move) -> Assembly:
    """The assembly after a move."""
    match move.verb:
        case Verb.INSTALL:
            return planned_install(now, move.thing)
        case Verb.REMOVE:
            return now.removed(move.thing)
        case Verb.LOOSEN:
            return now.loosened(move.thing)
    return now.lifted(move.thing)


def building_acts(pump: Pump) -> Iterator[Act]:
    """The acts that build the pump, in file order."""
    return (act for act in all_acts(pump) if act.phase in BUILDS and not act.step.if_)


def stations(pump: Pump) -> Iterator[tuple[str, Assembly]]:
    """The pump after each act that builds it, and once more after it has run."""
    now = Assembly(pump)
    for act in building_acts(pump):
        if act.verb is Verb.INSTALL and act.target in now.seated:
            continue
        now = planned(now, act)
        yield act.id, now
    yield "after the run", now.ran()


def targets(now: Assembly) -> list[str]:
    """All that can be reached from here."""
    return [*now.seated, *now.held, *(groove for groove in now.sealed if now.sealed[groove])]


def gone(now: Assembly, plan: Plan, moves: int | None = None) -> Assembly:
    """The pump after the moves of a plan, or the first few of them."""
    for move in plan.moves[:moves]:
        now = moved(now, move)
    return now


def built_again(now: Assembly) -> tuple[Assembly, list[Refusal]]:
    """All that is missing put in again, in file order; and what the guard said to it."""
    pump, refusals = now.pump, list[Refusal]()
    for act in building_acts(pump):
        target = act.target
        match act.verb:
            case Verb.INSTALL if target not in now.seated and not _needless(now, target):
                now = now.replaced(target) if now.is_dead(target) else now
                refusals += guard.may_install(now, planned(now, act), target)
                now = planned(now, act)
            case Verb.FIT if not now.living_rings(target):
                takes = pump.value(pump.grooves[target].takes) or ""
                refusals += guard.may_fit(now, target, takes, pump.grooves[target].material)
                now = planned(now, act)
            case Verb.START if target not in now.held:
                refusals += guard.may_start(now, target)
                now = planned(now, act)
            case Verb.TIGHTEN if not now.held[target].passed:
                now = planned(now, act)
            case Verb.REMOVE if target in now.seated:
                refusals += guard.may_remove(now, target)
                now = planned(now, act)
    return now, refusals


def _needless(now: Assembly, part: str) -> bool:
    """A tool for something that is in already."""
    served = {each.id for each in now.pump.parts.values() if each.under == part}
    return now.pump.parts[part].temporary and bool(served) and served <= now.seated.keys()


def wrong_with_way(now: Assembly, target: str) -> list[str]:
    """What a way back from here to the target breaks of what every way has to keep to; empty if nothing."""
    plan = way_back(now, (target,))
    wrong = [f"not legal: {refusal.wrong}" for refusal in plan.refusals]
    after = gone(now, plan)
    if not is_free(after, target):
        wrong.append("the target is not free")
    if owed(after):
        wrong.append(f"used up and still in: {owed(after)}")
    for group in after.held:
        if any(
            part not in after.seated
            for part in (*now.pump.groups[group].holds, *now.pump.groups[group].parts)
        ):
            wrong.append(f"{group} holds what is out")
    if next_move(after, (target,)) is not None:
        wrong.append("gone twice, it goes on")
    whole, refusals = built_again(after)
    wrong += [f"not built again: {refusal.wrong}" for refusal in refusals]
    if now.pump.install_order.keys() <= set(now.seated) | {
        part.id for part in now.pump.parts.values() if part.temporary
    }:
        wrong += [f"not released: {refusal.wrong}" for refusal in guard.stands_against_release(whole)]
    return wrong


def needless_moves(now: Assembly, target: str) -> list[str]:
    """Moves without which every other move of the way would have been legal too, and the target free."""
    plan = way_back(now, (target,))
    found = []
    for left_out in plan.moves:
        walked, refused = now, False
        if left_out.thing == target or left_out.verb is Verb.LIFT:
            continue
        for move in plan.moves:
            if move is left_out:
                continue
            if not is_free(walked, move.thing) or move.verb is Verb.INSTALL:
                refused = refused or bool(may_move(walked, move))
                walked = moved(walked, move)
        if not refused and not set(owed(walked)) - set(owed(now)):
            found.append(left_out.thing)
    return found
