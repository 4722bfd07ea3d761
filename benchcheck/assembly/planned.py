"""The motions a procedure plans: each act as its author means it, and the pump as it is found.

The pump as found is taken to be built in the file's own order, with everything facing as planned. Teardown
starts from there, and reassembly from what teardown leaves.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.facing import seat_angle
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase


def over(mark: str) -> tuple[str, str]:
    """Part and mark of a `lines_up` value such as "body: P cast"."""
    part, _, name = mark.partition(":")
    return part.strip(), name.strip()


def planned_install(now: Assembly, part: str) -> Assembly:
    """The part goes in as planned: from its end, seen as it shows, its mark over the other."""
    pump = now.pump
    end = pump.planned_end(part)
    turn = pump.turn(part, end, pump.planned_seen.get(part, ""))
    angle = None
    for mark, target in pump.lines_up(part).items():
        over_part, over_mark = over(target)
        angle = seat_angle(now, part, turn, mark, over_part, over_mark)
    return now.installed(part, end, turn, angle)


def rounds_of(pump: Pump, group: str) -> int:
    return max(1, len(pump.groups[group].rounds))


def goes_on(pump: Pump, act: Act) -> bool:
    """Whether a tightening has the check pass in it, or the angle.

    A step of the last round alone has its pass, but stops before the angle: screws that are snug are looked
    at before they are turned on.
    """
    group = pump.groups[act.target]
    if act.step.round is None:
        return group.goes_on
    return act.step.round >= rounds_of(pump, act.target) and group.has_pass and group.angle is None


def order_of(pump: Pump, group: str) -> tuple[int, ...]:
    """Positions in tightening order: as the file says, or by the layout."""
    from benchcheck.mechanics import pattern

    told = pump.groups[group]
    if told.order:
        return told.order
    layout = told.layout
    if layout is None or told.each:
        return tuple(range(1, told.count + 1))
    if layout.circle is not None:
        return pattern.circle_order(layout.circle)
    if layout.rectangle is not None:
        return pattern.rectangle_order(*layout.rectangle)
    return pattern.points_order(layout.points or ())


def planned(now: Assembly, act: Act) -> Assembly:
    """One act as its author means it."""
    pump, target = now.pump, act.target
    match act.verb:
        case Verb.FIT:
            groove = pump.grooves[target]
            return now.fitted(target, pump.value(groove.takes) or "", groove.material)
        case Verb.INSTALL:
            return planned_install(now, target)
        case Verb.LIFT:
            return now.lifted(target)
        case Verb.REMOVE:
            return now.removed(target)
        case Verb.LOOSEN:
            return now.loosened(target)
        case Verb.START:
            return now.started(target)
        case Verb.TIGHTEN:
            group = pump.groups[target]
            rounds = rounds_of(pump, target) - now.held[target].rounds if act.step.round is None else 1
            for _ in range(rounds):
                for position in order_of(pump, target):
                    now = now.tightened(
                        target,
                        position,
                        rounds=rounds_of(pump, target),
                        count=group.count,
                        has_pass=group.goes_on,
                    )
            if now.held[target].rounds < rounds_of(pump, target) or not goes_on(pump, act):
                return now
            if group.angle is not None:
                for position in order_of(pump, target) if not now.held[target].passed else ():
                    now = now.turned_on(target, position, count=group.count)
            else:
                for position in range(1, group.count + 1):
                    now = now.checked(target, position, moved=False, count=group.count)
            return now
        case _:
            return now


BUILDS = (Phase.REASSEMBLY, Phase.TEST)


def as_found(pump: Pump, acts: Iterable[Act] | None = None) -> Assembly:
    """The pump as it comes in: built in the file's own order, as planned, with a ring in every groove.

    `acts` stand for the file's own where something has to be put in that the file leaves out.
    """
    now = Assembly(pump)
    building = [act for act in (all_acts(pump) if acts is None else acts) if act.phase in BUILDS]
    for place, act in enumerate(building):
        if not (_stands(now, act) or _stays_on(pump, act, building[place + 1 :])):
            now = planned(now, act)
    for groove in pump.grooves:
        if not now.sealed.get(groove):
            now = now.fitted(
                groove, pump.value(pump.grooves[groove].takes) or "", pump.grooves[groove].material
            )
    # It has run in service: what may not be used again once it has run is used up as soon as it is out.
    return replace(now.ran(), dead=frozenset(), poses={})


def _stays_on(pump: Pump, act: Act, rest: list[Act]) -> bool:
    """Whether an act takes off what the finished pump has: on some ways only, or for good by mistake."""
    if act.verb not in (Verb.REMOVE, Verb.LIFT, Verb.LOOSEN):
        return False
    for_a_time = act.target in pump.parts and pump.parts[act.target].temporary
    goes_back = any(
        each.target == act.target and each.verb in (Verb.INSTALL, Verb.FIT, Verb.START) for each in rest
    )
    return bool(act.step.if_) or not (for_a_time or goes_back)


def _stands(now: Assembly, act: Act) -> bool:
    """Whether another step or branch has brought it about already, or nothing is there to be undone."""
    match act.verb:
        case Verb.FIT:
            return bool(now.living_rings(act.target))
        case Verb.INSTALL:
            return act.target in now.seated
        case Verb.START:
            return act.target in now.held
        case Verb.TIGHTEN:
            return act.target not in now.held or now.held[act.target].passed
        case Verb.REMOVE:
            return act.target not in now.seated
        case Verb.LOOSEN:
            return act.target not in now.held
    return False
