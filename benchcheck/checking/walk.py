"""The guard run over a procedure's own steps, in every branch: a file may do nothing that a person may
not do.

The pump as found is taken to be built in the file's own order; each thing that comes off must be free,
each that goes in must be let in, and at the end nothing may stand against release. After a stop the walk
goes on as planned, so that one fault does not hide the next.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.planned import as_found, order_of, planned, planned_install, rounds_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase


@dataclass(frozen=True, slots=True)
class Stop:
    """An act of the file that the guard refuses."""

    act: Act | None
    """None: what stands against release at the end."""
    refusal: Refusal
    variant: str | None
    branch: tuple[tuple[str, str], ...]
    """The verdicts under which it happens."""


def branches(pump: Pump) -> Iterator[dict[str, str]]:
    """Every combination of verdicts that an `if` asks for, and of those that it does not."""
    values: dict[str, set[str]] = {}
    for step in pump.steps:
        for verdict, value in step.if_.items():
            values.setdefault(verdict, set()).add(value)
    for step in pump.steps:
        for question in step.ask:
            if question.sets in values:
                values[question.sets] |= set(question.one_of)
    names = sorted(values)
    for chosen in product(*(sorted(values[name]) for name in names)):
        yield dict(zip(names, chosen, strict=True))


def walk(pump: Pump) -> Iterator[Stop]:
    """Every stop, in every branch of one variant."""
    for branch in branches(pump):
        yield from _walk_branch(pump, branch)


def _walk_branch(pump: Pump, branch: dict[str, str]) -> Iterator[Stop]:
    now = as_found(pump)
    verdicts = tuple(branch.items())
    stands: set[str] = set()
    acts = [
        act
        for act in all_acts(pump)
        if all(branch.get(name) == value for name, value in act.step.if_.items())
    ]
    for place, act in enumerate(acts):
        if _passed_over(now, act):
            stands.add(act.step.id)
            continue
        ready = now
        if act.verb is Verb.INSTALL and now.is_dead(act.target):
            ready = now.replaced(act.target)
        for refusal in (*_refusals(ready, act), *_out_of_order(act, acts[place:], stands)):
            yield Stop(act, refusal, pump.variant, verdicts)
        now = _done(ready, act)
        stands.add(act.step.id)
    if acts:
        for refusal in guard.stands_against_release(now):
            yield Stop(None, refusal, pump.variant, verdicts)


def _passed_over(now: Assembly, act: Act) -> bool:
    """What stands already is not done again: the good bearing that was never taken off."""
    match act.verb:
        case Verb.INSTALL:
            return act.target in now.seated and act.phase is Phase.REASSEMBLY
        case Verb.START:
            return act.target in now.held and now.held[act.target].passed
        case Verb.TIGHTEN:
            return act.target in now.held and now.held[act.target].passed
    return False


def _refusals(now: Assembly, act: Act) -> tuple[Refusal, ...]:
    pump, target = now.pump, act.target
    match act.verb:
        case Verb.FIT:
            groove = pump.grooves[target]
            return guard.may_fit(now, target, pump.value(groove.takes) or "", groove.material)
        case Verb.INSTALL:
            return guard.may_install(now, planned_install(now, target), target)
        case Verb.LIFT:
            if not now.sealed.get(target):
                return (Refusal("not-in", f"{target} has no ring to take out", passable=False),)
            return guard.may_lift(now, target)
        case Verb.REMOVE:
            found = guard.may_remove(now, target)
            if act.phase is Phase.TEARDOWN:
                found = tuple(each for each in found if each.rule != "guard-missing")
            return found
        case Verb.LOOSEN:
            return guard.may_loosen(now, target)
        case Verb.START:
            return guard.may_start(now, target)
        case Verb.TIGHTEN:
            round_number = act.step.round or 1
            if target not in now.held:
                return guard.may_tighten(now, target, 1, round_number)
            if act.step.round is not None and now.held[target].rounds != round_number - 1:
                return guard.may_tighten(now, target, order_of(pump, target)[0], round_number)
    return ()


def _out_of_order(act: Act, rest: list[Act], stands: set[str]) -> Iterator[Refusal]:
    """Steps the author wants before this one, and that come later in the file or not at all."""
    later = {each.step.id for each in rest}
    for name in act.step.after:
        if name not in stands or name in later - {act.step.id}:
            yield Refusal(
                "step-before-its-time",
                f"{name} has to stand before {act.step.id}, and comes later",
                mend=f"put {name} before it",
                step=name,
            )


def _done(now: Assembly, act: Act) -> Assembly:
    """The act as planned; what cannot be carried out at all leaves things as they are."""
    target = act.target
    match act.verb:
        case Verb.INSTALL if target in now.seated:
            return now
        case Verb.REMOVE if target not in now.seated:
            return now
        case Verb.LOOSEN if target not in now.held:
            return now
        case Verb.START if target in now.held:
            return now
        case Verb.TIGHTEN:
            if target not in now.held:
                now = now.started(target)
            if act.step.round is not None and now.held[target].rounds >= rounds_of(now.pump, target):
                return now
    return planned(now, act)
