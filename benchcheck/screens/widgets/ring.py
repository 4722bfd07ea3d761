"""The picture of a fastener group: its positions, which is in hand, and the way to the next.

A pure function from a pattern to lines. Positions on a circle are set here. A picture in which two labels
would touch is refused, so that the caller can fall back on the order strip; nothing is drawn over a number.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from itertools import chain, pairwise

from benchcheck.screens.widgets.cells import Canvas, Drawing, shorten_in_the_middle
from benchcheck.screens.widgets.pattern import (
    Circle,
    Label,
    Mark,
    Pattern,
    Placement,
    centred,
    label_width,
    labelled,
    nearest,
)
from benchcheck.screens.widgets.points import place_points
from benchcheck.screens.widgets.way import way_marks

LARGEST_RADIUS_AT_80_BY_24 = 8
LARGEST_RADIUS_AT_120_BY_40 = 12
SMALLEST_RADIUS = 2
LARGEST_SHIFT = 2
"""Columns that a label may be moved away from the upright axis to keep clear of its neighbour."""


def draw(pattern: Pattern, width: int, height: int, largest_radius: int) -> Drawing | None:
    """The picture of a group in `width` by `height` cells; None where it has no room."""
    return _drawn(pattern, width, height, largest_radius)


@lru_cache(maxsize=32)  # a sheet is painted at every key, its picture seldom changes
def _drawn(pattern: Pattern, width: int, height: int, largest_radius: int) -> Drawing | None:
    placement = place(pattern, width, height, largest_radius)
    if placement is None:
        return None
    canvas = Canvas(width, height)
    for mark in (*placement.outside, *placement.way):
        canvas.put(mark.row, mark.column, mark.text)
    for label in placement.labels:
        canvas.put(label.row, label.column, label.text, label.tone)
    return canvas.lines()


def place(pattern: Pattern, width: int, height: int, largest_radius: int) -> Placement | None:
    """Set the labels, the way and the names; None where two labels would touch or the room is too small."""
    if len(pattern.signs) != pattern.layout.count:
        raise ValueError(f"{pattern.layout.count} positions, {len(pattern.signs)} signs")
    if isinstance(pattern.layout, Circle):
        return _place_circle(pattern, pattern.layout, width, height, largest_radius)
    return place_points(pattern, pattern.layout, width, height)


def _place_circle(
    pattern: Pattern, circle: Circle, width: int, height: int, largest_radius: int
) -> Placement | None:
    name_rows = 1 if pattern.datum else 0
    radius = largest_fitting_radius(circle, width, height - 2 * name_rows, largest_radius)
    if radius is None:
        return None
    cells = circle_cells(circle, radius, pattern.quarter_turns % 4, pattern.mirrored)
    assert cells is not None, "a fitting radius fits at every quarter turn"
    middle = (name_rows + radius, (width - 1) // 2)
    labels = labelled(pattern, [(middle[0] + row, middle[1] + column) for row, column in cells])
    outside = _circle_datum(pattern, circle, radius, labels, middle, width) if pattern.datum else ()
    return Placement(width, height, labels, way_marks(pattern.signs, labels, outside, middle), outside)


@lru_cache(maxsize=256)
def largest_fitting_radius(circle: Circle, width: int, height: int, largest_radius: int) -> int | None:
    """The largest radius in rows up to `largest_radius` at which the ring fits however it is turned.

    Where none does, the least one beyond it that has room; None if there is none.
    """
    label = label_width(circle.count)
    left_room = (width - 1) // 2 - label // 2
    right_room = width - label - left_room
    room = (height - 1) // 2
    preferred = range(min(largest_radius, room), SMALLEST_RADIUS - 1, -1)
    beyond = range(largest_radius + 1, room + 1)
    for radius in chain(preferred, beyond):
        turned = [circle_cells(circle, radius, turns, side) for turns in range(4) for side in (False, True)]
        if all(
            cells is not None and all(-left_room <= column <= right_room for _, column in cells)
            for cells in turned
        ):
            return radius
    return None


@lru_cache(maxsize=1024)
def circle_cells(
    circle: Circle, radius: int, quarter_turns: int, mirrored: bool
) -> tuple[tuple[int, int], ...] | None:
    """Row and column of each position from the middle of the ring; None where labels would touch.

    A row is twice as high as a column is wide, so the circle is `radius` rows and twice as many columns.
    """
    offset = 0.0 if circle.first_at_datum else 0.5
    cells: list[tuple[int, int]] = []
    for index in range(circle.count):
        angle = (index + offset) * 360.0 / circle.count
        seen = math.radians((-angle if mirrored else angle) + 90.0 * quarter_turns)
        cells.append((nearest(-radius * math.cos(seen)), nearest(2 * radius * math.sin(seen))))
    return _moved_apart(cells, label_width(circle.count) + 1)


def _moved_apart(cells: Sequence[tuple[int, int]], least_distance: int) -> tuple[tuple[int, int], ...] | None:
    """Move labels of one row away from the upright axis until each has its blank; None if that is too far."""
    columns = [column for _, column in cells]
    for row in {row for row, _ in cells}:
        in_row = sorted((i for i, cell in enumerate(cells) if cell[0] == row), key=lambda i: cells[i][1])
        pairs = list(pairwise(in_row))
        while close := [pair for pair in pairs if columns[pair[1]] - columns[pair[0]] < least_distance]:
            left, right = close[0]
            moves_left = cells[left][1] < 0 and cells[left][1] - columns[left] < LARGEST_SHIFT
            moves_right = cells[right][1] > 0 and columns[right] - cells[right][1] < LARGEST_SHIFT
            if not moves_left and not moves_right:
                return None
            if moves_left and moves_right:  # the one farther out goes; both, where neither is
                moves_left, moves_right = -columns[left] >= columns[right], columns[right] >= -columns[left]
            columns[left] -= moves_left
            columns[right] += moves_right
    return tuple((row, column) for (row, _), column in zip(cells, columns, strict=True))


def _circle_datum(
    pattern: Pattern,
    circle: Circle,
    radius: int,
    labels: Sequence[Label],
    middle: tuple[int, int],
    width: int,
) -> tuple[Mark, ...]:
    """The datum's name above or below its place; turned to a side, the name stays above and says its sign."""
    turns = pattern.quarter_turns % 4
    sign = "1:" if circle.first_at_datum else "▼◆▲◆"[turns]
    row, column = (
        middle[0] + (-radius, 0, radius, 0)[turns],
        middle[1] + (0, 2 * radius, 0, -2 * radius)[turns],
    )
    name_row = row + 1 if turns == 2 else 0
    if circle.first_at_datum:
        name = pattern.datum if turns in (0, 2) else f"{sign} {pattern.datum}"
        return (centred(name, name_row, middle[1], width),)
    free = not any(label.covers(row, cell) for label in labels for cell in (column - 1, column, column + 1))
    if not free:
        return (Mark(name_row, column, f"{sign} {shorten_in_the_middle(pattern.datum, width - column - 2)}"),)
    name = pattern.datum if turns in (0, 2) else f"{sign} {pattern.datum}"
    return (centred(name, name_row, middle[1], width), Mark(row, column, sign))
