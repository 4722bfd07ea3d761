"""What in the assembly itself stands between the pump and its release."""

from __future__ import annotations

from benchcheck.assembly.facing import misfits
from benchcheck.assembly.guard.facing import misfit_refusal
from benchcheck.assembly.guard.in_the_way import step_that_installs
from benchcheck.assembly.refusal import Refusal, Refusals
from benchcheck.assembly.state import Assembly


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
                    step=step_that_installs(pump, part),
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
    found += (misfit_refusal(now, misfit, None) for misfit in misfits(now))
    return tuple(found)
