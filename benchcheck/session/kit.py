"""What the rebuild kit holds, what was used of it, and what it is short of for the way that is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import Phase
from benchcheck.session.state import State


@dataclass(frozen=True, slots=True)
class Shortage:
    """One piece that will be missed."""

    piece: str
    """A ring as "size rubber", or a part's id."""
    act: str
    """The act at which it will be missed."""


def ring_piece(pump: Pump, groove: str) -> str:
    """The ring of a groove as the kit names it: "size rubber"."""
    told = pump.grooves[groove]
    return f"{pump.value(told.takes)} {told.material}"


def rings_needed(pump: Pump) -> dict[str, int]:
    """The rings that the whole pump takes, as "size rubber", with how many."""
    needs: dict[str, int] = {}
    for groove in pump.grooves:
        piece = ring_piece(pump, groove)
        needs[piece] = needs.get(piece, 0) + 1
    return needs


def holds(state: State) -> dict[str, int]:
    """What the kit held at the start: as its bag says, or one of each where no bag is described.

    Rings that were counted at the bench are taken as counted.
    """
    pump = state.pump
    kit = pump.procedure.kit
    if kit is None:
        single_use = (part.id for part in pump.parts.values() if part.single_use is not None)
        found = {**rings_needed(pump), **dict.fromkeys(single_use, 1)}
    else:
        found = {}
        for line in kit.holds:
            piece = line.part or _ring_line(pump, line.ring or "", line.material)
            found[piece] = found.get(piece, 0) + line.count
    over = _counting_is_over(state)
    counted = {piece: state.kit.get(piece, 0) for piece in rings_needed(pump) if over or piece in state.kit}
    return {**found, **counted}


def _counting_is_over(state: State) -> bool:
    """Whether the rings of the kit were counted to the end: what was not seen then is not there."""
    counts = (act for act in state.acts if act.verb is Verb.ASK and act.question.kind == "kit")
    facts = (state.fact(act.id) for act in counts)
    return any(fact is not None and not fact.left_out for fact in facts)


def _ring_line(pump: Pump, size: str, material: str | None) -> str:
    """A ring on the bag; without its rubber, it is that of the first groove that takes the size."""
    if material is not None:
        return f"{size} {material}"
    return next(
        (ring_piece(pump, each.id) for each in pump.grooves.values() if pump.value(each.takes) == size), size
    )


def shortages(state: State) -> tuple[Shortage, ...]:
    """What will be missed on the way to the finished pump, and where, if nothing more dies."""
    left = holds(state)
    for piece, count in state.used.items():
        left[piece] = left.get(piece, 0) - count
    short = []
    for piece, act in _still_needed(state):
        left[piece] = left.get(piece, 0) - 1
        if left[piece] < 0:
            short.append(Shortage(piece, act.id))
    return tuple(short)


def told(state: State) -> tuple[str, ...]:
    """What the kit held, what went out of it, and how far what is left will do, in sentences."""
    held = holds(state)
    lines = [
        f"{state.pump.called(piece) if piece in state.pump.parts else piece}: "
        f"{count} at the start, {state.used.get(piece, 0)} used"
        for piece, count in held.items()
    ]
    short = shortages(state)
    if not short:
        return (*lines, "What is left is enough for all that is still to be done.")
    for each in short:
        act = state.act(each.act)
        assert act is not None
        piece = state.pump.called(each.piece) if each.piece in state.pump.parts else each.piece
        lines.append(f"Short of {piece}: the work can go on up to step {act.step.id}.")
    return tuple(lines)


def _still_needed(state: State) -> Iterator[tuple[str, Act]]:
    """The new pieces that the acts still to come take, in file order."""
    seen: set[str] = set()
    # The rings that the pump came in with are still in it until teardown is over.
    coming_out = {
        act.target
        for act in state.acts
        if act.verb is Verb.LIFT and act.phase is Phase.TEARDOWN and not act.step.if_
        if state.fact(act.id) is None
    }
    for act in state.acts:
        if act.verb not in (Verb.FIT, Verb.INSTALL) or act.target in seen:
            continue
        seen.add(act.target)
        if act.verb is Verb.FIT:
            old = act.target in coming_out and state.fact(act.id) is None
            if old or not state.assembly.living_rings(act.target):
                yield ring_piece(state.pump, act.target), act
        elif act.target not in state.assembly.seated and state.assembly.is_dead(act.target):
            yield act.target, act
