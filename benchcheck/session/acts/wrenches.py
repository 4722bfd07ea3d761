"""Which wrench for which round, and what goes on it. Not an act of its own: choosing and tightening use
it.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from zoneinfo import ZoneInfo

from benchcheck.assembly.guard import next_position
from benchcheck.assembly.tightening import figure
from benchcheck.mechanics.wrench import Refused, Setting, Wrench
from benchcheck.procedure.model import Fasteners
from benchcheck.session.acts.joints import at_position, next_to_check
from benchcheck.session.prompt import Choice
from benchcheck.session.state import State

UNGUARDED = "outside the guarded part of the tolerance"
"""The mark of a reading inside its limits by less than its instrument may be off."""


def today(state: State, now: datetime) -> date:
    """The day by the shop's clock: calibrations run out at its midnight."""
    return now.astimezone(ZoneInfo(state.job.registers.shop.time_zone)).date()


def in_doubt(state: State, instrument: str) -> str | None:
    """Why an instrument rests since it fell or was damaged; None if it does not."""
    if instrument not in state.doubted:
        return None
    return f"is in doubt since it was used here: {state.doubted[instrument]}"


def in_all_rounds(
    state: State, group: Fasteners, wrench: Wrench, now: datetime, only: int = 0
) -> tuple[tuple[Setting, ...], tuple[Refused, ...]]:
    """What goes on the wrench in each round (or `only` in one), and the reasons for those it cannot do."""
    if (doubt := in_doubt(state, wrench.id)) is not None:
        return (), (Refused(wrench.id, doubt, "calibration"),)
    good: list[Setting] = []
    bad: list[Refused] = []
    positions = (1, *(group.crowfoot.at if group.crowfoot else ()))
    mended = any(repaired == group.id for repaired, _ in state.repaired)
    if only and mended and group.id in state.assembly.held:
        # Where the limits differ from place to place, a wrench has to do the position that is due.
        positions = (next_position(state.assembly, group.id) or next_to_check(state, group),)
    for round_number in (only,) if only else _rounds_left(state, group):
        for position in positions:
            outcome = figure(
                at_position(state, group, position), wrench, round_number, position, today(state, now)
            )
            if isinstance(outcome, Refused):
                bad.append(outcome)
            elif position == positions[0]:
                good.append(outcome)
    return tuple(good), tuple(bad)


def _rounds_left(state: State, group: Fasteners) -> tuple[int, ...]:
    """The rounds that a wrench is still wanted for; in the check pass, the last."""
    hold = state.assembly.held.get(group.id)
    rounds = tuple(group.rounds_with_wrench)
    if hold is None or group.id not in state.run_in:  # it holds as it came in, and is to come loose
        return rounds
    return tuple(each for each in rounds if each > hold.rounds) or rounds[-1:]


def any_does_all(state: State, group: Fasteners, now: datetime) -> bool:
    return any(not in_all_rounds(state, group, each, now)[1] for each in state.job.registers.wrenches)


def choices(state: State, group: Fasteners, now: datetime, round_number: int = 0) -> tuple[Choice, ...]:
    """Every wrench: those that fit first, each with its figures; the others with the reason."""
    fit: list[Choice] = []
    unfit: list[Choice] = []
    for wrench in state.job.registers.wrenches:
        good, bad = in_all_rounds(state, group, wrench, now, round_number)
        if bad:
            unfit.append(Choice(wrench.id, f"not for this: {bad[0].why}", serves=False))
        else:
            figures = " / ".join(f"{each.value:f}" for each in good)
            fit.append(
                Choice(
                    wrench.id,
                    f"{wrench.kind}, {figures} {good[0].unit}, due {wrench.calibration_due:%-d %b %Y}",
                )
            )
    return (*fit, *unfit)


def why_not(
    state: State, group: Fasteners, wrench: Wrench, now: datetime, round_number: int = 0
) -> str | None:
    """Why a wrench is not for this group (or this round); None if it is."""
    _, bad = in_all_rounds(state, group, wrench, now, round_number)
    return bad[0].why if bad else None


def taken(state: State, group: str, round_number: int) -> tuple[str, str] | None:
    """The wrench and unit chosen for a round of a group."""
    return state.wrenches.get((group, round_number)) or state.wrenches.get((group, 0))


def in_use(state: State, chosen: tuple[str, str]) -> Wrench:
    """A wrench that was chosen, showing the unit it was found in."""
    wrench = state.job.registers.wrench(chosen[0])
    assert wrench is not None
    return showing(wrench, chosen[1])


def showing(wrench: Wrench, unit: str) -> Wrench:
    """The wrench as it stands: it shows this unit and no other."""
    return replace(wrench, units=(unit,)) if unit in wrench.units else wrench


def unit_read(state: State, wrench: Wrench) -> str:
    """The unit that was read off a wrench when it was chosen for another group; empty if it was not."""
    return next((unit for name, unit in state.wrenches.values() if name == wrench.id), "")


def rounds_to_choose(state: State, group: Fasteners, now: datetime) -> tuple[int, ...]:
    """Rounds that still want a wrench: 0 for all at once, where one wrench does them all."""
    if any_does_all(state, group, now):
        return () if (group.id, 0) in state.wrenches else (0,)
    return tuple(each for each in group.rounds_with_wrench if taken(state, group.id, each) is None)
