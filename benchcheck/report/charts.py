"""Control charts drawn as text: individual values above, their moving ranges below, one column a value.

A point never stands on the wrong side of a limit, however coarse the rows are. Where there are more values
than columns, the latest are drawn, and that is said. Which points fire a rule is told in words, not here.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from benchcheck.report.document import ControlChart
from benchcheck.report.words import number

POINT, BEYOND = "●", "!"
_MEAN, _LIMIT, _START = "─", "·", "┼"
_INSIDE, _INSIDE_RANGES = 9, 4
"""Rows between the limits; of the values an odd number, so that the mean has one of its own."""
_BEYOND = 2
"""Rows beyond a limit: the nearer one for up to a third of the way from the mean to the limit."""
_FIGURES = 4


def control_chart(chart: ControlChart, cells: int) -> list[str]:
    """Both charts, so many cells wide, with the figures of their lines at the left."""
    made = chart.chart
    figures = [_figure(each) for each in (made.upper_limit, made.mean, made.lower_limit)]
    range_figures = [_figure(each) for each in (made.moving_range_upper_limit, made.mean_moving_range)]
    margin = max(map(len, (*figures, *range_figures)))
    first = max(0, len(chart.values) - (cells - margin - 1))
    values = chart.values[first:]
    lines = []
    if first:
        lines.append(f"the last {len(values)} of {len(chart.values)}; limits from all")
    axis = "".join(_START if first + at in chart.starts else _MEAN for at in range(len(values)))
    lines += [f"{label:>{margin}} {row}" for label, row in _values(values, chart, figures)]
    lines.append(f"{'':{margin}} {axis}")
    lines.append(f"{'':{margin}} moving range, {chart.unit}" if chart.unit else f"{'':{margin}} moving range")
    ranges = [abs(after - before) for before, after in zip(chart.values, chart.values[1:], strict=False)]
    # The first value drawn has a range only if one was left out before it.
    shown = ranges[first - 1 :] if first else [None, *ranges]
    lines += [f"{label:>{margin}} {row}" for label, row in _ranges(shown, chart, range_figures)]
    lines.append(f"{0:>{margin}} {axis}")
    return [line.rstrip() for line in lines]


def _figure(value: float) -> str:
    return number(float(f"{value:.{_FIGURES}g}"))


def _values(
    values: Sequence[float], chart: ControlChart, figures: Sequence[str]
) -> Iterator[tuple[str, str]]:
    made = chart.chart
    upper, middle = _BEYOND, _BEYOND + 1 + _INSIDE // 2
    lower = _BEYOND + 1 + _INSIDE
    rows = [[" "] * len(values) for _ in range(lower + 1 + _BEYOND)]
    for row, sign in ((upper, _LIMIT), (middle, _MEAN), (lower, _LIMIT)):
        rows[row] = [sign] * len(values)
    for at, value in enumerate(values):
        row = _row(value, made.lower_limit, made.mean, made.upper_limit)
        rows[row][at] = POINT if upper < row < lower else BEYOND
    labels = {upper: figures[0], middle: figures[1], lower: figures[2]}
    yield from _labelled(rows, labels, {0, 1, lower + 1, lower + 2})


def _row(value: float, low: float, mean: float, high: float) -> int:
    """The row of a value, from the top."""
    near = (high - mean) / 3
    if value > high:
        return 1 if value <= high + near else 0
    if value < low:
        below = _BEYOND + 2 + _INSIDE
        return below if value >= low - near else below + 1
    return _BEYOND + 1 + min(_INSIDE - 1, int((high - value) / (high - low) * _INSIDE))


def _ranges(
    ranges: Sequence[float | None], chart: ControlChart, figures: Sequence[str]
) -> Iterator[tuple[str, str]]:
    made = chart.chart
    limit = made.moving_range_upper_limit
    rows = [[" "] * len(ranges) for _ in range(2 + _INSIDE_RANGES)]
    rows[1] = [_LIMIT] * len(ranges)
    middle = 2 + int((limit - made.mean_moving_range) / limit * _INSIDE_RANGES)
    rows[middle] = [_MEAN] * len(ranges)
    for at, value in enumerate(ranges):
        if value is None:
            continue
        if value > limit:
            rows[0][at] = BEYOND
        else:
            rows[2 + min(_INSIDE_RANGES - 1, int((limit - value) / limit * _INSIDE_RANGES))][at] = POINT
    yield from _labelled(rows, {1: figures[0], middle: figures[1]}, {0})


def _labelled(
    rows: Sequence[Sequence[str]], labels: dict[int, str], beyond: Collection[int]
) -> Iterator[tuple[str, str]]:
    """The rows with their figures; those beyond a limit only where something stands in them."""
    for at, row in enumerate(rows):
        text = "".join(row)
        if at not in beyond or text.strip():
            yield labels.get(at, ""), text
