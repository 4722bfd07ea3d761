"""Which way a part points, and what it stands over: refused once it can be worked out, and is false."""

from __future__ import annotations

from benchcheck.assembly.facing import Misfit, misfits, one_that_mends
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import MustFace


def facing(now: Assembly, after: Assembly, part: str) -> list[Refusal]:
    """Every facing that can be worked out once the part is in, and is false."""
    found = [misfit_refusal(after, misfit, part) for misfit in misfits(after)]
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


def misfit_refusal(after: Assembly, misfit: Misfit, part: str | None) -> Refusal:
    """One false facing; `part` is the one in the hand, if one is."""
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
