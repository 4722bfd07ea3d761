"""The ruler of the procedure: how far the work is, in one row. It is the only progress a sheet shows."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.screens.widgets.cells import Line, Run


def draw_ruler(steps: int, here: int, phase_ends: Sequence[int], width: int) -> Line:
    """Steps done, the step in hand and steps to come, with a cross stroke at the last step of each phase.

    `here` and `phase_ends` are numbers of steps from 1; the end of the last phase needs no stroke. A step
    number after the last one means that all are done; 0 that none is begun.
    """
    column_here = _column(here, steps, width) if here <= steps else width
    strokes = {_column(end, steps, width) for end in phase_ends if end < steps}
    cells = []
    for column in range(width):
        if column == column_here and 1 <= here <= steps:
            cells.append("►")
        elif column < column_here:
            cells.append("╪" if column in strokes else "═")
        else:
            cells.append("┼" if column in strokes else "─")
    return (Run("".join(cells)),)


def draw_rule(width: int) -> Line:
    """A plain rule, where nothing is under way."""
    return (Run("─" * width),)


def _column(step: int, steps: int, width: int) -> int:
    """The column a step begins at."""
    return max(step - 1, 0) * width // max(steps, 1)
