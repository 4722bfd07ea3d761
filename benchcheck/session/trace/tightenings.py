"""Every tightening of a record: what the wrench showed, between which limits, and what became of it.

Worked out from the events alone, without the state. In the check pass a wrench is drawn to the full torque
once more: where the screw moves, that is a tightening too; where it stands, it is as tight as it was. A
tightening is done again when its position is, in its round; when it was corrected; and when its round was
broken off before it was whole. It is loosened with its group. What a wrench that was wrong really gave is in
`recalibrated`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from benchcheck.assembly.planned import rounds_of
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.tightening import round_target, share_shown
from benchcheck.mechanics.calibration import true_value
from benchcheck.mechanics.units import Quantity, QuantityError, convert, parse
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.model import Fasteners, TargetTorque
from benchcheck.session import events as happened
from benchcheck.session.events import Event, PositionChecked, PositionTightened
from benchcheck.session.fold import RUNNING_TORQUE
from benchcheck.session.trace.past import Past


@dataclass(frozen=True, slots=True)
class Band:
    """What a wrench that is right shows for a tightening, in the unit it was used in."""

    low: float
    target: float
    high: float
    unit: str

    def beyond(self, value: float) -> float:
        """How far a value lies outside: below zero under the lower limit, above zero over the upper one."""
        room = 1e-9 * self.target
        if value < self.low - room:
            return value - self.low
        return value - self.high if value > self.high + room else 0.0


Drawn = PositionTightened | PositionChecked
"""A wrench was drawn: in a round, or in the check pass."""


@dataclass(frozen=True, slots=True)
class Tightening:
    """One position in one round, or in the check pass."""

    event: Drawn
    round: int
    """Of the check pass: the last one."""
    band: Band | None
    """None for a group without a torque, by hand, and where a crow-foot needs a length that is not known."""
    undone: Event | None
    """What took it back: it was loosened, corrected, done again, or its round was begun again."""
    followed: Drawn | None
    """A later tightening of the same position, which counts in its place."""

    @property
    def in_pass(self) -> bool:
        return isinstance(self.event, PositionChecked)

    @property
    def moved_nothing(self) -> bool:
        """Whether it is a check at which the screw stood: the screw is as it was before."""
        return isinstance(self.event, PositionChecked) and not self.event.moved

    @property
    def how(self) -> str:
        """`set`, and it clicked, or `showed`."""
        return self.event.how if isinstance(self.event, PositionTightened) else "showed"

    @property
    def is_last_word(self) -> bool:
        """Whether it is what the position has now, as far as this record tells."""
        return self.undone is None and self.followed is None and not self.moved_nothing


def tightenings(past: Past, wrenches: Sequence[Wrench]) -> tuple[Tightening, ...]:
    """The tightenings of a record in their order. `wrenches`: the register, for the lengths it knows."""
    walk = _Walk(past, {each.id: each for each in wrenches})
    for event in past.events:
        walk.take(event)
    return tuple(walk.found())


@dataclass
class _Run:
    """A group from its running in to its loosening."""

    group: str
    done: list[tuple[Drawn, int, Band | None]] = field(default_factory=list)
    undone: dict[int, Event] = field(default_factory=dict)
    disposed: set[int] = field(default_factory=set)
    over: bool = False

    def standing(self) -> list[Drawn]:
        return [event for event, _, _ in self.done if event.number not in self.undone]

    def undo(self, events: Iterable[Drawn], by: Event) -> None:
        for event in events:
            self.undone.setdefault(event.number, by)

    def under_way(self, count: int) -> list[PositionTightened]:
        """What is done of a round that is not whole."""
        turned = [each for each in self.standing() if isinstance(each, PositionTightened)]
        last = max((each.round for each in turned), default=0)
        in_it = [each for each in turned if each.round == last]
        return in_it if len({each.position for each in in_it} | self.disposed) < count else []

    def followed(self, event: Drawn) -> Drawn | None:
        later = [
            each
            for each in self.standing()
            if each.position == event.position and each.number > event.number and _tightens(each)
        ]
        return later[-1] if later else None


class _Walk:
    """The events, one after the other."""

    def __init__(self, past: Past, wrenches: dict[str, Wrench]) -> None:
        self.past = past
        self.pump: Pump = past.job.pump(past.variant)
        self.wrenches = wrenches
        self.runs: list[_Run] = []
        self.worker = ""
        self.running: dict[str, Quantity] = {}
        self.repaired: dict[tuple[str, int], TargetTorque] = {}
        self.bands: dict[tuple[object, ...], Band | None] = {}

    def take(self, event: Event) -> None:
        match event:
            case happened.GroupStarted(group=group):
                self._end(group, event)
                self.runs.append(_Run(group))
            case happened.GroupLoosened(group=group):
                self._end(group, event)
            case PositionTightened(group=group):
                run = self._open_run(group)
                run.undo([each for each in run.standing() if _same_place(each, event)], event)
                run.done.append((event, event.round, self._band(event, event.round)))
            case PositionChecked(group=group) if event.unit and group in self.pump.groups:
                last = rounds_of(self.pump, group)
                self._open_run(group).done.append((event, last, self._band(event, last)))
            case happened.PositionDisposed(group=group, position=position):
                self._open_run(group).disposed.add(position)
            case happened.Corrected(event=number):
                for run in self.runs:
                    run.undo([each for each, _, _ in run.done if each.number == number], event)
            case happened.PositionRepaired(group=group, position=position):
                self.repaired[group, position] = TargetTorque.model_construct(
                    target=parse(event.target, "torque"), tolerance=parse(event.tolerance)
                )
            case happened.Measured(what=what) if what == RUNNING_TORQUE:
                group = event.act.rpartition(":")[2]
                self.running[group] = Quantity(Decimal(str(event.value)), event.unit)
            case happened.TakenUp():
                self._broken_off(event)
            case happened.InstrumentDoubted(instrument=instrument):
                self._broken_off(event, instrument)
            case happened.SignedOn(name=name):
                if self.worker and name != self.worker:
                    self._broken_off(event)
                self.worker = self.worker or name
            case happened.TakenOver(name=name):
                self.worker = name
            case happened.MovedOn():
                self.pump = self.past.job_at(event).pump(self.past.variant)

    def found(self) -> Iterator[Tightening]:
        everything = [
            Tightening(event, round_, band, run.undone.get(event.number), run.followed(event))
            for run in self.runs
            for event, round_, band in run.done
        ]
        return iter(sorted(everything, key=lambda each: each.event.number))

    def _open_run(self, group: str) -> _Run:
        found = next((run for run in reversed(self.runs) if run.group == group and not run.over), None)
        if found is None:  # a record that does not say that the group was run in
            found = _Run(group)
            self.runs.append(found)
        return found

    def _end(self, group: str, by: Event) -> None:
        for run in self.runs:
            if run.group == group and not run.over:
                run.undo(run.standing(), by)
                run.over = True

    def _broken_off(self, by: Event, wrench: str = "") -> None:
        """A round that is not whole is begun again; of a wrench in doubt, one that it had a part in."""
        for run in self.runs:
            group = self.pump.groups.get(run.group)
            if run.over or group is None:
                continue
            under_way = run.under_way(group.count)
            if not wrench or any(each.wrench == wrench for each in under_way):
                run.undo(under_way, by)

    def _band(self, event: Drawn, round_number: int) -> Band | None:
        group = self.pump.groups.get(event.group)
        if group is None or group.torque is None or not event.unit:
            return None
        if round_number not in group.rounds_with_wrench:
            return None
        if repaired := self.repaired.get((event.group, event.position)):
            group = group.model_copy(update={"torque": repaired})
        try:
            share = share_shown(group, event.position, self.wrenches.get(event.wrench))
        except QuantityError:
            return None
        running = self.running.get(event.group)
        limits = (group.torque.target, group.torque.tolerance) if group.torque is not None else ()
        key = (event.group, round_number, event.unit, share, limits, running)
        if key not in self.bands:
            self.bands[key] = band(group, round_number, event.unit, share, running)
        return self.bands[key]


def band(
    group: Fasteners, round_number: int, unit: str, share: float = 1.0, running: Quantity | None = None
) -> Band:
    """The limits of a round as a wrench shows them. `share`: what it shows of what the screw gets."""
    wanted = round_target(group, round_number, running)
    return Band(
        convert(wanted.low_newton_metre, "N·m", unit) * share,
        wanted.target.to(unit) * share,
        convert(wanted.high_newton_metre, "N·m", unit) * share,
        unit,
    )


def _tightens(event: Drawn) -> bool:
    return isinstance(event, PositionTightened) or event.moved


def _same_place(one: Drawn, other: PositionTightened) -> bool:
    return isinstance(one, PositionTightened) and (one.round, one.position) == (other.round, other.position)


@dataclass(frozen=True, slots=True)
class Recalibrated:
    """A tightening or a reading as it was, now that the error of its instrument is known."""

    true: float
    """What the instrument would have shown had it been right [unit of the reading]."""
    beyond: float
    """How far that is outside the limits; 0 inside."""


def recalibrated(tightening: Tightening, error: Quantity) -> Recalibrated | None:
    """A reading or setting worked out again for a wrench that showed so much more than there was.

    None where it has no limits to be held against, and for an error that is none of a torque.
    """
    if tightening.band is None:
        return None
    try:
        true = true_value(tightening.event.value, tightening.event.unit, error)
    except QuantityError:
        return None
    return Recalibrated(true, tightening.band.beyond(true))
