"""Control charts as drawings inside a page, with their words for those who do not see them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.mechanics.scatter import moving_ranges
from benchcheck.report.document import ControlChart
from benchcheck.report.html_drawings import begun, label, px
from benchcheck.report.html_text import escaped
from benchcheck.report.words import count, number

_LEFT, _WIDE, _RIGHT = 70, 600, 20
_VALUES, _RANGES, _GAP = 236, 110, 34
"""Heights of both charts and the room between them [px]."""
_LABEL_ROOM = 34
"""Between two figures written over points beyond the limit [px]; what is nearer stands in the sentences."""
_TOP = 26
"""Room above the highest value, for what is written over a point beyond the limit [px]."""


def chart_drawing(chart: ControlChart, name: str) -> Iterator[str]:
    """Individual values above, moving ranges below, each with its lines; a tick where a pump begins."""
    made = chart.chart
    height = _VALUES + _GAP + _RANGES + 20
    yield "<figure>"
    yield from begun(name, _LEFT + _WIDE + _RIGHT, height, chart.called, _in_words(chart))
    outside, beyond = set(made.outside), {at + 1 for at in made.ranges_outside}
    lines = ((made.upper_limit, "target"), (made.mean, "metal"), (made.lower_limit, "target"))
    yield from _panel(chart, list(enumerate(chart.values)), lines, _TOP, _VALUES - _TOP - 10, outside)
    ranges = list(enumerate(moving_ranges(chart.values), 1))
    range_lines = (
        (made.moving_range_upper_limit, "target"),
        (made.mean_moving_range, "metal"),
        (0.0, "target"),
    )
    yield from _panel(chart, ranges, range_lines, _VALUES + _GAP, _RANGES, beyond)
    yield "</svg>"
    said = f"{chart.called}, in {chart.unit}" if chart.unit else chart.called
    said += ": each value in its order, with the mean and the control limits; below, the moving range."
    if chart.starts:
        said += " A tick marks where the next pump begins."
    yield f"<figcaption>{escaped(said)}</figcaption>"
    yield "</figure>"


def _panel(
    chart: ControlChart,
    points: Sequence[tuple[int, float]],
    lines: Sequence[tuple[float, str]],
    top: float,
    height: float,
    outside: set[int],
) -> Iterator[str]:
    everything = [value for _, value in (*points, *((0, line) for line, _ in lines))]
    lowest, highest = min(everything), max(everything)

    def down(value: float) -> float:
        return top + (highest - value) / ((highest - lowest) or 1.0) * height

    def across(at: int) -> float:
        return _LEFT + (at + 0.5) / len(chart.values) * _WIDE

    for value, kind in lines:
        y = px(down(value))
        yield f'<line class="{kind}" x1="{_LEFT}" y1="{y}" x2="{_LEFT + _WIDE}" y2="{y}"/>'
        yield f'<text class="small quiet" x="0" y="{px(down(value) + 4)}">{_short(value)}</text>'
    for at in chart.starts:
        yield f'<path class="target" d="M{px(across(at))} {px(top + height + 6)}v6"/>'
    path = " ".join(f"{px(across(at))},{px(down(value))}" for at, value in points)
    yield f'<polyline class="metal" points="{path}"/>'
    radius = max(1.5, min(4.0, _WIDE / len(chart.values) / 2))
    written_to = 0.0
    for at, value in points:
        bad = at in outside
        yield f'<g class="{"bad" if bad else "good"}">'
        size = px(1.5 * radius if bad else radius)
        yield f'<circle class="dot" cx="{px(across(at))}" cy="{px(down(value))}" r="{size}"/>'
        if bad and across(at) >= written_to:
            written_to = across(at) + _LABEL_ROOM
            yield label("small bad", across(at), down(value) - 10, f"! {_short(value)}")
        yield "</g>"


def _in_words(chart: ControlChart) -> str:
    made = chart.chart
    beyond = [f"value {at + 1}, {number(chart.values[at])}" for at in made.outside]
    said = f"{count(len(chart.values), 'value')}, mean {_short(made.mean)} {chart.unit}, control limits "
    said += f"{_short(made.lower_limit)} to {_short(made.upper_limit)}. "
    said += f"Beyond them: {'; '.join(beyond)}." if beyond else "None is beyond them."
    return said


def _short(value: float) -> str:
    return number(float(f"{value:.4g}"))
