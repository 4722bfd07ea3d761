"""Control charts drawn as text: individual values above, their moving ranges below, one column a value.

A point never stands on the wrong side of a limit, however coarse the rows are. Where there are more values
than columns, the latest are drawn, and that is said. Which points fire a rule is told in words, not here.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from benchcheck.mechanics.scatter import moving_ranges
from benchcheck.report.document import ControlChart
from benchcheck.report.words import number

POINT, BEYOND = "●", "!"
_MEAN, _LIMIT, _START = "─", "·", "┼"
VALUE_ROWS, RANGE_ROWS = 9, 4
"""Rows between the limits; of the values an odd number, so that the mean has one of its own."""
_BEYOND = 2
"""Rows beyond a limit: the nearer one for up to a third of the way from the mean to the limit."""
_FIGURES = 4


def control_chart(chart: ControlChart, cells: int) -> list[str]:
    """Both charts, so many cells wide."""
    unit = f", in {chart.unit}" if chart.unit else ""
    return [*values_chart(chart, cells), f"moving range{unit}", *ranges_chart(chart, cells)]


def values_chart(chart: ControlChart, cells: int, rows: int = VALUE_ROWS) -> list[str]:
    """The values, with mean and limits at the left; between the limits, an odd number of rows."""
    made = chart.chart
    window = _window(chart, cells)
    first = window.start
    values = chart.values[first:]
    upper, middle, lower = _BEYOND, _BEYOND + 1 + rows // 2, _BEYOND + 1 + rows
    grid = [[" "] * len(values) for _ in range(lower + 1 + _BEYOND)]
    for row, sign in ((upper, _LIMIT), (middle, _MEAN), (lower, _LIMIT)):
        grid[row] = [sign] * len(values)
    for at, value in enumerate(values):
        row = _row(value, made.lower_limit, made.mean, made.upper_limit, rows)
        grid[row][at] = POINT if upper < row < lower else BEYOND
    labels = {upper: made.upper_limit, middle: made.mean, lower: made.lower_limit}
    said = [f"the last {len(values)} of {len(chart.values)}; limits from all"] if first else []
    return [*said, *_labelled(chart, grid, labels, {0, 1, lower + 1, lower + 2}), _axis(chart, window)]


def ranges_chart(chart: ControlChart, cells: int) -> list[str]:
    """The moving ranges below the same columns, each under the later of its two values."""
    made = chart.chart
    window = _window(chart, cells)
    # The first value drawn has a range only if one was left out before it.
    ranges = [None, *moving_ranges(chart.values)][window.start :]
    limit = made.moving_range_upper_limit
    grid = [[" "] * len(ranges) for _ in range(2 + RANGE_ROWS)]
    grid[1] = [_LIMIT] * len(ranges)
    middle = 2 + int((limit - made.mean_moving_range) / limit * RANGE_ROWS)
    grid[middle] = [_MEAN] * len(ranges)
    for at, value in enumerate(ranges):
        if value is None:
            continue
        if value > limit:
            grid[0][at] = BEYOND
        else:
            grid[2 + min(RANGE_ROWS - 1, int((limit - value) / limit * RANGE_ROWS))][at] = POINT
    return [
        *_labelled(chart, grid, {1: limit, middle: made.mean_moving_range}, {0}),
        _axis(chart, window, "0"),
    ]


def _window(chart: ControlChart, cells: int) -> range:
    """The values that have room, the latest."""
    count = len(chart.values)
    return range(max(0, count - (cells - _margin(chart) - 1)), count)


def _margin(chart: ControlChart) -> int:
    made = chart.chart
    figures = (
        made.upper_limit,
        made.mean,
        made.lower_limit,
        made.moving_range_upper_limit,
        made.mean_moving_range,
    )
    return max(len(_figure(each)) for each in figures)


def _axis(chart: ControlChart, window: range, label: str = "") -> str:
    return f"{label:>{_margin(chart)}} {''.join(_START if at in chart.starts else _MEAN for at in window)}"


def _figure(value: float) -> str:
    return number(float(f"{value:.{_FIGURES}g}"))


def _row(value: float, low: float, mean: float, high: float, rows: int) -> int:
    """The row of a value, from the top."""
    near = (high - mean) / 3
    if value > high:
        return 1 if value <= high + near else 0
    if value < low:
        below = _BEYOND + 2 + rows
        return below if value >= low - near else below + 1
    return _BEYOND + 1 + min(rows - 1, int((high - value) / (high - low) * rows))


def _labelled(
    chart: ControlChart, grid: Sequence[Sequence[str]], labels: dict[int, float], beyond: Collection[int]
) -> Iterator[str]:
    """The rows with their figures; those beyond a limit only where something stands in them."""
    margin = _margin(chart)
    for at, row in enumerate(grid):
        text = "".join(row)
        if at not in beyond or text.strip():
            label = _figure(labels[at]) if at in labels else ""
            yield f"{label:>{margin}} {text}".rstrip()
