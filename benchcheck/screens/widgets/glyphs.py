"""Drawn lines as metal: outlines of filled cells, and letters seen in a mirror or upside down.

Knows cells and box strokes only. Which part has which shape stands elsewhere.
"""

from __future__ import annotations

from collections.abc import Set

METAL = "▒"
OTHER_METAL = "░"

Cell = tuple[int, int]
"""Row and column."""

_UP, _DOWN, _LEFT, _RIGHT = (-1, 0), (1, 0), (0, -1), (0, 1)

_STROKES = {
    frozenset({_UP, _DOWN}): "│",
    frozenset({_UP}): "│",
    frozenset({_DOWN}): "│",
    frozenset({_LEFT, _RIGHT}): "─",
    frozenset({_LEFT}): "─",
    frozenset({_RIGHT}): "─",
    frozenset({_DOWN, _RIGHT}): "┌",
    frozenset({_DOWN, _LEFT}): "┐",
    frozenset({_UP, _RIGHT}): "└",
    frozenset({_UP, _LEFT}): "┘",
    frozenset({_UP, _DOWN, _RIGHT}): "├",
    frozenset({_UP, _DOWN, _LEFT}): "┤",
    frozenset({_DOWN, _LEFT, _RIGHT}): "┬",
    frozenset({_UP, _LEFT, _RIGHT}): "┴",
    frozenset({_UP, _DOWN, _LEFT, _RIGHT}): "┼",
}
_DIRECTIONS_OF = {stroke: directions for directions, stroke in _STROKES.items() if len(directions) > 1}

_IN_A_MIRROR = str.maketrans("┌┐└┘├┤╱╲<>", "┐┌┘└┤├╲╱><")
_UPSIDE_DOWN = str.maketrans("┌└┐┘┬┴╱╲", "└┌┘┐┴┬╲╱")


def mirrored(text: str) -> str:
    """A row of drawn strokes as seen in a mirror that stands beside it."""
    return text.translate(_IN_A_MIRROR)[::-1]


def upside_down(rows: list[str]) -> list[str]:
    """Rows of drawn strokes turned over about a level line."""
    return [row.translate(_UPSIDE_DOWN) for row in reversed(rows)]


def outlined(filled: Set[Cell], fill: str = METAL) -> dict[Cell, str]:
    """The letters that draw filled cells as metal: strokes on the cells at its edge, `fill` inside."""
    return {cell: _edge_stroke(filled, cell) or fill for cell in filled}


def joined_to(stroke: str, *, right: bool = False, left: bool = False) -> str:
    """A stroke that also reaches into the cell to its right or left."""
    directions = set(_DIRECTIONS_OF.get(stroke, frozenset()))
    directions |= {_RIGHT} if right else set()
    directions |= {_LEFT} if left else set()
    return _STROKES.get(frozenset(directions), stroke)


def _edge_stroke(filled: Set[Cell], cell: Cell) -> str | None:
    """The stroke of one cell, from where the edge of the metal runs on; None inside."""
    row, column = cell
    around = {
        (down, right): (row + down, column + right) in filled for down in (-1, 0, 1) for right in (-1, 0, 1)
    }
    if all(around.values()):
        return None
    directions = set()
    for down, right in (_UP, _DOWN):
        beside = (around[(0, side)] and around[(down, side)] for side in (-1, 1))
        if around[(down, 0)] and not all(beside):
            directions.add((down, right))
    for down, right in (_LEFT, _RIGHT):
        beside = (around[(side, 0)] and around[(side, right)] for side in (-1, 1))
        if around[(0, right)] and not all(beside):
            directions.add((down, right))
    return _STROKES.get(frozenset(directions))
