"""The way back to a thing: what must come off to reach it, in order, and what that costs.

Pure: nothing is undone here. A plan is shown first; each of its acts is then confirmed like any other.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.assembly.bars import in_the_way_of
from benchcheck.assembly.state import Assembly, instance_name


@dataclass(frozen=True, slots=True)
class Plan:
    """What comes off, in order, and what that costs."""

    targets: tuple[str, ...]
    off: tuple[str, ...]
    """Groups, parts and grooves (their rings), latest first."""
    dies: tuple[str, ...]
    """Parts and grooves whose living piece dies by it."""
    restarts: tuple[str, ...]
    """Groups that start again from their first round."""


def way_back(now: Assembly, targets: tuple[str, ...]) -> Plan:
    """The plan to reach the targets: parts, groups or grooves."""
    wanted = set(_closed_under_bars(now, targets))
    off: list[str] = []
    dead_before, walked = now.dead, now
    while wanted:
        free = [each for each in wanted if not (set(in_the_way_of(walked, each)) & wanted)]
        thing = max(free or wanted, key=lambda each: _sequence(walked, each))
        wanted.discard(thing)
        if not _still_there(walked, thing):
            continue
        off.append(thing)
        walked = _taken_off(walked, thing)
        for other in members_of_dead_sets(walked, dead_before):
            if other in walked.seated and other not in off:
                wanted |= set(_closed_under_bars(walked, (other,)))
    dies = [
        part
        for part in now.pump.parts
        if instance_name(part, now.instance(part)) in walked.dead - dead_before
    ]
    dies += [
        groove
        for groove in now.pump.grooves
        if now.living_rings(groove) and not walked.living_rings(groove) and now.closed(groove)
    ]
    return Plan(targets, tuple(off), tuple(dies), tuple(each for each in now.held if each not in walked.held))


def members_of_dead_sets(now: Assembly, dead_before: frozenset[str]) -> tuple[str, ...]:
    """Parts that died because another of their set died, and are still in."""
    return tuple(
        part
        for part in now.seated
        if now.pump.parts[part].set and instance_name(part, now.instance(part)) in now.dead - dead_before
    )


def _closed_under_bars(now: Assembly, targets: tuple[str, ...]) -> list[str]:
    found: list[str] = []
    waiting = [each for each in targets if _still_there(now, each)]
    while waiting:
        thing = waiting.pop()
        if thing in found:
            continue
        found.append(thing)
        waiting += in_the_way_of(now, thing)
    return found


def _still_there(now: Assembly, thing: str) -> bool:
    return thing in now.seated or thing in now.held or bool(now.sealed.get(thing))


def _sequence(now: Assembly, thing: str) -> int:
    if thing in now.seated:
        return now.seated[thing].sequence
    if thing in now.held:
        return now.held[thing].sequence
    return max((ring.sequence for ring in now.sealed.get(thing, ())), default=0)


def _taken_off(now: Assembly, thing: str) -> Assembly:
    if thing in now.pump.parts:
        return now.removed(thing)
    return now.loosened(thing) if thing in now.pump.groups else now.lifted(thing)
