"""Positions at their own places: rectangles and free points.

The picture is as large as the room allows, in true proportion; where labels would touch, each direction is
stretched by itself. A picture that still has no room is refused.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from benchcheck.screens.widgets.cells import shorten_in_the_middle, width_of
from benchcheck.screens.widgets.pattern import (
    Label,
    Mark,
    Pattern,
    Placement,
    Points,
    label_width,
    labelled,
    nearest,
)
from benchcheck.screens.widgets.way import way_marks


def place_points(pattern: Pattern, points: Points, width: int, height: int) -> Placement | None:
    if not points.places:
        return None
    seen = [_seen(place, pattern.quarter_turns % 4, pattern.mirrored) for place in points.places]
    label = label_width(points.count)
    above = (1 if pattern.datum else 0) + (1 if pattern.notes else 0)
    below = 1 if pattern.notes else 0
    only_two_rows = len({up for _, up in seen}) <= 2
    beside = 0 if only_two_rows else max((width_of(note) + 1 for note in pattern.notes), default=0)
    rows = height - above - below
    for columns, proportional in ((width, True), (width, False)):
        room = columns - 2 * beside
        cells = _spread(seen, rows, room, label, proportional)
        if cells is None:
            continue
        middle = (above + (rows - 1) // 2, beside + (room - 1) // 2)
        labels = labelled(pattern, [(above + row, beside + label // 2 + column) for row, column in cells])
        notes = _notes(pattern, labels, width)
        if notes is None:
            return None
        datum = _point_datum(pattern, labels, width) if pattern.datum else ()
        outside = (*datum, *notes)
        return Placement(width, height, labels, way_marks(pattern.signs, labels, outside, middle), outside)
    return None


def _seen(place: tuple[float, float], quarter_turns: int, mirrored: bool) -> tuple[float, float]:
    """A place as the person sees it: mirrored first, then turned clockwise."""
    right, up = (-place[0] if mirrored else place[0]), place[1]
    for _ in range(quarter_turns):
        right, up = up, -right
    return right, up


def _spread(
    seen: Sequence[tuple[float, float]], rows: int, columns: int, label: int, proportional: bool
) -> list[tuple[int, int]] | None:
    """Row and first column of each label, as large as the room allows; None where two would touch.

    In proportion, a column is half as wide as a row is high; else each direction is stretched by itself.
    """
    last_row, last_column = rows - 1, columns - label
    if last_row < 0 or last_column < 0:
        return None
    left, top = min(right for right, _ in seen), max(up for _, up in seen)
    breadth, depth = max(right for right, _ in seen) - left, top - min(up for _, up in seen)
    across = last_column / breadth if breadth else math.inf
    down = last_row / depth if depth else math.inf
    if proportional:
        down = min(down, across / 2)
        across = 2 * down
    across, down = (0.0 if math.isinf(scale) else scale for scale in (across, down))
    row_margin, column_margin = last_row - round(down * depth), last_column - round(across * breadth)
    cells = [
        (
            row_margin // 2 + nearest((top - up) * down),
            column_margin // 2 + nearest((right - left) * across),
        )
        for right, up in seen
    ]
    in_order = sorted(cells)
    touching = any(one[0] == other[0] and other[1] - one[1] < label + 1 for one, other in pairwise(in_order))
    return None if touching else cells


def _notes(pattern: Pattern, labels: Sequence[Label], width: int) -> tuple[Mark, ...] | None:
    """Each note outside its label: over the top row, under the bottom row, else beside; None without room."""
    if not pattern.notes:
        return ()
    top, bottom = min(label.row for label in labels), max(label.row for label in labels)
    marks: list[Mark] = []
    for label, note in zip(labels, pattern.notes, strict=True):
        cells = width_of(note)
        if label.row in (top, bottom):
            row = label.row - 1 if label.row == top else label.row + 1
            column = label.middle - cells // 2
        else:
            row = label.row
            column = (
                label.column - cells - 1 if label.middle < width // 2 else label.column + len(label.text) + 1
            )
        marks.append(Mark(row, column, note))
    taken: set[tuple[int, int]] = {
        (label.row, cell) for label in labels for cell in range(label.column, label.column + len(label.text))
    }
    for mark in marks:
        cells_of_mark = {(mark.row, mark.column + offset) for offset in range(-1, width_of(mark.text) + 1)}
        if mark.column < 0 or mark.column + width_of(mark.text) > width or taken & set(_inner(mark)):
            return None
        taken |= cells_of_mark
    return tuple(marks)


def _inner(mark: Mark) -> list[tuple[int, int]]:
    return [(mark.row, mark.column + offset) for offset in range(width_of(mark.text))]


def _point_datum(pattern: Pattern, labels: Sequence[Label], width: int) -> tuple[Mark, ...]:
    """The datum's name above all positions; a mark over position 1 where that stands in the top row."""
    first = labels[0]
    top = min(label.row for label in labels)
    row = top - 2 if pattern.notes else top - 1
    if first.row != top:
        return (Mark(row, 0, shorten_in_the_middle(f"1: {pattern.datum}", width)),)
    room_right = width - first.middle - 2
    if width_of(pattern.datum) <= room_right or room_right >= first.middle - 1:
        return (Mark(row, first.middle, f"▼ {shorten_in_the_middle(pattern.datum, room_right)}"),)
    name = shorten_in_the_middle(pattern.datum, first.middle - 1)
    return (Mark(row, first.middle - 1 - width_of(name), f"{name} ▼"),)
