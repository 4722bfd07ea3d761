"""A procedure as the program understood it, in plain values, for its author to hold against the pump.

All of it is worked out from the model: what lies on what and how it faces, which step fills and which closes
a groove, what a group's torque comes to. What it takes of pieces and tools is in `needed`. Whether it can be
right is for `checking`; how it is drawn is for the screens.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.facing import points_to
from benchcheck.assembly.planned import BUILDS, order_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.assembly.tightening import after_its_angle, round_target, shares_of_proof
from benchcheck.checking.subject import Subject
from benchcheck.checking.walk import Walk
from benchcheck.checking.walk import walks as ways_through
from benchcheck.mechanics import interaction, preload
from benchcheck.mechanics.pattern import rectangle_places
from benchcheck.procedure.model import Caution, Fasteners, Groove, Head, Screws
from benchcheck.report import words
from benchcheck.report.needed import Needed, kit, tools, wrenches


@dataclass(frozen=True, slots=True)
class StackedPart:
    """A part of a stack; `facing`: the end of it that looks where the stack is counted from."""

    called: str
    facing: str


@dataclass(frozen=True, slots=True)
class StackUnderstood:
    """Parts as one meets them from an open end, outermost first."""

    on: str
    from_: str
    only: tuple[str, ...]
    """The variants that it is for; none: all."""
    parts: tuple[StackedPart, ...]
    line: int


@dataclass(frozen=True, slots=True)
class GrooveUnderstood:
    """A groove with its ring, and the numbers and names of the steps that fill and that close it."""

    groove: Groove
    takes: str
    carrier: str
    cover: str
    """What closes it, as a person calls it."""
    filled: str
    closed: str
    line: int


@dataclass(frozen=True, slots=True)
class GroupUnderstood:
    """A fastener group; `told` are short labels, each with what is to be said under it."""

    group: Fasteners
    order: tuple[int, ...]
    told: tuple[tuple[str, str], ...]
    line: int


@dataclass(frozen=True)
class Understood:
    """A whole procedure."""

    head: Head
    counts: str
    """Steps, parts, grooves and groups, in words."""
    stacks: tuple[StackUnderstood, ...]
    grooves: tuple[GrooveUnderstood, ...]
    groups: tuple[GroupUnderstood, ...]
    kit: tuple[Needed, ...]
    tools: tuple[Needed, ...]
    cautions: tuple[Caution, ...]
    caution_line: int
    kit_line: int


def understood(subject: Subject) -> Understood:
    """What the program makes of a procedure, with the lines of the file that it comes from."""
    file = subject.file
    ways = [next(ways_through(pump)) for pump in subject.pumps.values()]
    return Understood(
        file.procedure,
        ", ".join(
            (
                words.count(len(file.step), "step"),
                words.count(len(file.part), "part"),
                words.count(len(file.groove), "groove"),
                words.count(len(file.fasteners), "group"),
            )
        ),
        tuple(_stacks(subject, ways)),
        tuple(_groove(subject, each, ways) for each in file.groove),
        tuple(_group(subject, each) for each in file.fasteners),
        tuple(kit(subject)),
        tuple(tools(subject)),
        file.caution,
        subject.place(file.caution[0]).line if file.caution else subject.place(file.procedure).line,
        subject.place(file.kit).line if file.kit is not None else subject.place(file.procedure).line,
    )


# ---------------------------------------------------------------------- stacks and grooves


def _stacks(subject: Subject, ways: Sequence[Walk]) -> Iterator[StackUnderstood]:
    for stack in subject.file.stack:
        way = next((each for each in ways if stack in each.pump.stacks), None)
        if way is not None:
            pump = way.pump
            yield StackUnderstood(
                pump.called(stack.on),
                stack.from_,
                stack.for_,
                tuple(
                    StackedPart(pump.called(part), _facing(way.end, part, stack.on, stack.from_))
                    for part in stack.order
                    if part in pump.parts
                ),
                subject.place(stack).line,
            )


def _facing(now: Assembly, part: str, on: str, end: str) -> str:
    """The end of a part that points to an end of another in the finished pump; empty where none does."""
    ends = now.pump.parts[part].ends or ()
    return next((each for each in ends if points_to(now, part, each, on) == end), "")


def _groove(subject: Subject, groove: Groove, ways: Sequence[Walk]) -> GrooveUnderstood:
    way = next((each for each in ways if groove.id in each.pump.grooves), None)
    filled, closed = _filled_and_closed(way, groove.id) if way is not None else ("", "")
    takes = groove.takes
    sizes = (
        takes if isinstance(takes, str) else ", ".join(f"{size} for {name}" for name, size in takes.items())
    )
    closed_by = (_called(subject, each) for each in groove.closed_against)
    return GrooveUnderstood(
        groove,
        f"{sizes} {groove.material}",
        _called(subject, groove.in_),
        ", ".join(closed_by),
        filled,
        closed,
        subject.place(groove).line,
    )


def _called(subject: Subject, part: str) -> str:
    found = subject.part(part)
    return found.called if found is not None else part


def _filled_and_closed(way: Walk, groove: str) -> tuple[str, str]:
    """The step that fits the ring, and the one after which the groove is closed over it."""
    filled = closed = ""
    for moment in way.moments:
        if moment.act.phase not in BUILDS:
            continue
        if not filled and moment.act.verb is Verb.FIT and moment.act.target == groove:
            filled = _numbered(way.pump, moment.act.step.id)
        if not closed and moment.after.closed(groove) and not moment.before.closed(groove):
            closed = _numbered(way.pump, moment.act.step.id)
    return filled, closed


def _numbered(pump: Pump, step: str) -> str:
    number = next((place for place, each in enumerate(pump.steps, 1) if each.id == step), None)
    return f"{number} {step}" if number is not None else step


# ---------------------------------------------------------------------- fastener groups


def _group(subject: Subject, group: Fasteners) -> GroupUnderstood:
    pump = next((each for each in subject.pumps.values() if group.id in each.groups), None)
    order = order_of(pump, group.id) if pump is not None else ()
    return GroupUnderstood(group, order, tuple(_told(subject, group, order)), subject.place(group).line)


def _told(subject: Subject, group: Fasteners, order: Sequence[int]) -> Iterator[tuple[str, str]]:
    screw = ", ".join(each for each in (group.thread, group.strength) if each)
    yield "what", f"{group.count} x {screw}" if screw else words.count(group.count, "position")
    if len({each.item for each in group.screws}) > 1:
        yield "screws", "; ".join(_screws(each) for each in group.screws)
    if group.hand == "left":
        yield "hand", "left: tightens counter-clockwise"
    layout = group.layout
    if layout is not None and layout.seen_from is not None:
        first = "at" if layout.at_datum else "next clockwise to"
        datum = f"; 1 is {first} {layout.datum}" if layout.datum else ""
        yield "seen", f"from the {layout.seen_from}{datum}"
    if group.torque is not None:
        friction = group.friction
        factor = f", K {friction.nut_factor:g}" if friction and friction.nut_factor is not None else ""
        condition = f"; {friction.condition}{factor}" if friction else ""
        yield "torque", f"{group.torque.target} ± {group.torque.tolerance}{condition}"
    if len(order) > 1:
        yield "order", "each by itself" if group.each else "-".join(map(str, order))
    if group.torque is not None and len(group.rounds) > 1:
        rounds = (f"{share}: {round_target(group, at).target}" for at, share in enumerate(group.rounds, 1))
        yield (
            "rounds",
            ", ".join(rounds) + (", then a check pass" if group.has_pass and group.angle is None else ""),
        )
    if group.angle is not None:
        yield "then", f"{group.angle.add} ± {group.angle.tolerance} on" + (", once" * group.angle.once)
    shares = shares_of_proof(group)
    if shares is not None:
        bottom, target, top = (f"{100 * share:.0f}" for share in shares)
        yield "proof", f"{target} % of proof load, {bottom} to {top} with the tolerance"
    turned = after_its_angle(group)
    if turned is not None:
        least, planned, most = (f"{100 * each.share_of_proof:.0f}" for each in turned)
        margin = f"{100 * turned[-1].margin_to_yield:.0f} % short of yield at the most"
        yield "turned", f"{planned} % after the angle, {least} to {most} with both tolerances; {margin}"
    if group.low_because:
        yield "low", group.low_because
    if shares is not None:
        yield "spread", _scatter(group)
    if trips := _trips(group, order):
        told = (f"{_from_to(trip)} after {name}" for name, trip in trips)
        yield "", f"between positions, ESTIMATED: {', '.join(told)}"
    if group.torque is not None:
        yield "wrench", wrenches(subject, group)


def _screws(screws: Screws) -> str:
    at = f" at {words.listed(map(str, screws.at))}" if screws.at else ""
    return f"{screws.item}{at}" + (f" for {' and '.join(screws.for_)}" if screws.for_ else "")


def _scatter(group: Fasteners) -> str:
    """How far preloads spread for the way the group is tightened, with where that is said."""
    row = preload.scatter("angle" if group.angle is not None else "torque")
    return f"± {100 * row.share:.0f} % of preload, by friction ({row.source}, {row.mark})"


def _from_to(trip: interaction.Pass) -> str:
    """The least and the most that positions are left with, as one figure where they agree."""
    low, high = f"{100 * trip.lowest:.0f}", f"{100 * trip.highest:.0f}"
    return f"{low} %" if low == high else f"{low} to {high} %"


def _trips(group: Fasteners, order: Sequence[int]) -> tuple[tuple[str, interaction.Pass], ...]:
    """What is left after the last round and after the check pass; none where no position acts on another."""
    layout = group.layout
    if layout is None or group.each or len(order) < 2 or group.low_because:
        return ()
    shares = [float(share.value) / 100 for share in group.rounds] or [1.0]
    try:
        if layout.circle is not None:
            influence = interaction.circle_influence(layout.circle)
        else:
            places = layout.points or rectangle_places(*(layout.rectangle or (1, 1)))
            influence = interaction.points_influence(places)
        passes = interaction.simulate(influence, order, shares, check_passes=int(group.has_pass))
    except interaction.InteractionError:
        return ()
    named = (("the last round", passes[len(shares) - 1]), ("the check pass", passes[-1]))
    return named if group.has_pass else named[:1]
