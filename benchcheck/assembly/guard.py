"""May this act be done now? If not: why, where, and what mends it.

Pure: looks at the assembly before and after the act, and returns refusals, never raises them. Whether a
person can take a refusal over stands in the refusal. The checker is this same guard, run on a file's
steps.
"""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.assembly.bars import all_in_the_way_of, in_the_way_of, on_leading_end
from benchcheck.assembly.facing import Misfit, misfits, one_that_mends
from benchcheck.assembly.planned import order_of, rounds_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import MustFace, StepAct

Refusals = tuple[Refusal, ...]


def may_fit(now: Assembly, groove: str, size: str, material: str) -> Refusals:
    """May a ring of this size and rubber, just read off its bag, go into the groove?"""
    told = now.pump.grooves[groove]
    where = f"{groove}, {told.where}, on {now.pump.the(told.in_)}"
    if now.hidden(groove):
        return (
            Refusal(
                "groove-is-hidden",
                f"{groove} is hidden: nothing can be fitted there now",
                where,
                passable=False,
                about=groove,
            ),
        )
    if now.living_rings(groove):
        return (
            Refusal(
                "second-ring-in-a-groove",
                f"{groove} holds a ring already",
                where,
                "take that ring out first",
                passable=False,
                about=groove,
            ),
        )
    found: list[Refusal] = []
    takes = now.pump.value(told.takes) or ""
    if size != takes:
        found.append(
            Refusal(
                "ring-of-another-size",
                f"the bag says {size}; {groove} takes {takes}",
                where,
                f"put the {size} back and take the {takes} out of the kit",
            )
        )
    if material.casefold() != told.material.casefold():
        found.append(
            Refusal(
                "ring-of-another-rubber",
                f"the bag says {material}; {groove} takes {told.material}",
                where,
                f"take a ring of {told.material}",
            )
        )
    return tuple(found)


def may_lift(now: Assembly, groove: str) -> Refusals:
    """May the ring come out of its groove?"""
    return tuple(_stands_in_the_way(now, groove, "the ring of"))


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
                step=_step_that_installs(pump, told.under),
                about=told.under,
            )
        )
    found += (
        Refusal(
            "holds-nothing",
            f"{the} holds {pump.the(held)}, which is not in",
            mend=f"fit {pump.the(held)} first",
            step=_step_that_installs(pump, held),
            about=held,
        )
        for held in told.holds
        if held in pump.parts and held not in now.seated
        if held != told.into  # what rides on a part may go in with it
    )
    found += _end_is_closed(now, after, part)
    found += _left_out(now, after, part)
    found += _place_is_covered(now, part)
    found += _facing(now, after, part)
    found += _grooves_closing(now, after)
    return tuple(found)


def may_remove(now: Assembly, part: str) -> Refusals:
    """May the part come out?"""
    pump = now.pump
    if part not in now.seated:
        return (Refusal("not-in", f"{pump.the(part)} is not in", passable=False, about=part),)
    found = list(_stands_in_the_way(now, part, ""))
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
    found += _left_loose(now, part)
    return tuple(found)


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
            step=_step_that_installs(pump, part),
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
    return (*_stands_in_the_way(now, group, ""), *_left_loose(now, group))


def stands_against_release(now: Assembly) -> Refusals:
    """What in the assembly itself stands between the pump and its release."""
    pump = now.pump
    found: list[Refusal] = []
    for part in pump.needed():
        if part not in now.seated or not now.present(part):
            found.append(
                Refusal(
                    "part-left-out",
                    f"{pump.the(part)} is not in the pump",
                    step=_step_that_installs(pump, part),
                    passable=False,
                    about=part,
                )
            )
        elif now.used_up(part):
            found.append(
                Refusal("single-use-fitted-again", f"{pump.the(part)} is used up", passable=False, about=part)
            )
    for part in now.seated:
        if pump.parts[part].temporary:
            found.append(
                Refusal(
                    "tool-left-inside",
                    f"{pump.the(part)} is still inside",
                    mend="take it out",
                    off=part,
                    passable=False,
                    about=part,
                )
            )
    for groove in pump.grooves:
        rings = now.sealed.get(groove, ())
        if len(rings) != 1 or rings[0].dead:
            found.append(
                Refusal(
                    "groove-left-empty",
                    f"{groove} does not hold one good ring",
                    passable=False,
                    about=groove,
                )
            )
        elif not now.closed(groove):
            found.append(Refusal("groove-left-open", f"{groove} is not closed", passable=False, about=groove))
    for group in pump.groups:
        hold = now.held.get(group)
        if hold is None or not hold.passed:
            found.append(
                Refusal(
                    "fastener-not-tight",
                    f"{pump.the(group)} is not through its last round",
                    passable=False,
                    about=group,
                )
            )
    found += (_misfit_refusal(now, misfit, None) for misfit in misfits(now))
    return tuple(found)


# ---------------------------------------------------------------------- the rules behind


def comes_out_under(now: Assembly, part: str) -> str | None:
    """The temporary tool that has to go on before a part comes out of the work; None if none has to."""
    tool = now.pump.parts[part].under
    if tool is None or tool not in now.pump.parts or tool in now.seated or not now.present(part):
        return None
    return tool if now.pump.parts[tool].into == part and _guard_could_be_on(now, part, tool) else None


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


