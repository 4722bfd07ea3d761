"""The tightening order as a line of signs, and one such line under another for the rounds.

The strip says the same as the picture of the group; where a group has too many positions for a picture, it
stands alone. It wraps into lines of even length, never inside a label.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, repeat

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Drawing, Line, Run, width_of
from benchcheck.screens.widgets.pattern import label_width
from benchcheck.screens.widgets.signs import Sign

_NAME_CELLS = 8
_SHARE_CELLS = 6


@dataclass(frozen=True)
class Round:
    """One trip through the order: its name, its share and figure as text, and one sign a place in it."""

    name: str
    share: str
    figure: str
    order: tuple[int, ...]
    signs: tuple[Sign, ...]


def draw_order_strip(order: Sequence[int], signs: Sequence[Sign], width: int) -> Drawing:
    """Positions in tightening order, each between its signs, on as few even lines as `width` allows.

    `signs` follows the order, not the numbers.
    """
    label = label_width(max(order, default=1))
    most = max(1, (width + 1) // (label + 1))
    lines = -(-len(order) // most)
    each = -(-len(order) // lines) if lines else 0
    runs = [sign.around(str(number).rjust(label - 2)) for number, sign in zip(order, signs, strict=True)]
    return tuple(_spaced(runs[start : start + each]) for start in range(0, len(runs), each or 1))


def draw_rounds(rounds: Sequence[Round], current: int, width: int) -> Drawing:
    """All rounds, one a line, while they fit; else the current one alone, its strip wrapped below it."""
    figure_cells = max((width_of(each.figure) for each in rounds), default=0)
    table = []
    for each in rounds:
        name = f"{each.name:>{_NAME_CELLS}}{each.share:>{_SHARE_CELLS}}"
        figure = f" {each.figure:>{figure_cells + 1}}  " if figure_cells else " "
        strip = draw_order_strip(each.order, each.signs, 10_000)
        table.append((Run(name + figure, Tone.INK), *strip[0]) if strip else (Run(name + figure),))
    if all(sum(width_of(run.text) for run in line) <= width for line in table):
        return tuple(table)
    now = rounds[current]
    title = f"  {now.name} of {len(rounds)}, {now.share}"
    strip = draw_order_strip(now.order, now.signs, width - 2)
    return ((Run(title),), *((Run("  "), *line) for line in strip))


def _spaced(runs: Sequence[Run]) -> Line:
    return tuple(chain.from_iterable(zip(runs, repeat(Run(" ")), strict=False)))[:-1]
