"""The guard run over a procedure's own steps, in every branch: a file may do nothing that a person may
not do.

The pump as found is taken to be built in the file's own order; each thing that comes off must be free,
each that goes in must be let in, and at the end nothing may stand against release. After a stop the walk
goes on as planned, and what the file never puts in is put in for it, so that one fault does not hide or
breed others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations, islice, product, takewhile
from typing import NamedTuple

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
    never_put_in: tuple[str, ...]
    """Parts and groups of the finished pump that no step puts in, whatever the branch."""


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
    left_out = never_put_in(pump)
    acts = _with_what_is_left_out(pump, left_out)
    found, paces = as_found(pump, acts), list[_Pace]()
    for branch in branches(pump):
        chosen = [
            act for act in acts if all(branch.get(name) == value for name, value in act.step.if_.items())
        ]
        paces = _gone(found, chosen, paces)
        yield _walk(branch, found, paces, left_out)


def _with_what_is_left_out(pump: Pump, left_out: tuple[str, ...]) -> tuple[Act, ...]:
    """The acts of the file, and one more for each thing that it never puts in, before it is needed."""
    acts = list(all_acts(pump))
    for thing in left_out:
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


class _Pace(NamedTuple):
    """One act of a way, and what the guard said to it."""

    act: Act
    before: Assembly
    after: Assembly
    passed_over: bool
    refusals: tuple[Refusal, ...]
    put_in: frozenset[str]
    """Those of its things that the file itself has put in by then."""


def _gone(found: Assembly, acts: list[Act], last: list[_Pace]) -> list[_Pace]:
    """A way gone to its end, but for its beginning as far as the last one began with the same acts."""
    paces = [
        pace for pace, act in takewhile(lambda pair: pair[0].act is pair[1], zip(last, acts, strict=False))
    ]
    way = _Way(paces[-1].after, paces[-1].put_in) if paces else _Way(found)
    for act in acts[len(paces) :]:
        before, passed_over = way.now, way.passes_over(act)
        refusals = () if passed_over else way.refusals(act)
        if not passed_over:
            way.do(act)
        paces.append(_Pace(act, before, way.now, passed_over, refusals, frozenset(way.put_in)))
    return paces


def _walk(branch: dict[str, str], found: Assembly, paces: list[_Pace], left_out: tuple[str, ...]) -> Walk:
    pump = found.pump
    case = Case(pump.variant, tuple(branch.items()))
    moments: list[Moment] = []
    stops: dict[tuple[str, str, str], Stop] = {}
    for place, (act, before, after, passed_over, refusals, _) in enumerate(paces):
        if not act.step.path:
            continue  # one of those that the file leaves out
        moments.append(Moment(act, before, after, passed_over))
        if act.step.after and not passed_over:
            refusals += tuple(_out_of_order(act, {pace.act.step.id for pace in paces[place + 1 :]}))
        for refusal in refusals:
            if refusal.off not in left_out:
                stops.setdefault(_key(refusal, act), Stop(refusal, act, before, after, (case,)))
    end = paces[-1].after if paces else found
    for refusal in guard.stands_against_release(end) if paces else ():
        stops.setdefault(_key(refusal, None), Stop(refusal, None, end, end, (case,)))
    return Walk(pump, case, tuple(moments), tuple(stops.values()), end, left_out)


def _key(refusal: Refusal, act: Act | None) -> tuple[str, str, str]:
    step = "" if act is None or refusal.rule in _STAND else act.step.id
    return refusal.rule, refusal.about, step


class _Way:
    """The pump on its way through the acts, and which of its things the file itself has put in."""

    def __init__(self, now: Assembly, put_in: Iterable[str] = ()) -> None:
        self.now = now
        self.put_in = set(put_in)

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


def _out_of_order(act: Act, later: set[str]) -> Iterator[Refusal]:
    """Steps the author wants before this one, and that come later in the file."""
    later = later - {act.step.id}
    for name in act.step.after:
        if name in later or name == act.step.id:
            yield Refusal(
                "step-before-its-time",
                f"{name} has to stand before {act.step.id}, and comes later",
                mend=f"put {name} before it",
                step=name,
                about=name,
            )
