"""The state of one pump's work: what the events so far add up to. Only the fold makes a new one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from functools import cache, cached_property
from typing import Any, TypeVar, cast
from zoneinfo import ZoneInfo

from benchcheck.assembly.acts import Act, all_acts
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.mechanics.gauge import Gauge
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.registers import LineEntry, PeopleRegister, Shop, StopNotice
from benchcheck.session.events import (
    ActEvent,
    CardLeft,
    Closed,
    Deviation,
    Disposed,
    Judged,
    PositionDisposed,
    ProcedureDiffers,
)
from benchcheck.session.record import Header

T = TypeVar("T")


def _is(name: str, typed: str) -> bool:
    return name.casefold() == typed.strip().casefold()


@dataclass(frozen=True)
class Registers:
    """What the shop has: handed in, never read here."""

    shop: Shop
    wrenches: tuple[Wrench, ...]
    gauges: tuple[Gauge, ...]
    people: PeopleRegister
    stops: tuple[StopNotice, ...] = ()
    lines: Mapping[str, LineEntry] = field(default_factory=dict)
    """The serial lines of those wrenches that have one."""

    def stop(self, procedure: str, revision: str, on: date) -> StopNotice | None:
        """The stop notice that holds for a revision on a day; None where none does."""
        return next((each for each in self.stops if each.holds(procedure, revision, on)), None)

    def wrench(self, name: str) -> Wrench | None:
        return next((each for each in self.wrenches if _is(each.id, name)), None)

    def gauge(self, name: str) -> Gauge | None:
        return next((each for each in self.gauges if _is(each.id, name)), None)

    @property
    def instruments(self) -> tuple[Wrench | Gauge, ...]:
        return (*self.wrenches, *self.gauges)

    @property
    def due(self) -> dict[str, date]:
        """The last day of each calibration; an instrument that is not calibrated has none."""
        return {
            each.id: each.calibration_due for each in self.instruments if each.calibration_due is not None
        }

    def instrument(self, name: str) -> Wrench | Gauge | None:
        """A wrench or a gauge, by what is engraved on it."""
        return self.wrench(name) or self.gauge(name)


@dataclass(frozen=True)
class Job:
    """What a session works by: the procedure as pinned, and the registers of today."""

    procedure: Procedure
    registers: Registers
    later: Mapping[str, Procedure] = field(default_factory=dict, repr=False)
    """Other texts of the procedure that were met since, by their SHA-256."""
    begun_by: Procedure | None = field(default=None, repr=False)
    """The text that the work began by, where it has moved on since."""
    _pumps: dict[str | None, tuple[Pump, dict[str, Act]]] = field(
        default_factory=dict, compare=False, repr=False
    )

    def by(self, sha256: str) -> Job:
        """The same job by another text. Raises KeyError for one that was not handed in."""
        begun_by = self.begun_by or self.procedure
        return Job(self.later[sha256], self.registers, self.later, begun_by)

    def as_begun(self) -> Job:
        """The job by the text that it began with."""
        return self if self.begun_by is None else Job(self.begun_by, self.registers, self.later)

    def pump(self, variant: str | None) -> Pump:
        return self._made(variant)[0]

    def acts(self, variant: str | None) -> dict[str, Act]:
        """Every act by its name, in file order."""
        return self._made(variant)[1]

    def _made(self, variant: str | None) -> tuple[Pump, dict[str, Act]]:
        if variant not in self._pumps:
            pump = Pump(self.procedure, variant)
            self._pumps[variant] = (pump, {act.id: act for act in all_acts(pump)})
        return self._pumps[variant]


@dataclass(frozen=True, slots=True)
class Fact:
    """What is known about an act: since which event, and what it leans on."""

    event: int
    value: str = ""
    verdict: str = ""
    leans: frozenset[str] = frozenset()
    void: bool = False
    left_out: bool = False
    by: str = ""
    """Who did it, or answered."""


@dataclass(frozen=True, slots=True)
class Running:
    """A clock that was started."""

    at: datetime
    event: int
    set_back: timedelta = timedelta()
    """By how much the clock of the machine was set back since: by so much longer it has run."""


@dataclass(frozen=True)
class State:
    """Everything the events add up to."""

    job: Job
    header: Header
    assembly: Assembly
    variant: str | None
    number: int = 0
    at: datetime | None = None
    technician: str = ""
    worker: str = ""
    """Whose work the pump is: who signed on last, or took it over."""
    taking_over: str = ""
    """Whose work is being taken over by who is signed on; empty if nobody's."""
    card: CardLeft | None = None
    """The handover card as it was left, while nothing was done since."""
    people: tuple[str, ...] = ()
    facts: Mapping[str, Fact] = field(default_factory=dict)
    hand: Mapping[str, str] = field(default_factory=dict)
    """Answers to questions of the act in hand, by question."""
    outside: str = ""
    """The reading that stands outside its limits, in words, while the act in hand is open for it."""
    read_again: tuple[str, ...] = ()
    """After a pause: what has to be read anew before the work goes on."""
    filled_since_pause: frozenset[str] = frozenset()
    """Grooves filled in the step under way, without a turn or a pause since."""
    reaching: tuple[str, ...] = ()
    """Going back: what is still to be reached."""
    suspects: tuple[str, ...] = ()
    """What was doubted, until it is fitted anew or looked at again."""
    verdicts: Mapping[str, str] = field(default_factory=dict)
    variant_proved: bool = False
    kept: Mapping[str, str] = field(default_factory=dict)
    """As-found values, by the name they are kept under."""
    wrenches: Mapping[tuple[str, int], tuple[str, str]] = field(default_factory=dict)
    """Wrench and unit for each group and round (0: all)."""
    wrenches_used: tuple[str, ...] = ()
    gauges: Mapping[str, str] = field(default_factory=dict)
    """The gauge in hand of each kind that was asked for."""
    gauges_used: tuple[str, ...] = ()
    done_with: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """For each instrument, what it did: "group round/position" or "step/act place", the oldest first."""
    doubted: Mapping[str, str] = field(default_factory=dict)
    """Instruments that may not be used any more on this pump, with the reason."""
    repaired: Mapping[tuple[str, int], tuple[str, str]] = field(default_factory=dict)
    """Target and tolerance of positions whose thread was repaired, by group and position."""
    run_in: Mapping[str, datetime] = field(default_factory=dict)
    """When each group was run in: its thread-locker sets from then on."""
    lots: tuple[str, ...] = ()
    kit: Mapping[str, int] = field(default_factory=dict)
    """What was counted of the kit, scrap, mat and tools, by piece or by name."""
    mat_counted: int = 0
    """The event by which the parts on the mat were counted last."""
    used: Mapping[str, int] = field(default_factory=dict)
    """New pieces taken so far: rings as "size rubber", parts by id."""
    clocks: Mapping[str, Running] = field(default_factory=dict)
    deviations: tuple[Deviation, ...] = ()
    dispositions: Mapping[int, Disposed] = field(default_factory=dict)
    positions_disposed: Mapping[tuple[str, int], PositionDisposed] = field(default_factory=dict)
    """What was decided on positions, by group and position."""
    spelt: str = ""
    """How the one who has just signed on typed a name that the register spells otherwise."""
    recent: tuple[ActEvent, ...] = ()
    """The last few answers, latest last: those that can be corrected."""
    readings: int = 0
    voided: int = 0
    text: str = ""
    """SHA-256 of the text the work has moved on to; empty while it follows the one it began by."""
    offer: ProcedureDiffers | None = None
    """Another text of the procedure that was found."""
    offer_answered: bool = False
    halted: str = ""
    """Why no work may go on; empty if it may."""
    stopped: bool = False
    closed: Closed | None = None
    judged: Judged | None = None

    @property
    def pump(self) -> Pump:
        return self.assembly.pump

    @cached_property
    def _worked_out(self) -> dict[str, Any]:
        return {}

    def once(self, name: str, work: Callable[[], T]) -> T:
        """What `work` finds from this state alone, worked out the first time it is wanted."""
        if name not in self._worked_out:
            self._worked_out[name] = work()
        return cast(T, self._worked_out[name])

    @property
    def acts(self) -> tuple[Act, ...]:
        """The acts of this variant, in file order."""
        return tuple(self.job.acts(self.variant).values())

    def act(self, name: str) -> Act | None:
        """An act by its name; None for one that has no place in the file."""
        return self.job.acts(self.variant).get(name)

    @property
    def procedure_sha256(self) -> str:
        """Of the text that the work follows now."""
        return self.text or self.header.procedure_sha256

    @property
    def open_deviations(self) -> tuple[Deviation, ...]:
        return tuple(each for each in self.deviations if each.deviation not in self.dispositions)

    def fact(self, act: str) -> Fact | None:
        """The fact of an act, if it stands."""
        fact = self.facts.get(act)
        return None if fact is None or fact.void else fact

    @property
    def outcome(self) -> str:
        """open, released, ..., accepted ...: where the session stands."""
        if self.judged is not None:
            return self.judged.outcome
        return self.closed.outcome if self.closed is not None else "open"


@cache
def moment(text: str) -> datetime:
    """An RFC 3339 time with offset."""
    return datetime.fromisoformat(text)


def local(state: State, time: datetime) -> str:
    """A time as the shop's clock shows it."""
    return time.astimezone(ZoneInfo(state.job.registers.shop.time_zone)).strftime("%A %-d %B %Y, %H:%M")


def local_end(state: State, time: datetime) -> str:
    """When a time is over, as the shop's clock shows it: whoever comes back at that minute need not wait."""
    whole = not time.second and not time.microsecond
    return local(state, time if whole else time + timedelta(minutes=1))
