"""Limits on a line with the reading where it lies: a tolerance band in one row, or named zones in four.

A reading is never drawn on the wrong side of a limit, however coarse the line is; one beyond the line's end
stands on its last cell.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Canvas, Drawing, Line, width_of


@dataclass(frozen=True)
class Limit:
    """A limit and how it is written, in one unit throughout."""

    value: float
    text: str


@dataclass(frozen=True)
class Reading:
    """A reading and the sign it is drawn with."""

    value: float
    sign: str = "●"


def draw_band(
    low: float, high: float, target: float | None, readings: Sequence[Reading], width: int, margin: int = 3
) -> Line:
    """A tolerance from its lower to its upper limit, with the target and the readings on it.

    `margin` cells stay free on both sides for readings outside.

    Raises ValueError unless `low` is below `high`.
    """
    canvas = Canvas(width, 1)
    left, right = margin, width - 1 - margin
    line = _Line((low, high), (left, right), width)
    canvas.put(0, left, "├" + "─" * (right - left - 1) + "┤")
    if target is not None:
        canvas.put(0, line.column(target), "┼")
    for reading in readings:
        outside = not low <= reading.value <= high
        canvas.put(0, line.column(reading.value), reading.sign, Tone.WRONG if outside else Tone.INK)
    return canvas.lines()[0]


@dataclass(frozen=True)
class Zones:
    """Limits from the lowest up, and what the zones between them are called, one more than there are limits.

    `good` is the index of the zone that is as it should be; `reject_from`, if any, the index of the limit
    beyond which nothing may stay.
    """

    limits: tuple[Limit, ...]
    names: tuple[str, ...]
    good: int
    reject_from: int | None = None


def draw_zones(zones: Zones, reading: float | None, width: int) -> Drawing:
    """Four rows: whose reading it is, the names of the zones with the reading's mark, the line, the limits.

    Raises ValueError when names and limits do not match, or limits do not rise.
    """
    if len(zones.names) != len(zones.limits) + 1 or not zones.limits:
        raise ValueError(f"{len(zones.limits)} limits need {len(zones.limits) + 1} names of zones")
    canvas = Canvas(width, 4)
    columns = _spread_limits(zones.limits, width)
    line = _Line(tuple(limit.value for limit in zones.limits), columns, width)
    edges = (-1, *columns, width)
    for column in range(width):
        zone = sum(column > edge for edge in columns)
        canvas.put(2, column, "═" if zone == zones.good or _closes(column, columns, zones.good) else "─")
    if zones.reject_from is not None:
        canvas.put(2, columns[zones.reject_from], "┼")
    mark = line.column(reading) if reading is not None else None
    taken = set(range(mark - 2, mark + 3)) if mark is not None else set()
    for index, name in enumerate(zones.names):
        _name_zone(canvas, name, edges[index] + 1, edges[index + 1], taken)
    free_from = 0
    for limit, column in zip(zones.limits, columns, strict=True):
        start = max(free_from, min(column - width_of(limit.text) // 2, width - width_of(limit.text)))
        canvas.put(3, start, limit.text)
        free_from = start + width_of(limit.text) + 1
    if mark is not None:
        inside = reading is not None and _is_good(zones, reading)
        canvas.put(0, max(0, min(mark - 1, width - 3)), "you")
        canvas.put(1, max(0, min(mark - 1, width - 2)), "►◄", Tone.NOW if inside else Tone.WRONG)
        canvas.put(2, mark, "●", Tone.INK)
    return canvas.lines()


def _is_good(zones: Zones, reading: float) -> bool:
    """Whether a reading lies in the good zone, its limits included."""
    above = zones.good == 0 or reading >= zones.limits[zones.good - 1].value
    below = zones.good == len(zones.limits) or reading <= zones.limits[zones.good].value
    return above and below


def _closes(column: int, columns: Sequence[int], good: int) -> bool:
    """Whether a column is the cell of a limit of the good zone: the good zone owns its limits."""
    return column in {columns[index] for index in (good - 1, good) if 0 <= index < len(columns)}


def _spread_limits(limits: Sequence[Limit], width: int) -> tuple[int, ...]:
    """Columns of the limits in proportion, with a fifth of the line beyond them at either end."""
    beyond = max(2, width // 5)
    low, high = limits[0].value, limits[-1].value
    if len(limits) == 1:
        return (width // 2,)
    span = width - 1 - 2 * beyond
    return tuple(beyond + round((limit.value - low) / (high - low) * span) for limit in limits)


def _name_zone(canvas: Canvas, name: str, start: int, stop: int, taken: set[int]) -> None:
    """Write a zone's name over its middle or beside the reading's mark; not at all where it has no room."""
    free = [column for column in range(start, stop) if column not in taken]
    if not free or not name:
        return
    runs: list[list[int]] = [[free[0]]]
    for column in free[1:]:
        if column == runs[-1][-1] + 1:
            runs[-1].append(column)
        else:
            runs.append([column])
    longest = max(runs, key=len)
    if width_of(name) < len(longest):
        canvas.put(1, longest[0] + (len(longest) - width_of(name)) // 2, name)


class _Line:
    """Values on columns: linear between known places, and kept on their own side of each of them."""

    def __init__(self, values: Sequence[float], columns: Sequence[int], width: int) -> None:
        if any(not later > before for before, later in pairwise(values)):
            raise ValueError("limits have to rise from the lowest to the highest")
        self._values = values
        self._columns = columns
        self._width = width
        if len(values) > 1:
            self._per_unit = (columns[-1] - columns[0]) / (values[-1] - values[0])
        else:
            self._per_unit = columns[0] / (abs(values[0]) or 1.0)

    def zone(self, value: float) -> int:
        """How many limits lie at or below a value, a limit itself belonging to the zone under it."""
        return sum(value > limit for limit in self._values)

    def column(self, value: float) -> int:
        """The cell of a value."""
        for limit, column in zip(self._values, self._columns, strict=True):
            if value == limit:
                return column
        exact = self._columns[0] + (value - self._values[0]) * self._per_unit
        zone = self.zone(value)
        lowest = self._columns[zone - 1] + 1 if zone else 0
        highest = self._columns[zone] - 1 if zone < len(self._columns) else self._width - 1
        return round(max(lowest, min(highest, exact)))
