"""Many readings against their tolerances, one line a position: rounds with limits of their own on one band.

A mark is where its value lies between target and limit, so that values of several rounds, and of several
units, can stand on one line. What was read, and against which limits, is for the page to say.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchcheck.screens.widgets.cells import Canvas, Drawing, cut, width_of
from benchcheck.screens.widgets.scale import Reading, draw_band

LOWEST, TARGET, HIGHEST = -1.0, 0.0, 1.0
_AT_THE_LIMIT = 1e-6
_MARGIN = 3
_LEAST_BAND = 13


@dataclass(frozen=True)
class Mark:
    """A value by its place: -1 at its lower limit, 0 at its target, 1 at its upper limit."""

    place: float
    sign: str


@dataclass(frozen=True)
class BandRow:
    """One line: what it is of, its marks from the first to the one that counts, and the words behind it."""

    label: str
    marks: tuple[Mark, ...] = ()
    after: str = ""


def place_of(value: float, low: float, target: float, high: float) -> float:
    """Where a value lies between its target and the limit on its side; a hair beyond a limit is at it.

    Raises ValueError unless the target lies between the limits.
    """
    if not low < target < high:
        raise ValueError(f"limits have to rise: {low}, {target}, {high}")
    place = (value - target) / (high - target if value >= target else target - low)
    near = round(place)
    return float(near) if abs(near) == HIGHEST and abs(place - near) < _AT_THE_LIMIT else place


def draw_rows(rows: Sequence[BandRow], width: int, limits: tuple[str, str, str] = ("", "", "")) -> Drawing:
    """The rows below each other, with lower limit, target and upper limit written over the band.

    Where marks share a cell the later one is seen. Words behind a band too narrow to read lose their ends.
    """
    label_cells = max((width_of(row.label) for row in rows), default=0) + 1
    after_cells = max((width_of(row.after) for row in rows), default=0)
    band = max(width - label_cells - after_cells - 1, min(_LEAST_BAND, width - label_cells))
    canvas = Canvas(width, len(rows) + 1)
    _write_limits(canvas, label_cells, band, limits)
    for number, row in enumerate(rows, 1):
        canvas.put(number, 0, row.label)
        readings = [Reading(mark.place, mark.sign) for mark in row.marks]
        canvas.put_line(number, label_cells, draw_band(LOWEST, HIGHEST, TARGET, readings, band, _MARGIN))
        canvas.put(number, label_cells + band + 1, cut(row.after, width - label_cells - band - 1))
    return canvas.lines()


def _write_limits(canvas: Canvas, start: int, band: int, limits: tuple[str, str, str]) -> None:
    """Each over its sign; the target only where it touches neither of the others."""
    left, right = start + _MARGIN, start + band - 1 - _MARGIN
    middle = (left + right) // 2
    taken_to = 0
    low, target, high = limits
    places = [(max(0, left - width_of(low) // 2), low)]
    high_at = min(right - width_of(high) // 2, canvas.width - width_of(high))
    target_at = middle - width_of(target) // 2
    if target_at > places[0][0] + width_of(low) and target_at + width_of(target) < high_at:
        places.append((target_at, target))
    places.append((high_at, high))
    for column, text in places:
        if column >= taken_to:
            canvas.put(0, column, text)
            taken_to = column + width_of(text) + 1
