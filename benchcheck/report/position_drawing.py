"""Positions of a tightening pattern drawn as text, each with its turn."""

from __future__ import annotations

import math
from collections.abc import Sequence

from benchcheck.mechanics.pattern import Place, labels_clockwise

_SMALLEST_ROWS, _LARGEST_ROWS = 2, 12


def draw(places: Sequence[Place], order: Sequence[int]) -> list[str]:
    """Positions where they sit, each with when it comes: "3:2" is position 3, the second to be tightened.

    Empty for a single position, and where labels would touch even in the largest drawing: circles from 28 up.
    """
    if len(places) < 2:
        return []
    labels = [f"{position}:{number}" for position, number in enumerate(labels_clockwise(order), start=1)]
    width = max(map(len, labels))
    for rows in range(_SMALLEST_ROWS, _LARGEST_ROWS + 1):
        drawn = _drawn(places, labels, rows, width)
        if drawn is not None:
            return drawn
    return []


def _drawn(places: Sequence[Place], labels: Sequence[str], rows: int, width: int) -> list[str] | None:
    """A drawing of so many rows to each side of the middle, or None where two labels would touch."""
    # two columns to a row, since cells are twice as high as wide; more for the width of the labels
    across = max(2 * rows, width)
    grid: dict[int, dict[int, str]] = {}
    for (x, y), label in zip(places, labels, strict=True):
        row, column = _half_away(-y * rows), _half_away(x * across) + across
        line = grid.setdefault(row, {})
        if any(abs(column - other) <= width for other in line):
            return None
        line[column] = label
    lines = []
    for row in range(min(grid), max(grid) + 1):
        text = ""
        for column, label in sorted(grid.get(row, {}).items()):
            text = f"{text:{column + 2 + (width - len(label)) // 2}}{label}"
        lines.append(text)
    return lines


def _half_away(value: float) -> int:
    """Rounded half away from zero, so that left and right stay alike."""
    return int(math.copysign(math.floor(abs(value) + 0.5 - 1e-9), value))
