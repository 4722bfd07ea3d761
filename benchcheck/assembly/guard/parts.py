"""May a part go home, or come out.

The rules behind stand below in the order in which they are asked; what it faces and what grooves it
hides have modules of their own.
"""

from __future__ import annotations

from benchcheck.assembly.bars import on_leading_end
from benchcheck.assembly.guard.facing import facing
from benchcheck.assembly.guard.in_the_way import left_loose_refusals, stands_in_the_way, step_that_installs
from benchcheck.assembly.guard.rings import grooves_left_wrong
from benchcheck.assembly.refusal import Refusal, Refusals
from benchcheck.assembly.state import Assembly


def may_install(now: Assembly, after: Assembly, part: str) -> Refusals:
    """May the part go home, as in `after`? `now` is the assembly before it."""
    pump = now.pump
    told = pump.parts[part]
    the = pump.the(part)
    if part in now.seated:
        return (Refusal("already-in", f"{the} is in already", passable=False, about=part),)
    found: list[Refusal] = []
    if now.is_dead(part):
        found.append(
            Refusal(
                "single-use-fitted-again",
                f"this {pump.called(part)} was in before and may not go in again",
                mend=f"take a new {pump.called(part)}",
                about=part,
            )
        )
    if told.under is not None and told.under not in now.seated:
        found.append(
            Refusal(
                "guard-missing",
                f"{the} goes in under {pump.the(told.under)}, which is not on",
                mend=f"put {pump.the(told.under)} on first",
                step=step_that_installs(pump, told.under),
                about=told.under,
            )
        )
    found += (
        Refusal(
            "holds-nothing",
            f"{the} holds {pump.the(held)}, which is not in",
            mend=f"fit {pump.the(held)} first",
            step=step_that_installs(pump, held),
            about=held,
        )
        for held in told.holds
        if held in pump.parts and held not in now.seated
        if held != told.into  # what rides on a part may go in with it
    )
    found += _end_is_closed(now, after, part)
    found += _left_out(now, after, part)
    found += _place_is_covered(now, part)
    found += facing(now, after, part)
    found += grooves_left_wrong(now, after)
    return tuple(found)


def may_remove(now: Assembly, part: str) -> Refusals:
    """May the part come out?"""
    pump = now.pump
    if part not in now.seated:
        return (Refusal("not-in", f"{pump.the(part)} is not in", passable=False, about=part),)
    found = list(stands_in_the_way(now, part))
    under = comes_out_under(now, part)
    if under is not None:
        found.append(
            Refusal(
                "guard-missing",
                f"{pump.the(part)} comes out under {pump.the(under)}, which is not on",
                mend=f"put {pump.the(under)} on first",
                about=under,
            )
        )
    found += left_loose_refusals(now, part)
    return tuple(found)


def comes_out_under(now: Assembly, part: str) -> str | None:
    """The temporary tool that has to go on before a part comes out of the work; None if none has to."""
    tool = now.pump.parts[part].under
    if tool is None or tool not in now.pump.parts or tool in now.seated or not now.present(part):
        return None
    return tool if now.pump.parts[tool].into == part and _guard_could_be_on(now, part, tool) else None


def _guard_could_be_on(now: Assembly, part: str, under: str) -> bool:
    """Whether the tool's place is free: nothing seated at the end it goes on."""
    end = now.pump.planned_end(under)
    return not any(seat.body == part and seat.end == end for seat in now.seated.values())


def _end_is_closed(now: Assembly, after: Assembly, part: str) -> list[Refusal]:
    """Nothing reaches the leading end of a body that is in, unless that end comes out at the far side."""
    pump = now.pump
    body, end = after.seated[part].body, after.seated[part].end
    if pump.parts[body].through or not on_leading_end(now, body, end):
        return []
    return [
        Refusal(
            "end-is-closed",
            f"{pump.the(part)} goes in from the {end} of {pump.the(body)}, "
            f"which went first into {pump.the(now.seated[body].body)}",
            mend=f"take {pump.the(body)} out first",
            off=body,
            passable=False,
            about=part,
        )
    ]


def _left_out(now: Assembly, after: Assembly, part: str) -> list[Refusal]:
    """Parts that belong under this one, are planned before it, and are not in."""
    pump = now.pump
    mine = pump.install_order.get(part)
    if mine is None or pump.parts[part].temporary:
        return []
    told = pump.parts[part]
    below: list[str] = []
    for stack in pump.stacks:
        if part in stack.order:
            below += stack.order[stack.order.index(part) + 1 :]
    below += [
        other.id
        for other in pump.parts.values()
        if other.into == told.into
        and other.from_ == told.from_
        and other.hole == told.hole
        and told.hole is not None
    ]
    found = []
    for each in dict.fromkeys(below):
        if (
            each in after.seated
            or each not in pump.parts
            or pump.parts[each].temporary
            or pump.parts[each].into is None
        ):
            continue
        if pump.install_order.get(each, mine) < mine:
            found.append(
                Refusal(
                    "part-left-out",
                    f"{pump.the(each)} belongs under {pump.the(part)} and is not in",
                    mend=f"fit {pump.the(each)} first",
                    step=step_that_installs(pump, each),
                    about=each,
                )
            )
    return found


def _place_is_covered(now: Assembly, part: str) -> list[Refusal]:
    """Parts further out in a stack that are on already and hide the place."""
    pump = now.pump
    body = pump.parts[part].into
    if body is None or pump.parts[part].temporary:
        return []
    for stack in pump.stacks:
        if part not in stack.order:
            continue
        for above in stack.order[: stack.order.index(part)]:
            if (
                above in now.seated
                and now.in_one_work(above, body)
                and not pump.parts[above].temporary
                and above != body
            ):
                return [
                    Refusal(
                        "place-is-covered",
                        f"the place of {pump.the(part)} is covered by {pump.the(above)}",
                        mend=f"take {pump.the(above)} off first",
                        off=above,
                        passable=False,
                        about=part,
                    )
                ]
    return []
