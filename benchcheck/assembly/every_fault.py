"""Every single fault of a pump, worked out from its model and its acts: none is listed by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.bars import in_the_way_of
from benchcheck.assembly.clocks import clock_rules
from benchcheck.assembly.faults import (
    AnotherRing,
    AnotherScrew,
    AnotherVariant,
    AnotherWrench,
    CutShort,
    FactOutside,
    Fault,
    LeftOut,
    LeftOver,
    LikeExchanged,
    NotHome,
    OldForNew,
    OtherEnd,
    OutOfOrder,
    PositionOutOfTurn,
    PositionSkipped,
    Reversed,
    RoundLeftOut,
    RunningTorque,
    TooLate,
    ToolLeftInside,
    TorqueReading,
    Turned,
    TurnReading,
    TurnSkipped,
    TwoInOne,
    screws_of,
)
from benchcheck.assembly.planned import BUILDS, order_of, planned, rounds_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly, Seat
from benchcheck.mechanics.o_ring import UnknownSize, look_alikes, size
from benchcheck.procedure.model import SIDE, Ask, Fit, Part

READING_SLIPS = {
    "pulled short": 0.8,
    "pulled too far": 1.25,
    "a foot taken for an inch": 12.0,
    "an inch taken for a foot": 1 / 12,
    "lbf·ft taken for N·m": 1.355818,
    "N·m taken for lbf·ft": 1 / 1.355818,
    "kgf·m taken for N·m": 9.80665,
    "N·m taken for kgf·m": 1 / 9.80665,
    "N·m taken for kgf·cm": 10.19716,
    "kgf·cm taken for N·m": 1 / 10.19716,
}
"""What a torque is multiplied by: by the hand, or by one unit taken for another (factors of NIST SP 811)."""
MOVES = (Verb.FIT, Verb.INSTALL, Verb.REMOVE, Verb.START, Verb.TIGHTEN)
"""What can be done before its time."""


@dataclass(frozen=True)
class _Built:
    """The acts that build the pump, with the assembly after each as planned, from nothing."""

    pump: Pump
    acts: tuple[Act, ...]
    after: tuple[Assembly, ...]

    def of(self, verb: Verb) -> dict[str, Act]:
        return {act.target: act for act in self.acts if act.verb is verb}

    def covering_step(self, thing: str) -> str:
        """The step that covers a part or hides a groove; empty if none does."""
        for act, now in zip(self.acts, self.after, strict=True):
            if thing in self.pump.grooves:
                covered = now.closed(thing)
            else:
                covered = thing in now.seated and any(
                    each in now.seated for each in in_the_way_of(now, thing)
                )
            if covered:
                return act.step.id
        return ""


def every_fault(pump: Pump, wrenches: Iterable[str] = ()) -> tuple[Fault, ...]:
    """Every single fault of one variant, kind by kind.

    Parameters:
        wrenches: ids of the wrenches of the shop.
    """
    acts = all_acts(pump)
    built = _built(pump, tuple(act for act in acts if act.phase in BUILDS))
    return (
        *_parts(built),
        *_old_for_new(built, acts),
        *_tools(built),
        *_rings(built),
        *_screws(built),
        *_tightening(built, tuple(wrenches)),
        *_order(built),
        *_times(pump, acts),
        *_facts(pump, acts),
    )


def _built(pump: Pump, acts: tuple[Act, ...]) -> _Built:
    now, after = Assembly(pump), []
    for act in acts:
        if not (act.verb is Verb.INSTALL and act.target in now.seated):
            now = planned(now, act)
        after.append(now)
    return _Built(pump, acts, tuple(after))


def _parts(built: _Built) -> Iterator[Fault]:
    pump, installs = built.pump, built.of(Verb.INSTALL)
    for part, act in installs.items():
        told = pump.parts[part]
        yield LeftOut(act=act.id, thing=part)
        # Where only a yes is said, left out is the same; seen and covered in one step, it cannot get lost.
        if told.ends is not None and built.covering_step(part) != act.step.id:
            yield LeftOver(act=act.id, thing=part)
        if told.fit in (Fit.PRESS, Fit.HEAT):
            yield NotHome(act=act.id, thing=part)
        yield from _turned(pump, told, act)
        if told.ends is None or not pump.along_axis(part):
            continue
        yield Reversed(act=act.id, thing=part)
        yield from _other_end(pump, told, act)
        carrier = pump.parts[told.into or ""]
        if carrier.id in installs and carrier.ends is not None and pump.along_axis(carrier.id):
            first = min(part, carrier.id, key=list(installs).index)
            yield Reversed(act=installs[first].id, thing=part, carrier=carrier.id)
    for one, other in combinations(installs, 2):
        if pump.parts[one].item is not None and pump.parts[one].item == pump.parts[other].item:
            yield LikeExchanged(act=installs[one].id, thing=one, other=other)


def _turned(pump: Pump, told: Part, act: Act) -> Iterator[Fault]:
    for own in tuple(pump.lines_up(told.id))[:1]:
        for way in range(1, told.ways):
            degree = 360 * way // told.ways
            there = (told.marks[own] + degree) % 360
            mark = next((each for each, angle in told.marks.items() if angle == there), "")
            yield Turned(act=act.id, thing=told.id, degree=degree, own=own, mark=mark)


def _other_end(pump: Pump, told: Part, act: Act) -> Iterator[Fault]:
    """The seats of like shape at the other end of its body."""
    for other in pump.parts.values():
        if (
            other.into == told.into
            and other.shape == told.shape
            and other.ends is not None
            and SIDE not in other.ends_it_goes_in_from
            and not set(other.ends_it_goes_in_from) & set(told.ends_it_goes_in_from)
        ):
            yield OtherEnd(act=act.id, thing=told.id, end=other.ends_it_goes_in_from[0])


def _old_for_new(built: _Built, acts: Sequence[Act]) -> Iterator[Fault]:
    """For each single-use piece that comes out of the pump and has a successor."""
    pump, fitted = built.pump, {**built.of(Verb.INSTALL), **built.of(Verb.FIT)}
    for act in acts:
        if act.phase in BUILDS or act.verb not in (Verb.REMOVE, Verb.LIFT) or act.target not in fitted:
            continue
        if act.target in pump.grooves or pump.parts[act.target].single_use is not None:
            yield OldForNew(act=act.id, thing=act.target)


def _tools(built: _Built) -> Iterator[Fault]:
    seats: dict[str, Seat] = {}
    for act, now in zip(built.acts, built.after, strict=True):
        if act.verb is Verb.REMOVE and built.pump.parts[act.target].temporary and act.target in seats:
            yield ToolLeftInside(act=act.id, thing=act.target, seat=seats[act.target])
        seats |= now.seated


def _rings(built: _Built) -> Iterator[Fault]:
    pump, fits = built.pump, built.of(Verb.FIT)
    takes = {groove: pump.value(pump.grooves[groove].takes) or "" for groove in fits}
    rubbers = sorted({pump.grooves[groove].material for groove in fits})
    for groove, act in fits.items():
        told = pump.grooves[groove]
        yield LeftOut(act=act.id, thing=groove)
        # Filled and hidden in one step it has no time to get lost, unless it lies loose in a face.
        if told.face is not None or built.covering_step(groove) != act.step.id:
            yield LeftOver(act=act.id, thing=groove)
        for wrong in _taken_for(takes[groove]):
            yield AnotherRing(act=act.id, thing=groove, size=wrong, material=told.material)
        for rubber in rubbers:
            if rubber != told.material:
                yield AnotherRing(act=act.id, thing=groove, size=takes[groove], material=rubber)
    for one, other in combinations(fits, 2):
        same = takes[one] == takes[other] and pump.grooves[one].material == pump.grooves[other].material
        if same and pump.grooves[one].in_ == pump.grooves[other].in_:
            yield TwoInOne(act=fits[one].id, thing=other, full=one)
            yield TwoInOne(act=fits[one].id, thing=one, full=other)


def _taken_for(dash: str) -> tuple[str, ...]:
    """The sizes of the standard that the eye takes for this one; none for a size that is in no standard."""
    try:
        return tuple(each.designation for each in look_alikes(size(dash)) if not each.is_metric)
    except UnknownSize:
        return ()


def _screws(built: _Built) -> Iterator[Fault]:
    for group, act in built.of(Verb.START).items():
        told = built.pump.groups[group]
        if not told.parts:
            yield LeftOut(act=act.id, thing=group)
        items = dict.fromkeys(each.item for each in told.screws)
        for number, right in enumerate(screws_of(built.pump, group)):
            for item in items:
                if item != right:
                    yield AnotherScrew(act=act.id, thing=group, number=number, item=item)


def _tightening(built: _Built, wrenches: tuple[str, ...]) -> Iterator[Fault]:
    pump = built.pump
    done: dict[str, int] = {}
    for act in built.acts:
        if act.verb is Verb.TIGHTEN:
            first, last = done.get(act.target, 0) + 1, rounds_of(pump, act.target)
            for number in (act.step.round,) if act.step.round is not None else range(first, last + 1):
                yield from _round(pump, act, number)
            if not act.step.if_:
                done[act.target] = act.step.round or last
    for group, act in built.of(Verb.TIGHTEN).items():
        yield from _of_its_own(pump, group, act)
        if pump.groups[group].torque is not None:
            for wrench in wrenches:
                yield AnotherWrench(act=act.id, thing=group, wrench=wrench)


def _of_its_own(pump: Pump, group: str, act: Act) -> Iterator[Fault]:
    """What only a locking nut has, and what only screws have that are turned on by an angle."""
    told = pump.groups[group]
    if told.prevailing is not None:
        for limit, factor in ((told.prevailing.min, 0.8), (told.prevailing.max, 1.25)):
            yield RunningTorque(act=act.id, thing=group, answer=f"{float(limit.value) * factor:.4g}")
    if told.angle is not None:
        for position in order_of(pump, group):
            yield TurnSkipped(act=act.id, thing=group, position=position)
        for because, factor in (("turned half as far", 0.5), ("turned twice as far", 2.0)):
            yield TurnReading(act=act.id, thing=group, factor=factor, because=because)


def _round(pump: Pump, act: Act, number: int) -> Iterator[Fault]:
    group, order, last = act.target, order_of(pump, act.target), rounds_of(pump, act.target)
    for position in order:
        yield PositionSkipped(act=act.id, thing=group, round=number, position=position)
    for position in order[1:]:
        yield PositionOutOfTurn(act=act.id, thing=group, round=number, position=position, due=order[0])
    if len(order) > 1:  # the one just done, once more
        yield PositionOutOfTurn(act=act.id, thing=group, round=number, position=order[0], due=order[1])
    if last > 1:
        instead = number + 1 if number < last else number - 1
        yield RoundLeftOut(act=act.id, thing=group, round=number, instead=instead)
    if pump.groups[group].torque is not None:
        for because, factor in READING_SLIPS.items():
            yield TorqueReading(act=act.id, thing=group, round=number, factor=factor, because=because)


def _order(built: _Built) -> Iterator[Fault]:
    """Each pair of neighbours exchanged; and each step done although one it has to come after is not."""
    for first, second in pairwise(act for act in built.acts if act.verb in MOVES):
        yield OutOfOrder(act=first.id, first=second.id)
    begins = {act.step.id: act for act in reversed(built.acts)}
    ends = {act.step.id: act for act in built.acts}
    for step, act in begins.items():
        for name in act.step.after:
            if name in ends and name != step:
                yield OutOfOrder(act=ends[name].id, first=act.id)


def _times(pump: Pump, acts: Sequence[Act]) -> Iterator[Fault]:
    """Each clock where it is waited for, or at the first act that it bars; each reading that has to hold."""
    for rule in clock_rules(pump):
        waits = [act for act in acts if act.verb is Verb.WAIT and act.target == rule.id]
        barred = [act for act in acts if act.phase.value in rule.bars or act.step.id in rule.bars]
        # What a clock bars by its phase may begin before it is started; what counts is what comes after.
        starts = rule.group or rule.step
        begins = [act for act in acts if starts in (act.target, act.step.id)]
        after = [act for act in barred if not begins or acts.index(act) > acts.index(begins[-1])]
        if rule.least is not None:
            for act in (*waits, *after)[:1]:
                yield CutShort(act=act.id, clock=rule.id)
        if rule.most is not None:
            for act in after[:1]:
                yield TooLate(act=act.id, clock=rule.id)
    for act in acts:
        if act.verb is Verb.ASK and act.question.hold is not None:
            yield CutShort(act=act.id)


def _facts(pump: Pump, acts: Sequence[Act]) -> Iterator[Fault]:
    for act in acts:
        if act.verb is not Verb.ASK:
            continue
        question = act.question
        for answer in outside_answers(question):
            yield FactOutside(act=act.id, answer=answer, what=question.what)
        if question.sets == "variant" and question.one_of:
            for variant in question.one_of:
                if variant != pump.variant:
                    yield AnotherVariant(act=act.id, variant=variant)


def outside_answers(question: Ask) -> tuple[str, ...]:
    """Answers that are not good: those the author does not call good, or below and above the limits."""
    if question.one_of:
        return tuple(each for each in question.one_of if question.good and each not in question.good)
    low, high = question.min, question.max
    found = []
    if low is not None and (low.value > 0 or high is not None):
        span = high.value - low.value if high is not None and high.unit == low.unit else low.value * 2 / 5
        found.append(f"{low.value - span / 2:f}")
    if high is not None:
        found.append(f"{high.value + (abs(high.value) / 5 or 1):f}")
    if question.proves:
        found.append(f"{min(low.value for low, _ in question.proves.values()) * 2 / 3:.4f}")
    if question.as_ is not None:  # far from whatever was kept
        found.append("99")
    return tuple(each.rstrip("0").rstrip(".") if "." in each else each for each in found)
