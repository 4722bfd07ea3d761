"""What many sessions of one procedure show together: readings over time, what is redone, where it departs.

Readings are those of wrenches that indicate, of the last round, that still stand at the end of their session.
A wrench that only clicks gives none. Practice is left out. Charts and words are made of this elsewhere;
statistics are in `mechanics.scatter` and `mechanics.run_rules`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from math import sqrt
from statistics import fmean, variance

from benchcheck.assembly.planned import rounds_of
from benchcheck.mechanics.run_rules import Signal, signals
from benchcheck.mechanics.scatter import (
    D2_OF_TWO,
    Capability,
    IndividualsChart,
    Spread,
    capability,
    individuals_chart,
    spread,
)
from benchcheck.mechanics.units import convert
from benchcheck.mechanics.wrench import Wrench
from benchcheck.session import events as happened
from benchcheck.session.events import ActEvent
from benchcheck.session.leaning import step_of
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Gap
from benchcheck.session.trace.tightenings import Band, Tightening, tightenings

FEWEST_TO_CHART = 8
"""Readings below which limits would say more of chance than of the work. Common practice asks for 20."""
FEWEST_TO_COMPARE = 5
_APART = 3.0
"""Standard errors of a difference that chance alone hardly ever makes."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One position of a group, as its last round left it."""

    file: str
    serial: str
    event: int
    at: datetime
    position: int
    value: float
    """In the unit of its group."""
    wrench: str


@dataclass(frozen=True, slots=True)
class WrenchOnGroup:
    """What one wrench shows on a group, against the others and against itself earlier."""

    wrench: str
    readings: int
    others: int
    mean: float
    against_others: float | None
    """How much more than the others it shows [unit of the group]; None: too few to say."""
    stands_apart: bool
    """Whether that is more than chance makes."""
    moved_by: float | None
    """Mean of the later half of its readings less that of the earlier half; None: too few to say."""
    has_moved: bool


@dataclass(frozen=True)
class GroupTrend:
    """The readings of a fastener group over time."""

    group: str
    called: str
    band: Band
    """The limits of its last round, by the latest revision that has readings."""
    readings: tuple[Reading, ...]
    clicks: int
    """How many tightenings of that round came from wrenches that show nothing."""
    other_limits: int
    """How many readings were held against other limits: an older revision, a crow-foot, a running torque."""
    spread: Spread | None
    chart: IndividualsChart | None
    """None for too few readings, or where all are the same."""
    signals: tuple[Signal, ...]
    range_signals: tuple[int, ...]
    """Index of each moving range beyond its limit."""
    capability: Capability | None
    wrenches: tuple[WrenchOnGroup, ...]


@dataclass(frozen=True, slots=True)
class StepAgain:
    """A step of which something was done more than once."""

    step: str
    sessions: int
    """In how many sessions."""
    of: int
    """Sessions that came to the step."""
    times: int
    """How many acts were completed again, in all."""


@dataclass(frozen=True, slots=True)
class Departures:
    """Deviations of one kind, at one step, of one model."""

    model: str
    step: str
    rules: tuple[str, ...]
    times: int
    sessions: int


@dataclass(frozen=True)
class Trends:
    """What the sessions of a procedure show together."""

    procedure: str
    sessions: int
    practice: int
    """Sessions left out because they were practice."""
    pasts: tuple[Past, ...]
    groups: tuple[GroupTrend, ...]
    steps: tuple[StepAgain, ...]
    departures: tuple[Departures, ...]
    gaps: tuple[Gap, ...]
    """Sessions whose events make no sense of the procedure that they name: left out."""


def trends(
    procedure: str, pasts: Iterable[Past], wrenches: Sequence[Wrench], group: str | None = None
) -> Trends:
    """Gather the sessions of a procedure, the oldest first; of its groups all, or only the one named."""
    every = sorted(pasts, key=lambda past: past.opened)
    done: dict[str, tuple[Tightening, ...]] = {}
    gaps = []
    for past in every:
        try:
            done[past.file] = tightenings(past, wrenches)
        except Exception as fault:  # a record made elsewhere may name what its procedure does not have
            why = f"its events do not fit the procedure it names ({type(fault).__name__}: {fault})"
            gaps.append(Gap(past.file, past.header.serial, 0, why, damaged=False))
    every = [past for past in every if past.file in done]
    real = tuple(past for past in every if not past.header.practice)
    return Trends(
        procedure=procedure,
        sessions=len(real),
        practice=len(every) - len(real),
        pasts=real,
        groups=tuple(_groups([(past, done[past.file]) for past in real], group)),
        steps=tuple(sorted(_steps(real), key=lambda each: (-each.sessions, -each.times, each.step))),
        departures=tuple(_departures(real)),
        gaps=tuple(gaps),
    )


# ---------------------------------------------------------------------- readings


def _groups(pasts: Sequence[tuple[Past, Sequence[Tightening]]], only: str | None) -> Iterator[GroupTrend]:
    found: dict[str, list[tuple[Past, Tightening]]] = {}
    for past, all_done in pasts:
        for each in all_done:
            if only is None or each.event.group == only:
                found.setdefault(each.event.group, []).append((past, each))
    for group, done in found.items():
        last = [(past, each) for past, each in done if _is_final(past, each)]
        if last:
            yield _group(group, last)


