"""What the facts of a session lean on: seats, rings, groups, the parts themselves, and the steps before them.

When one of these is gone, what leaned on it is void. Which events take something away, and what is void
then, is the business of the fold; here only stands what holds up what.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.clocks import clock_rules
from benchcheck.assembly.confirmations import AS_IT_CAME_IN
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase
from benchcheck.session.state import State


def seat_token(part: str) -> str:
    return f"seat:{part}"


def ring_token(groove: str) -> str:
    return f"ring:{groove}"


def group_token(group: str) -> str:
    return f"group:{group}"


def part_token(part: str, instance: int) -> str:
    return f"part:{part}#{instance}"


def step_token(step: str) -> str:
    return f"step:{step}"


def step_of(act: str) -> str:
    """The step in the name of an act."""
    return act.partition("/")[0]


def gone(before: Assembly, now: Assembly, *, only_pieces: bool) -> frozenset[str]:
    """What facts could lean on before, and cannot any more: the parts themselves, and how the pump stood."""
    if before is now:
        return frozenset()
    pieces = _pieces(before) - _pieces(now) if _other_pieces(before, now) else frozenset[str]()
    return pieces if only_pieces else pieces | _places_gone(before, now)


def _places_gone(before: Assembly, now: Assembly) -> frozenset[str]:
    """What is gone of how the pump stood: seats, rings that live, groups that are run in."""
    seats = map(seat_token, before.seated.keys() - now.seated.keys())
    rings = (
        ring_token(groove)
        for groove in (before.sealed if before.sealed is not now.sealed else ())
        if before.living_rings(groove) and not now.living_rings(groove)
    )
    groups = map(group_token, before.held.keys() - now.held.keys())
    return frozenset((*seats, *rings, *groups))


def _pieces(now: Assembly) -> frozenset[str]:
    """The parts themselves: each that is alive."""
    return frozenset(part_token(part, now.instance(part)) for part in now.pump.parts if not now.is_dead(part))


def _other_pieces(before: Assembly, now: Assembly) -> bool:
    """Whether a part may have died or been replaced; most events leave that as it was."""
    return before.dead is not now.dead or before.instances is not now.instances or before.pump is not now.pump


def _instance_in_hand(now: Assembly, part: str) -> int:
    """The instance that a look at the part is about: the next one, once the last is dead and out."""
    instance = now.instance(part)
    return instance + 1 if now.is_dead(part) and part not in now.seated else instance


def leans(state: State, act: Act) -> frozenset[str]:
    """What the fact of an act leans on once it is done."""
    return _leans_on_things(state, act) | {step_token(step) for step in act.step.after}


def _leans_on_things(state: State, act: Act) -> frozenset[str]:
    now, pump = state.assembly, state.pump
    if act.phase in AS_IT_CAME_IN:
        return frozenset()
    match act.verb:
        case Verb.FIT:
            return frozenset({ring_token(act.target)})
        case Verb.INSTALL | Verb.REMOVE:
            own = {seat_token(act.target)} if act.verb is Verb.INSTALL else set()
            if pump.parts[act.target].temporary:
                own |= {seat_token(part) for part in serves(pump, act.target)}
            return frozenset(own)
        case Verb.START | Verb.TIGHTEN:
            return frozenset({group_token(act.target)})
        case Verb.LIFT | Verb.LOOSEN:
            return frozenset()
        case Verb.WAIT:
            return frozenset(_starts(pump, act.target))
    things = about(state, act)
    if act.phase is Phase.INSPECTION or not act.step.between:
        parts = (part for part in things if part in pump.parts)
        return frozenset(part_token(part, _instance_in_hand(now, part)) for part in parts)
    found: set[str] = set()
    for thing in things:
        if thing in pump.grooves:
            found.add(ring_token(thing))
        elif thing in pump.groups:
            found.add(group_token(thing))
        elif thing in now.seated:
            found.add(seat_token(thing))
    return frozenset(found)


def _starts(pump: Pump, clock: str) -> Iterator[str]:
    """What a clock was started by: a group that is tight, or a step that is done."""
    for rule in clock_rules(pump):
        if rule.id == clock:
            yield group_token(rule.group) if rule.group else step_token(rule.step)


def about(state: State, act: Act) -> tuple[str, ...]:
    """What a reading or look is about: as said, else what its step handles, else all that is in the work."""
    step = act.step
    if act.verb is Verb.LOOK:
        return (act.target,)
    if act.verb is Verb.ASK and act.question.of:
        return act.question.of
    if step.of:
        return step.of
    own = (*step.rings, *step.all_parts, *((step.group,) if step.group else ()))
    if own:
        return own
    if act.verb in (Verb.WAIT, Verb.SIGN) or act.phase in (*AS_IT_CAME_IN, Phase.INSPECTION):
        return ()
    return tuple(part for part in state.assembly.seated if state.assembly.present(part))


def serves(pump: Pump, tool: str) -> frozenset[str]:
    """What a temporary tool is for: the parts that go in under it, and those it holds."""
    under = {part.id for part in pump.parts.values() if part.under == tool}
    return frozenset(under | set(pump.parts[tool].holds))
