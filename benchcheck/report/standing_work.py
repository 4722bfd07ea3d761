"""How the work stands when it is left: what is half done, what must not be touched, what is inside.

Worked out from the state alone, in sentences, for tags and the handover card.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from benchcheck.assembly.planned import rounds_of
from benchcheck.report.journal import Journal
from benchcheck.report.words import capital, count, listed, step_words
from benchcheck.session.clocks import running
from benchcheck.session.engine import next_act


def tools_inside(journal: Journal) -> tuple[str, ...]:
    """Temporary tools that are in the pump."""
    now = journal.state.assembly
    return tuple(
        part.called for part in journal.state.pump.parts.values() if part.temporary and part.id in now.seated
    )


def how_it_lies(journal: Journal) -> tuple[str, ...]:
    pump = journal.state.pump
    return tuple(
        f"{capital(pump.the(work))} lies with its {end} up."
        for work, end in journal.state.assembly.poses.items()
        if end
    )


def half_done(journal: Journal) -> tuple[str, ...]:
    """What was begun and is not finished."""
    return (*_in_hand(journal), *_groups(journal), *_open_grooves(journal), *_on_the_bench(journal))


def _in_hand(journal: Journal) -> Iterator[str]:
    state = journal.state
    if state.reaching:
        yield f"Going back: {listed(state.pump.the(each) for each in state.reaching)} is still to be reached."
    if state.outside:
        yield f"{capital(state.outside)} stands outside its limits, and nothing is decided on it."
    act = next_act(state)
    if act is not None and state.hand:
        answered = "; ".join(f"{question}: {value}" for question, value in state.hand.items())
        yield f"{capital(step_words(state.pump, act.step))} ({act.step.id}) is in hand. Answered: {answered}."
    for suspect in state.suspects:
        yield f"{capital(state.pump.the(suspect))} is in doubt until it is fitted anew."


def _groups(journal: Journal) -> Iterator[str]:
    pump = journal.state.pump
    for name, hold in journal.state.assembly.held.items():
        if hold.passed:
            continue
        group, rounds = pump.groups[name], rounds_of(pump, name)
        said = f"{capital(group.called)}: {hold.rounds} of {count(rounds, 'round')} done"
        if hold.done:
            said += (
                f", and {len(hold.done)} of {count(group.count, 'position')} of the next, which starts again"
            )
        elif hold.rounds >= rounds:
            said += (
                f"; {len(hold.checked)} of {count(group.count, 'position')} {_after_rounds(journal, name)}"
            )
        yield f"{said}."


def _after_rounds(journal: Journal, group: str) -> str:
    return (
        "turned on" if journal.state.pump.groups[group].angle is not None else "checked, which starts again"
    )


def _open_grooves(journal: Journal) -> Iterator[str]:
    now, pump = journal.state.assembly, journal.state.pump
    for name, groove in pump.grooves.items():
        if now.living_rings(name) and not now.closed(name):
            yield f"The ring of {name} lies open, {groove.where}, on {pump.the(groove.in_)}."


def _on_the_bench(journal: Journal) -> Iterator[str]:
    """Works that are built up beside the main one."""
    now, pump = journal.state.assembly, journal.state.pump
    for part in pump.needed():
        if part in now.seated or now.present(part):
            continue
        if carried := now.carried_by(part):
            inside = listed(pump.called(each) for each in carried)
            yield f"{capital(pump.the(part))} lies beside the pump, with {inside} in or on it."


def not_to_be_touched(journal: Journal, now: datetime) -> tuple[str, ...]:
    """What would be spoilt, or hurt somebody, if it were moved."""
    return (*_clocks(journal, now), *_half_tight(journal), *_lying_open(journal), *_loose(journal))


def _clocks(journal: Journal, now: datetime) -> Iterator[str]:
    for rule, end in running(journal.state, now):
        because = f", because {rule.because}" if rule.because else ""
        yield f"{capital(rule.called)}: not to be turned or loaded before {journal.until(end)}{because}."


def _half_tight(journal: Journal) -> Iterator[str]:
    pump = journal.state.pump
    for name, hold in journal.state.assembly.held.items():
        if not hold.passed:
            yield f"{capital(pump.called(name))}: none is turned out of its order, tighter or looser."


def _lying_open(journal: Journal) -> Iterator[str]:
    now, pump = journal.state.assembly, journal.state.pump
    for name, groove in pump.grooves.items():
        if groove.face and now.living_rings(name) and not now.closed(name):
            the = pump.the(groove.in_)
            yield f"{capital(the)} is not turned over: the ring of {name} would fall out."


def _loose(journal: Journal) -> Iterator[str]:
    now, pump = journal.state.assembly, journal.state.pump
    for part in pump.parts.values():
        holders = pump.holders.get(part.id, ())
        if part.never_loose and part.id in now.seated:
            held = any(each in now.held or each in now.seated for each in holders)
            if not held:
                yield f"{capital(pump.the(part.id))} is held by nothing yet: leave the work as it lies."