def _step_that_installs(pump: Pump, part: str) -> str:
    return next(
        (step.id for step in pump.steps if step.act is StepAct.INSTALL and part in step.all_parts),
        "",
    )


def _stands_in_the_way(now: Assembly, thing: str, prefix: str) -> list[Refusal]:
    pump = now.pump
    name = f"{prefix} {thing}" if prefix else pump.the(thing)
    return [
        Refusal(
            "something-in-the-way",
            f"{name} cannot come out: {pump.the(bar)} is in the way",
            mend=f"take {pump.the(bar)} off first",
            off=bar,
            passable=False,
            about=thing,
        )
        for bar in in_the_way_of(now, thing)[:1]
    ]


def _guard_could_be_on(now: Assembly, part: str, under: str) -> bool:
    """Whether the tool's place is free: nothing seated at the end it goes on."""
    end = now.pump.planned_end(under)
    return not any(seat.body == part and seat.end == end for seat in now.seated.values())


def _left_loose(now: Assembly, leaving: str) -> list[Refusal]:
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
                    step=_step_that_installs(pump, each),
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


def _facing(now: Assembly, after: Assembly, part: str) -> list[Refusal]:
    """Every facing that can be worked out once the part is in, and is false."""
    found = [_misfit_refusal(after, misfit, part) for misfit in misfits(after)]
    pump = now.pump
    told = pump.parts[part]
    if not found and told.ends is not None and part in pump.planned_seen:
        seat = after.seated[part]
        planned_turn = pump.turn(part, seat.end, pump.planned_seen[part])
        if seat.turn != planned_turn and len(told.ends_it_goes_in_from) == 1:
            seen = next(end for end in told.ends if end != pump.planned_seen[part])
            because = next((f", because {must.because}" for must in pump.faces if must.part == part), "")
            found.append(
                Refusal(
                    "part-faces-the-wrong-way",
                    f"{pump.the(part)} goes into {pump.the(told.into or '')} with its "
                    f"{pump.planned_seen[part]} toward you; you see the {seen}{because}",
                    where=f"{pump.the(part)}, at the {seat.end} of {pump.the(told.into or '')}",
                    mend=f"turn {pump.the(part)} over",
                    about=part,
                )
            )
    return found


def _misfit_refusal(after: Assembly, misfit: Misfit, part: str | None) -> Refusal:
    pump = after.pump
    must = misfit.must
    if isinstance(must, MustFace):
        mends = one_that_mends(after, misfits(after))
        turn = mends or part or must.part
        return Refusal(
            "part-faces-the-wrong-way",
            f"the {must.end} of {pump.the(must.part)} would point to the {misfit.is_toward} of "
            f"{pump.the(misfit.of)}; it has to point to the {misfit.toward}, because {must.because}",
            where=pump.the(must.part),
            mend=f"turn {pump.the(turn)} over",
            off="" if turn == part else turn,
            passable=False,
            chain=misfit.chain,
            about=must.part,
        )
    return Refusal(
        "marks-do-not-line-up",
        f"the {must.mark} of {pump.the(must.part)} would stand over {misfit.is_toward}; "
        f"it has to stand over the {misfit.toward} of {pump.the(misfit.of)}, because {must.because}",
        where=pump.the(must.part),
        mend=f"turn {pump.the(must.part)} round until the marks stand together",
        off="" if must.part == part else must.part,
        passable=False,
        about=must.part,
    )


def _grooves_closing(now: Assembly, after: Assembly) -> list[Refusal]:
    """Every groove that this act hides must hold exactly one living ring."""
    pump = now.pump
    found = []
    for groove in grooves_closing(now, after):
        told = pump.grooves[groove]
        where = f"{told.where}, on {pump.the(told.in_)}"
        rings = after.sealed.get(groove, ())
        step = next((each.id for each in pump.steps if groove in each.rings), "")
        takes = pump.value(told.takes) or ""
        if not rings:
            found.append(
                Refusal(
                    "groove-left-empty",
                    f"this would hide {groove}, and {groove} has no ring",
                    where,
                    f"one {takes}, {told.material}",
                    passable=False,
                    step=step,
                    about=groove,
                )
            )
        elif len(rings) > 1:
            found.append(
                Refusal(
                    "second-ring-in-a-groove",
                    f"this would hide {groove} with {len(rings)} rings in it",
                    where,
                    "one ring only",
                    passable=False,
                    step=step,
                    about=groove,
                )
            )
        elif rings[0].dead:
            found.append(
                Refusal(
                    "single-use-fitted-again",
                    f"the ring in {groove} was pressed before and is used up",
                    where,
                    f"a new {takes}, {told.material}",
                    passable=False,
                    step=step,
                    about=groove,
                )
            )
    return found


def grooves_closing(now: Assembly, after: Assembly) -> tuple[str, ...]:
    """The grooves that an act would hide."""
    return tuple(sorted(after.hidden_grooves() - now.hidden_grooves()))


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
