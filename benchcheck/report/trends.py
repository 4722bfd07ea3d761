"""Trends of a procedure as a document, and the same for other programs.

Words, charts and tables; what they say is worked out in `session.trends`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from benchcheck.report import words
from benchcheck.report.columns import kept
from benchcheck.report.document import (
    Block,
    Column,
    ControlChart,
    Document,
    Fields,
    Paragraph,
    Points,
    Section,
    Table,
)
from benchcheck.session.trace.search import Gap
from benchcheck.session.trends import FEWEST_TO_CHART, GroupTrend, Trends, WrenchOnGroup

READINGS = "Readings of the last round"
"""Title of the section with the charts."""
MOST_SIGNALS = 12
"""Sentences on rules that fired, the latest; more are not read. The JSON has all."""
_RULES = (
    "Control limits are three standard deviations either side of the mean, worked out from the mean moving "
    "range (NIST/SEMATECH e-Handbook, 6.3.2.2). The run rules are the four of the Western Electric handbook "
    "(1956) and two on trends (the same e-Handbook, 6.3.2). Chance alone fires one of the four about every "
    "ninety readings: a rule that fired is a reason to look, never a proof."
)


def document_of(trends: Trends, on: datetime, gaps: tuple[Gap, ...] = ()) -> Document:
    """What the sessions of a procedure show together, to be read and kept."""
    sections = [section for section in (_charts(trends), _again(trends), _departures(trends)) if section]
    if gaps := (*gaps, *trends.gaps):
        sections.append(_not_searched(gaps))
    fired = sum(bool(each.signals or each.range_signals) for each in trends.groups)
    practice = f"; {words.count(trends.practice, 'more')} of practice left out" if trends.practice else ""
    return Document(
        title=f"Trends of {trends.procedure}",
        verdict=_verdict(trends, fired),
        sentence=(
            f"{words.capital(words.count(trends.sessions, 'session'))}{practice}, read on "
            f"{on:%A %-d %B %Y, %H:%M}."
        ),
        sections=tuple(sections),
        pump=f"Trends of {trends.procedure}",
        issue=words.count(trends.sessions, "session"),
        check=f"{on:%-d %B %Y, %H:%M}",
    )


def _verdict(trends: Trends, fired: int) -> str:
    if not trends.sessions:
        return "NO SESSION"
    charted = sum(each.chart is not None for each in trends.groups)
    if not charted:
        return "TOO FEW READINGS TO CHART"
    return f"A RULE FIRED ON {fired} OF {words.count(charted, 'chart').upper()}" if fired else "NO RULE FIRED"


# ---------------------------------------------------------------------- readings


def _charts(trends: Trends) -> Section | None:
    if not trends.groups:
        return None
    blocks: list[Block] = [Paragraph(_RULES)]
    for each in trends.groups:
        if each.readings:
            blocks += _group(each)
    if silent := [each.called for each in trends.groups if not each.readings]:
        blocks.append(Paragraph(f"Only clicks, no readings: {words.listed(silent)}."))
    return Section(READINGS, tuple(blocks))


def _group(group: GroupTrend) -> Iterator[Block]:
    name = words.capital(group.called if group.called == group.group else f"{group.called} ({group.group})")
    yield Fields(tuple(_fields(group)), name)
    if group.chart is not None:
        values = tuple(each.value for each in group.readings)
        yield ControlChart(name, group.band.unit, values, group.chart, _starts(group))
    yield Points(tuple(_said(group)))
    if group.chart is not None:
        yield _wrenches(group)


def _fields(group: GroupTrend) -> Iterator[tuple[str, str]]:
    band = group.band
    yield "limits", f"{words.limits(band.low, band.high)} {band.unit}, target {_four(band.target)}"
    pumps = len({each.file for each in group.readings})
    yield "readings", f"{len(group.readings)} on {words.count(pumps, 'pump')}{_left_out(group)}"
    if group.spread is not None:
        spread = group.spread
        yield (
            "spread",
            f"mean {_four(spread.mean)}, standard deviation {_three(spread.standard_deviation)}, from "
            f"{_four(spread.lowest)} to {_four(spread.highest)}",
        )
    if group.chart is not None:
        chart = group.chart
        yield "control", f"{_four(chart.lower_limit)} to {_four(chart.upper_limit)}, mean {_four(chart.mean)}"
    if group.capability is not None:
        able = group.capability
        yield (
            "capability",
            f"Cp {able.potential:.2f}, Cpk {able.actual:.2f}; were they normal, "
            f"{_per_million(able.expected_outside)} would lie outside",
        )


def _left_out(group: GroupTrend) -> str:
    found = []
    if group.clicks:
        found.append(f"{group.clicks} more by wrenches that only click")
    if group.other_limits:
        found.append(f"{group.other_limits} more held against other limits")
    return f"; {' and '.join(found)}, not charted" if found else ""


def _per_million(share: float) -> str:
    millionth = share * 1e6
    return "fewer than 1 in a million" if millionth < 1 else f"{millionth:.0f} in a million"


def _starts(group: GroupTrend) -> tuple[int, ...]:
    files = [each.file for each in group.readings]
    return tuple(at for at, file in enumerate(files) if at == 0 or file != files[at - 1])


def _said(group: GroupTrend) -> Iterator[str]:
    """The rules that fired last, with the pumps they fired on; and what can be said of the wrenches."""
    if group.chart is None:
        if len(group.readings) < FEWEST_TO_CHART:
            yield f"Fewer than {FEWEST_TO_CHART} readings: nothing is charted."
        else:
            yield "All readings are the same, which is a reason to ask: nothing is charted."
        return
    fired = [*_fired(group)]
    if len(fired) > MOST_SIGNALS:
        yield f"A rule fired {len(fired)} times; the latest {MOST_SIGNALS}:"
    yield from fired[-MOST_SIGNALS:]
    if not fired:
        yield "No rule fired."
    for wrench in group.wrenches:
        yield from _of_wrench(wrench, group)


def _fired(group: GroupTrend) -> Iterator[str]:
    """What each rule that fired says, in the order of the points."""
    said = [(each.last, f"{each.sentence} {_where(group, each.first, each.last)}") for each in group.signals]
    said += [
        (
            at + 1,
            f"Moving range {at + 2}, from point {at + 1} to {at + 2}: beyond its control limit. "
            f"{_where(group, at, at + 1)}",
        )
        for at in group.range_signals
    ]
    yield from (sentence for _, sentence in sorted(said, key=lambda each: each[0]))


def _where(group: GroupTrend, first: int, last: int) -> str:
    one, other = group.readings[first], group.readings[last]
    if one == other:
        return f"{one.serial}, position {one.position}, {_four(one.value)}, event {one.event}."
    serials = list(dict.fromkeys(each.serial for each in group.readings[first : last + 1]))
    if len(serials) == 1:
        return f"{one.serial}, events {one.event} to {other.event}."
    return f"{one.serial}, event {one.event}, to {other.serial}, event {other.event}."


def _of_wrench(wrench: WrenchOnGroup, group: GroupTrend) -> Iterator[str]:
    unit, target = group.band.unit, group.band.target

    def much(value: float) -> str:
        way = "more" if value > 0 else "less"
        return f"{_three(abs(value))} {unit} ({_three(abs(value) / target * 100)} % of the target) {way}"

    if wrench.stands_apart and wrench.against_others is not None:
        yield (
            f"{wrench.wrench} shows {much(wrench.against_others)} than the other wrenches on the same "
            "screws: over three standard errors, which chance hardly makes."
        )
    if wrench.has_moved and wrench.moved_by is not None:
        yield (
            f"{wrench.wrench} shows {much(wrench.moved_by)} in the later half of its readings than in the "
            "earlier: over three standard errors."
        )


def _wrenches(group: GroupTrend) -> Table:
    rows = tuple(
        (
            each.wrench,
            str(each.readings),
            _four(each.mean),
            _signed(each.against_others),
            _signed(each.moved_by),
        )
        for each in group.wrenches
    )
    heads = ("wrench", "readings", "mean", "against the others", "later half less earlier")
    columns = tuple(Column(head, right=head != "wrench") for head in heads)
    return Table(f"Wrench by wrench, in {group.band.unit}", columns, rows)


def _signed(value: float | None) -> str:
    return "too few" if value is None else f"{float(f'{value:.3g}'):+g}"


# ---------------------------------------------------------------------- steps and departures


def _again(trends: Trends) -> Section | None:
    if not trends.sessions:
        return None
    if not trends.steps:
        return Section("Steps done again", (Paragraph("No step was done again."),))
    columns = Column("step"), Column("sessions", right=True), Column("acts again", right=True)
    rows = tuple(
        (step_called(trends, each.step), kept(f"{each.sessions} of {each.of}"), str(each.times))
        for each in trends.steps
    )
    return Section("Steps done again", (Table("The most often first", columns, rows),))


def _departures(trends: Trends) -> Section | None:
    if not trends.sessions:
        return None
    if not trends.departures:
        return Section("Deviations", (Paragraph("There is no deviation."),))
    columns = (
        Column("model"),
        Column("step"),
        Column("kind"),
        Column("times", right=True),
        Column("sessions", right=True),
    )
    rows = tuple(
        (
            each.model,
            step_called(trends, each.step) if each.step else "the whole pump",
            ", ".join(each.rules),
            str(each.times),
            str(each.sessions),
        )
        for each in trends.departures
    )
    return Section("Deviations", (Table("By model and step, the most often first", columns, rows),))


def step_called(trends: Trends, step: str) -> str:
    """What a person calls a step, as the latest session that has it names it."""
    for past in reversed(trends.pasts):
        for each in past.pump.steps:
            if each.id == step:
                name = words.step_words(past.pump, each)
                return f"{name} ({step})" if name != step else step
    return step


def _not_searched(gaps: tuple[Gap, ...]) -> Section:
    rows = tuple(
        (gap.file, f"to event {gap.beyond}" if gap.beyond else "not at all", gap.why) for gap in gaps
    )
    columns = Column("record"), Column("read"), Column("why no further")
    return Section("Not read", (Table("What may be in these is not in the figures above", columns, rows),))


def _four(value: float) -> str:
    return words.number(float(f"{value:.4g}"))


def _three(value: float) -> str:
    return words.number(float(f"{value:.3g}"))


# ---------------------------------------------------------------------- for other programs


def as_json(trends: Trends, on: datetime, gaps: tuple[Gap, ...] = ()) -> dict[str, object]:
    """Readings with the limits they make, the rules that fired, capability, wrenches, steps, deviations."""
    return {
        "procedure": trends.procedure,
        "on": on.isoformat(timespec="seconds"),
        "sessions": trends.sessions,
        "practice": trends.practice,
        "groups": [_group_as_json(each) for each in trends.groups],
        "steps_done_again": [
            {"step": each.step, "sessions": each.sessions, "of": each.of, "acts": each.times}
            for each in trends.steps
        ],
        "deviations": [
            {
                "model": each.model,
                "step": each.step or None,
                "rules": list(each.rules),
                "times": each.times,
                "sessions": each.sessions,
            }
            for each in trends.departures
        ],
        "not_read": [
            {"file": gap.file, "serial": gap.serial or None, "beyond_event": gap.beyond, "why": gap.why}
            for gap in (*gaps, *trends.gaps)
        ],
    }


def _group_as_json(group: GroupTrend) -> dict[str, object]:
    band, chart, able = group.band, group.chart, group.capability

    def torque(value: float | None) -> dict[str, object] | None:
        return None if value is None else {"value": float(f"{value:.6g}"), "unit": band.unit}

    return {
        "group": group.group,
        "name": group.called,
        "low": torque(band.low),
        "target": torque(band.target),
        "high": torque(band.high),
        "readings": [
            {
                "file": each.file,
                "serial": each.serial,
                "event": each.event,
                "at": each.at.isoformat(timespec="seconds"),
                "position": each.position,
                "shown": torque(each.value),
                "wrench": each.wrench,
            }
            for each in group.readings
        ],
        "not_charted": {"clicks": group.clicks, "other_limits": group.other_limits},
        "mean": torque(group.spread.mean if group.spread is not None else None),
        "standard_deviation": torque(group.spread.standard_deviation if group.spread is not None else None),
        "lower_control_limit": torque(chart.lower_limit if chart is not None else None),
        "upper_control_limit": torque(chart.upper_limit if chart is not None else None),
        "mean_moving_range": torque(chart.mean_moving_range if chart is not None else None),
        "moving_range_limit": torque(chart.moving_range_upper_limit if chart is not None else None),
        "signals": [
            {"rule": each.rule, "first": each.first + 1, "last": each.last + 1, "sentence": each.sentence}
            for each in group.signals
        ],
        "moving_ranges_beyond": [at + 2 for at in group.range_signals],
        "cp": able.potential if able is not None else None,
        "cpk": able.actual if able is not None else None,
        "wrenches": [
            {
                "wrench": each.wrench,
                "readings": each.readings,
                "mean": torque(each.mean),
                "against_others": torque(each.against_others),
                "stands_apart": each.stands_apart,
                "moved_by": torque(each.moved_by),
                "has_moved": each.has_moved,
            }
            for each in group.wrenches
        ],
    }
