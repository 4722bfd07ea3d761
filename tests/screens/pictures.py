"""Helpers for tests of drawings: a picture as text, and what must hold for every picture of a group."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from benchcheck.screens.widgets.cells import Line, plain_text, width_of
from benchcheck.screens.widgets.pattern import Circle, Pattern, Placement
from benchcheck.screens.widgets.signs import Sign


def as_text(drawing: Sequence[Line] | None) -> str:
    """A drawing as text, blanks at the ends of lines left out."""
    assert drawing is not None
    return "\n".join(plain_text(line).rstrip() for line in drawing)


def picture(text: str) -> str:
    """An expected picture written between bars at both sides of each line."""
    return "\n".join(line.strip().strip("|").rstrip() for line in text.strip().splitlines())


def signs_for(count: int, now: int, next_one: int, done: Sequence[int] = ()) -> tuple[Sign, ...]:
    """Signs with one position in hand, one next, some done and the rest to come."""
    signs = [Sign.TO_COME] * count
    for position in done:
        signs[position - 1] = Sign.DONE
    signs[now - 1], signs[next_one - 1] = Sign.NOW, Sign.NEXT
    return tuple(signs)


def complaints_about(pattern: Pattern, placement: Placement) -> list[str]:
    """What is wrong with a placed picture: labels or marks that touch, leave the sheet, or cross a number."""
    taken: dict[tuple[int, int], str] = {}
    complaints: list[str] = []
    for label in placement.labels:
        cells = range(label.column, label.column + len(label.text))
        if not (0 <= label.row < placement.height and cells.start >= 0 and cells.stop <= placement.width):
            complaints.append(f"label {label.text} leaves the sheet")
        for column in range(cells.start - 1, cells.stop + 1):
            if other := taken.get((label.row, column)):
                complaints.append(f"label {label.text} touches {other}")
        for column in cells:
            taken[(label.row, column)] = label.text
    covered = {
        (label.row, column)
        for label in placement.labels
        for column in range(label.column - 1, label.column + len(label.text) + 1)
    }
    for mark in placement.way:
        if (mark.row, mark.column) in covered:
            complaints.append(f"the way touches a label at row {mark.row}, column {mark.column}")
        if not (0 <= mark.row < placement.height and 0 <= mark.column < placement.width):
            complaints.append("the way leaves the sheet")
    if [mark for mark in placement.way[:-1] if mark.text != "·"]:
        complaints.append("the way has more than one head")
    written = {
        (label.row, column)
        for label in placement.labels
        for column in range(label.column, label.column + len(label.text))
    }
    for mark in placement.outside:
        cells = range(mark.column, mark.column + width_of(mark.text))
        if written & {(mark.row, column) for column in cells}:
            complaints.append(f"{mark.text} is written over a label")
    if len(placement.labels) != pattern.layout.count:
        complaints.append("a position is missing")
    if isinstance(pattern.layout, Circle) and not _runs_round(pattern, placement):
        complaints.append("the numbers do not run round the ring in order")
    return complaints


def _runs_round(pattern: Pattern, placement: Placement) -> bool:
    """Whether one goes round exactly once, in the direction the caption says, from number to number."""
    rows = [label.row for label in placement.labels]
    middle_row = (min(rows) + max(rows)) / 2
    middle_column = (placement.width - 1) // 2
    angles = [
        math.atan2((label.middle - middle_column) / 2, middle_row - label.row) for label in placement.labels
    ]
    steps = [(after - before) % math.tau for before, after in pairwise([*angles, angles[0]])]
    if pattern.mirrored:
        steps = [math.tau - step for step in steps]
    return all(0 < step < math.tau for step in steps) and math.isclose(sum(steps), math.tau)