def _is_final(past: Past, each: Tightening) -> bool:
    """Whether a tightening is what its position had when the session ended, at the full target.

    What the check pass showed is left out: there nothing should move.
    """
    if each.in_pass or each.undone is not None or each.band is None:
        return False
    group = each.event.group
    return group in past.pump.groups and each.round == rounds_of(past.pump, group)


def _group(group: str, done: Sequence[tuple[Past, Tightening]]) -> GroupTrend:
    shown = [(past, each) for past, each in done if each.how == "showed"]
    band = _latest_band(shown or list(done))
    like = [(past, each) for past, each in shown if _same_limits(each.band, band)]
    readings = tuple(_reading(past, each, band.unit) for past, each in like)
    values = [each.value for each in readings]
    chart = _chart(values)
    deviation = chart.mean_moving_range / D2_OF_TWO if chart is not None else 0.0
    scatter = spread(values) if len(values) > 1 else None
    return GroupTrend(
        group=group,
        called=done[-1][0].pump.called(group),
        band=band,
        readings=readings,
        clicks=len(done) - len(shown),
        other_limits=len(shown) - len(like),
        spread=scatter,
        chart=chart,
        signals=signals(values, chart.mean, deviation) if chart is not None else (),
        range_signals=chart.ranges_outside if chart is not None else (),
        capability=capability(scatter.mean, scatter.standard_deviation, band.low, band.high)
        if chart is not None and scatter is not None
        else None,
        wrenches=tuple(_wrenches(readings)),
    )


def _latest_band(done: Sequence[tuple[Past, Tightening]]) -> Band:
    """The limits that most of the latest session's positions have: one with a crow-foot is the exception."""
    last = done[-1][0]
    bands = [each.band for past, each in done if past is last and each.band is not None]
    return Counter(bands).most_common(1)[0][0]


def _same_limits(one: Band | None, other: Band) -> bool:
    if one is None:
        return False
    for mine, its in ((one.low, other.low), (one.target, other.target), (one.high, other.high)):
        if abs(convert(mine, one.unit, other.unit) - its) > 1e-6 * other.target:
            return False
    return True


def _reading(past: Past, each: Tightening, unit: str) -> Reading:
    event = each.event
    value = event.value if event.unit == unit else convert(event.value, event.unit, unit)
    return Reading(
        past.file,
        past.header.serial,
        event.number,
        past.local(event.at),
        event.position,
        value,
        event.wrench,
    )


def _chart(values: Sequence[float]) -> IndividualsChart | None:
    if len(values) < FEWEST_TO_CHART:
        return None
    chart = individuals_chart(values)
    return chart if chart.mean_moving_range > 0 else None


# ---------------------------------------------------------------------- wrenches


def _wrenches(readings: Sequence[Reading]) -> Iterator[WrenchOnGroup]:
    for wrench in dict.fromkeys(each.wrench for each in readings):
        mine = [each.value for each in readings if each.wrench == wrench]
        others = [each.value for each in readings if each.wrench != wrench]
        half = len(mine) // 2
        apart, moved = _difference(mine, others), _difference(mine[half:], mine[:half])
        yield WrenchOnGroup(
            wrench=wrench,
            readings=len(mine),
            others=len(others),
            mean=fmean(mine),
            against_others=apart[0] if apart is not None else None,
            stands_apart=apart is not None and apart[1],
            moved_by=moved[0] if moved is not None else None,
            has_moved=moved is not None and moved[1],
        )


def _difference(one: Sequence[float], other: Sequence[float]) -> tuple[float, bool] | None:
    """How much higher the mean of one set is, and whether that is over three standard errors of it.

    The standard error is that of two means with spreads of their own: √(s₁²/n₁ + s₂²/n₂).
    """
    if len(one) < FEWEST_TO_COMPARE or len(other) < FEWEST_TO_COMPARE:
        return None
    apart = fmean(one) - fmean(other)
    error = sqrt(variance(one) / len(one) + variance(other) / len(other))
    return apart, abs(apart) > _APART * error


# ---------------------------------------------------------------------- steps and departures


def _steps(pasts: Sequence[Past]) -> Iterator[StepAgain]:
    came: Counter[str] = Counter()
    again: Counter[str] = Counter()
    times: Counter[str] = Counter()
    for past in pasts:
        known = {step.id for step in past.pump.steps}
        done = Counter(each.act for each in past.of(ActEvent) if each.done and step_of(each.act) in known)
        redone = {act: number - 1 for act, number in done.items() if number > 1}
        came.update({step_of(act) for act in done})
        again.update({step_of(act) for act in redone})
        for act, number in redone.items():
            times[step_of(act)] += number
    for step, sessions in again.items():
        yield StepAgain(step, sessions, came[step], times[step])


def _departures(pasts: Sequence[Past]) -> Iterator[Departures]:
    found = [
        (past.model, step_of(each.act) if each.act else "", each.rules, past.file)
        for past in pasts
        for each in past.of(happened.Deviation)
    ]
    kinds = [(kind, list(members)) for kind, members in groupby(sorted(found), key=lambda each: each[:3])]
    for (model, step, rules), members in sorted(kinds, key=lambda kind: (-len(kind[1]), kind[0])):
        files = {file for _, _, _, file in members}
        yield Departures(model, step, rules, len(members), len(files))
