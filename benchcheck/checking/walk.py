"""The guard run over a procedure's own steps, in every branch: a file may do nothing that a person may
not do.

The pump as found is taken to be built in the file's own order; each thing that comes off must be free,
each that goes in must be let in, and at the end nothing may stand against release. After a stop the walk
goes on as planned, and what the file never puts in is put in for it, so that one fault does not hide or
breed others.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, islice, product

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.planned import BUILDS, as_found, order_of, planned, planned_install, rounds_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase, Step

MOST_BRANCHES = 100
"""Beyond so many, verdicts are tried each with each other in pairs instead of all with all."""

_STAND = ("part-faces-the-wrong-way", "marks-do-not-line-up", "groove-left-empty", "tool-left-inside")
"""What goes on being wrong until it is mended; the walk says it where it begins."""


@dataclass(frozen=True, slots=True)
class Case:
    """One way through a procedure: a variant, and the verdicts on which its steps depend."""

    variant: str | None
    verdicts: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Moment:
    """One act of the file, and the pump before and after it as planned."""

    act: Act
    before: Assembly
    after: Assembly
    passed_over: bool
    """Whether it was not needed: what was never taken off is still on."""


@dataclass(frozen=True, slots=True)
class Stop:
    """What the guard refuses."""

    refusal: Refusal
    act: Act | None
    """None: it stands against release at the end."""
    before: Assembly
    after: Assembly
    cases: tuple[Case, ...]
    """The ways on which it happens."""

    @property
    def about(self) -> str:
        return self.refusal.about

    @property
    def pump(self) -> Pump:
        return self.before.pump


@dataclass(frozen=True)
class Walk:
    """One way, gone from the pump as found to its release."""

    pump: Pump
    case: Case
    moments: tuple[Moment, ...]
    stops: tuple[Stop, ...]
    end: Assembly

    @cached_property
    def never_put_in(self) -> tuple[str, ...]:
        """Parts and groups of the finished pump that no step puts in, whatever the branch."""
        return never_put_in(self.pump)


def never_put_in(pump: Pump) -> tuple[str, ...]:
    """Parts and groups of the finished pump that no step of the building puts in."""
    acts = [act for act in all_acts(pump) if act.phase in BUILDS]
    fitted = {act.target for act in acts if act.verb is Verb.INSTALL}
    started = {act.target for act in acts if act.verb is Verb.START}
    return (
        *(part for part in pump.needed() if part not in fitted),
        *(group for group in pump.groups if group not in started),
    )


def branches(pump: Pump) -> Iterator[dict[str, str]]:
    """Every combination of verdicts that an `if` asks for, and of those that it does not.

    Where there are too many, each pair of verdicts in all its combinations, the others at their first.
    """
    values: dict[str, list[str]] = {}
    for step in pump.steps:
        for verdict, value in step.if_.items():
            values.setdefault(verdict, []).append(value)
    for step in pump.steps:
        for question in step.ask:
            if question.sets in values:
                values[question.sets] += question.one_of
    if "variant" in values and pump.variant is not None:
        values["variant"] = [pump.variant]
    each = {name: sorted(set(values[name])) for name in sorted(values)}
    count = 1
    for choices in each.values():
        count *= len(choices)
    if count <= MOST_BRANCHES:
        for chosen in product(*each.values()):
            yield dict(zip(each, chosen, strict=True))
        return
    first = {name: choices[0] for name, choices in each.items()}
    pairs = (
        {**first, one: mine, other: its}
        for one, other in combinations(each, 2)
        for mine, its in product(each[one], each[other])
    )
    yield from islice(pairs, MOST_BRANCHES)


def walks(pump: Pump) -> Iterator[Walk]:
    """Every way through one variant."""
    acts = with_what_is_left_out(pump)
    found = as_found(pump, acts)
    for branch in branches(pump):
        yield _walk(pump, branch, found, acts)


def with_what_is_left_out(pump: Pump) -> tuple[Act, ...]:
    """The acts of the file, and one more for each thing that it never puts in, before it is needed."""
    acts = list(all_acts(pump))
    for thing in never_put_in(pump):
        verb = Verb.INSTALL if thing in pump.parts else Verb.START
        step = Step(id="left-out", part=thing) if thing in pump.parts else Step(id="left-out", group=thing)
        place = next((at for at, act in enumerate(acts) if _needs(pump, act, thing)), len(acts))
        acts[place:place] = [Act(step, verb, thing)]
        if verb is Verb.START:
            acts[place + 1 : place + 1] = [Act(step, Verb.TIGHTEN, thing)]
    return tuple(acts)


def _needs(pump: Pump, act: Act, thing: str) -> bool:
    """Whether an act of the building can only come after the thing is in."""
    if act.phase in (Phase.TEST, Phase.RELEASE):
        return True
    if act.phase not in BUILDS:
        return False
    target = act.target
    if act.verb is Verb.START and thing in pump.parts:
        return thing in (*pump.groups[target].holds, *pump.groups[target].parts)
    if act.verb is not Verb.INSTALL or target == thing or thing not in pump.parts:
        return False
    return thing in pump.parts[target].holds or any(
        thing in stack.order
        and target in stack.order
        and stack.order.index(target) < stack.order.index(thing)
        for stack in pump.stacks
    )


def _walk(pump: Pump, branch: dict[str, str], found: Assembly, all_of_file: tuple[Act, ...]) -> Walk:
    case = Case(pump.variant, tuple(branch.items()))
    acts = [
        act for act in all_of_file if all(branch.get(name) == value for name, value in act.step.if_.items())
    ]
    left_out = never_put_in(pump)
    way = _Way(found)
    moments: list[Moment] = []
    stops: dict[tuple[str, str, str], Stop] = {}
    for place, act in enumerate(acts):
        before, over = way.now, way.passes_over(act)
        if not over:
            refusals = [*way.refusals(act), *_out_of_order(act, acts[place + 1 :])]
            way.do(act)
            if act.step.path:  # not one of those that the file leaves out
                for refusal in refusals:
                    if refusal.off not in left_out:
                        stops.setdefault(_key(refusal, act), Stop(refusal, act, before, way.now, (case,)))
        if act.step.path:
            moments.append(Moment(act, before, way.now, over))
    if acts:
        for refusal in guard.stands_against_release(way.now):
            stops.setdefault(_key(refusal, None), Stop(refusal, None, way.now, way.now, (case,)))
    return Walk(pump, case, tuple(moments), tuple(stops.values()), way.now)


def _key(refusal: Refusal, act: Act | None) -> tuple[str, str, str]:
    step = "" if act is None or refusal.rule in _STAND else act.step.id
    return refusal.rule, refusal.about, step


class _Way:
    """The pump on its way through the acts, and which of its things the file itself has put in."""

    def __init__(self, found: Assembly) -> None:
        self.now = found
        self.put_in: set[str] = set()

    def passes_over(self, act: Act) -> bool:
        """What stands as it was found is not done again: the good bearing that was never taken off."""
        now, target = self.now, act.target
        if act.phase not in BUILDS or target in self.put_in:
            return False
        match act.verb:
            case Verb.INSTALL:
                return target in now.seated
            case Verb.FIT:
                return bool(now.living_rings(target))
            case Verb.START | Verb.TIGHTEN:
                return target in now.held and now.held[target].passed
        return False

    def refusals(self, act: Act) -> tuple[Refusal, ...]:
        now, pump, target = self.now, self.now.pump, act.target
        match act.verb:
            case Verb.FIT:
                groove = pump.grooves[target]
                return guard.may_fit(now, target, pump.value(groove.takes) or "", groove.material)
            case Verb.INSTALL:
                if target not in self.put_in and now.is_dead(target):
                    now = now.replaced(target)  # by one out of the kit
                return guard.may_install(now, planned_install(now, target), target)
            case Verb.LIFT:
                if not now.sealed.get(target):
                    return (Refusal("not-in", f"{target} has no ring to take out", about=target),)
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
                return self._may_tighten(act)
        return ()

    def _may_tighten(self, act: Act) -> tuple[Refusal, ...]:
        group, hold = act.target, self.now.held.get(act.target)
        if hold is None:
            return guard.may_tighten(self.now, group, order_of(self.now.pump, group)[0], act.step.round or 1)
        if act.step.round is None or hold.rounds == act.step.round - 1:
            return ()
        refused = guard.may_tighten(self.now, group, order_of(self.now.pump, group)[0], act.step.round)
        return tuple(each for each in refused if each.rule == "round-out-of-order")

    def do(self, act: Act) -> None:
        """The act as planned; what cannot be carried out at all leaves things as they are."""
        now, target = self.now, act.target
        match act.verb:
            case Verb.INSTALL:
                if target in now.seated:
                    return
                if now.is_dead(target):
                    now = now.replaced(target)
            case Verb.REMOVE:
                if target not in now.seated:
                    return
            case Verb.LOOSEN:
                if target not in now.held:
                    return
            case Verb.START:
                if target in now.held:
                    return
            case Verb.TIGHTEN:
                if target not in now.held:
                    now = now.started(target)
                if act.step.round is not None and now.held[target].rounds >= rounds_of(now.pump, target):
                    self.now = now
                    return
            case Verb.FIT:
                if now.living_rings(target):
                    return
        self.now = planned(now, act)
        if act.verb in (Verb.INSTALL, Verb.FIT, Verb.START):
            self.put_in.add(target)


def _out_of_order(act: Act, rest: list[Act]) -> Iterator[Refusal]:
    """Steps the author wants before this one, and that come later in the file."""
    if not act.step.after:
        return
    later = {each.step.id for each in rest} - {act.step.id}
    for name in act.step.after:
        if name in later or name == act.step.id:
            yield Refusal(
                "step-before-its-time",
                f"{name} has to stand before {act.step.id}, and comes later",
                mend=f"put {name} before it",
                step=name,
                about=name,
            )
