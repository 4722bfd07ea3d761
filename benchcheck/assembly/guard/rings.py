"""May a ring go into its groove, or come out; and which grooves an act would hide as they are."""

from __future__ import annotations

from benchcheck.assembly.guard.in_the_way import stands_in_the_way
from benchcheck.assembly.refusal import Refusal, Refusals
from benchcheck.assembly.state import Assembly


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
    return tuple(stands_in_the_way(now, groove))


def grooves_closing(now: Assembly, after: Assembly) -> tuple[str, ...]:
    """The grooves that an act would hide."""
    return tuple(sorted(after.hidden_grooves - now.hidden_grooves))


def grooves_left_wrong(now: Assembly, after: Assembly) -> list[Refusal]:
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
