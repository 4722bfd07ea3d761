"""What a picture of a fastener group is made of: a layout, signs, and then labels and marks at cells.

Values only, with the few small rules that every layout shares. How a circle or free points are set, and how
the way runs from one position to the next, have their own modules.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import shorten_in_the_middle, width_of
from benchcheck.screens.widgets.signs import Sign


@dataclass(frozen=True)
class Circle:
    """Positions spread evenly on a circle, numbered clockwise from the datum as `seen_from` sees them.

    With `first_at_datum` position 1 is the datum's own hole; without, the datum lies halfway between the
    last position and the first.
    """

    count: int
    first_at_datum: bool = False


@dataclass(frozen=True)
class Points:
    """Positions at their own places: right and up in any one unit of length, as `seen_from` sees them."""

    places: tuple[tuple[float, float], ...]

    @property
    def count(self) -> int:
        return len(self.places)


@dataclass(frozen=True)
class Pattern:
    """All that a picture of a fastener group shows.

    `signs` has one sign a position, in the order of their numbers. `quarter_turns` turns the picture
    clockwise; `mirrored` shows it to somebody who stands opposite the side the numbers are counted from.
    `notes` stand outside points (a screw length); `datum` is the name of the place numbers are counted from.
    """

    layout: Circle | Points
    signs: tuple[Sign, ...]
    datum: str = ""
    quarter_turns: int = 0
    mirrored: bool = False
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Label:
    """A position's number between its signs; `column` is its first cell, `middle` the cell it stands on."""

    position: int
    row: int
    column: int
    text: str
    tone: Tone

    @property
    def middle(self) -> int:
        return self.column + len(self.text) // 2

    def covers(self, row: int, column: int) -> bool:
        """Whether a cell is part of the label or of the blank on either side of it."""
        return row == self.row and self.column - 1 <= column <= self.column + len(self.text)


@dataclass(frozen=True)
class Mark:
    """Letters at a place, outside the ring or on the way."""

    row: int
    column: int
    text: str


@dataclass(frozen=True)
class Placement:
    """A picture before it is drawn: labels, the dots of the way (its head last), and what stands outside."""

    width: int
    height: int
    labels: tuple[Label, ...]
    way: tuple[Mark, ...]
    outside: tuple[Mark, ...]


def label_width(count: int) -> int:
    """Cells of one label: sign, number, sign."""
    return 2 + len(str(max(count, 1)))


def labelled(pattern: Pattern, cells: Sequence[tuple[int, int]]) -> tuple[Label, ...]:
    """A label a position, its middle on the given cell."""
    digits = label_width(pattern.layout.count) - 2
    labels = []
    for number, (sign, (row, column)) in enumerate(zip(pattern.signs, cells, strict=True), start=1):
        run = sign.around(str(number).rjust(digits))
        labels.append(Label(number, row, column - len(run.text) // 2, run.text, run.tone))
    return tuple(labels)


def centred(name: str, row: int, middle_column: int, width: int) -> Mark:
    """A name with its middle over a column, shortened and moved so that it stays on the sheet."""
    shown = shorten_in_the_middle(name, width)
    cells = width_of(shown)
    return Mark(row, min(max(0, middle_column - cells // 2), width - cells), shown)


def nearest(value: float) -> int:
    """Nearest whole number, halves away from zero, so that left and right stay alike."""
    settled = round(value, 6)
    return int(math.copysign(math.floor(abs(settled) + 0.5), settled))


def direction_words(pattern: Pattern, viewed_from: str) -> str:
    """Which way the numbers run, with the end from which it is so: never the one without the other."""
    runs = "counter-clockwise" if pattern.mirrored else "clockwise"
    return f"seen from the {viewed_from}: numbers run {runs}"
