"""The dotted way from the position in hand to the next one.

It is drawn before the present position is confirmed, so that the hand knows where it goes. It passes below
the numbers: a dot that would touch one is left out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from benchcheck.screens.widgets.cells import width_of
from benchcheck.screens.widgets.pattern import Label, Mark
from benchcheck.screens.widgets.signs import Sign

_STEP = 3
"""Columns from dot to dot where the way is flat."""


def way_marks(
    signs: Sequence[Sign], labels: Sequence[Label], outside: Sequence[Mark], middle: tuple[int, int]
) -> tuple[Mark, ...]:
    """Dots from *now* to *next*, the last one an arrow head; empty between neighbours.

    Dots on a label, or on the blank beside one, are left out, so that the way passes below the numbers.
    """
    if signs.count(Sign.NOW) != 1 or signs.count(Sign.NEXT) != 1:
        return ()
    start, end = labels[signs.index(Sign.NOW)], labels[signs.index(Sign.NEXT)]
    down, right = end.row - start.row, end.middle - start.middle
    cells = _dots(start, end, middle)
    free = [cell for cell in cells if _is_free(cell, labels, outside)]
    if not free and down == 0 and _stands_between(start, end, labels):
        inward = 1 if start.row <= middle[0] else -1
        free = [(row + inward, column) for row, column in cells]
        free = [cell for cell in free if _is_free(cell, labels, outside)]
    if not free:
        return ()
    dots = [Mark(row, column, "·") for row, column in free[:-1]]
    return (*dots, Mark(*free[-1], _arrow_head(down, right)))


def _dots(start: Label, end: Label, middle: tuple[int, int]) -> list[tuple[int, int]]:
    """Cells of the straight line between two labels: one a row when steep, one every three columns when flat.

    Counted from the middle of the picture, halves to the even cell: the two sides of the picture stay alike.
    """
    down, right = end.row - start.row, end.middle - start.middle
    if abs(right) <= 2 * abs(down):
        count = abs(down)
        shares = [step / count for step in range(1, count)]
    else:
        count = abs(right)
        shares = [step / count for step in range(_STEP, count, _STEP)]
    first_row, first_column = start.row - middle[0], start.middle - middle[1]
    return [
        (
            middle[0] + round(round(first_row + share * down, 6)),
            middle[1] + round(round(first_column + share * right, 6)),
        )
        for share in shares
    ]


def _is_free(cell: tuple[int, int], labels: Sequence[Label], outside: Sequence[Mark]) -> bool:
    row, column = cell
    return not any(label.covers(row, column) for label in labels) and not any(
        mark.row == row and mark.column - 1 <= column <= mark.column + width_of(mark.text) for mark in outside
    )


def _stands_between(start: Label, end: Label, labels: Sequence[Label]) -> bool:
    low, high = sorted((start.middle, end.middle))
    return any(label.row == start.row and low < label.middle < high for label in labels)


def _arrow_head(down: int, right: int) -> str:
    """The one of eight arrows nearest to a direction; a column is half a row."""
    eighth = round(math.degrees(math.atan2(down, right / 2)) / 45) % 8
    return "→↘↓↙←↖↑↗"[eighth]
