"""A part in section, as it lies now: drawn from its kind, its ends, and what is in its pockets and grooves.

The shaft axis is upright. A kind without a shape is a block with the names of its ends written on it, so that
a part of any procedure can be asked about. What is right, the drawing does not know.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from benchcheck.screens.widgets.cells import Canvas, Drawing, cut, shorten_in_the_middle, width_of
from benchcheck.screens.widgets.glyphs import METAL, Cell, joined_to, mirrored, outlined, upside_down
from benchcheck.screens.widgets.shapes import SHAPES, Box, Kind, Pocket, Shape

RING, NO_RING = "●", "○"
_LARGEST_SCALE = 2.0
_BLOCK_WIDTH, _BLOCK_HEIGHT = 26, 8


@dataclass(frozen=True)
class RingGroove:
    """A groove round the outside of a part: its distance from the first end as a share of the length."""

    place: float
    filled: bool = True


@dataclass(frozen=True)
class PocketSeal:
    """A lip seal in a pocket of its carrier, its lip toward the mouth of the pocket or toward its floor."""

    lip_points_out: bool


@dataclass(frozen=True)
class Part:
    """A part as a picture needs it.

    `ends` are the names of its first and second end, as `shapes.Kind` orders them. `seals` stand in the
    pockets, the first end's pocket first; None is an empty pocket.
    """

    kind: Kind
    name: str
    ends: tuple[str, str]
    grooves: tuple[RingGroove, ...] = ()
    seals: tuple[PocketSeal | None, ...] = ()


def draw_section(part: Part, end_up: str, width: int, height: int, up_word: str = "up") -> Drawing:
    """The section in `width` by `height` cells with one named end up, an arrow beside it saying so.

    `up_word` is what the upper edge of the picture is: "up", or "toward you" for work that lies level.

    Raises ValueError for an end the part has not.
    """
    if end_up not in part.ends:
        raise ValueError(f"{part.name} has no end called {end_up!r}, only {' and '.join(part.ends)}")
    return _drawn(part, end_up, width, height, up_word)


@lru_cache(maxsize=32)  # a sheet is painted at every key, its picture seldom changes
def _drawn(part: Part, end_up: str, width: int, height: int, up_word: str) -> Drawing:
    words = up_word.split()
    arrow_room = max(map(width_of, words)) + 3
    room = width - arrow_room
    shape = SHAPES.get(part.kind)
    scale = _scale(shape, room, height) if shape else None
    if shape and scale:
        rows = _section_rows(part, shape, scale)
        if end_up == part.ends[1]:
            rows = upside_down(rows)
    else:
        rows = _block_rows(part, end_up, min(room, _BLOCK_WIDTH), min(height, _BLOCK_HEIGHT))
    canvas = Canvas(width, height)
    top, left = (height - len(rows)) // 2, max(0, (room - max(map(width_of, rows))) // 2)
    for offset, row in enumerate(rows):
        canvas.put(top + offset, left, row)
    column = left + max(map(width_of, rows)) + 2
    canvas.put(top, column, "▲")
    canvas.put(top + 1, column, "│")
    for line, word in enumerate(words, start=top + 2):
        canvas.put(line, column, word)
    return canvas.lines()


def _scale(shape: Shape, width: int, height: int) -> float | None:
    """How much larger than in the smaller window the shape can be; None where it cannot even be that."""
    scale = min(width / (2 * shape.radius), height / shape.length, _LARGEST_SCALE)
    return scale if scale >= 1 else None


def _section_rows(part: Part, shape: Shape, scale: float) -> list[str]:
    """Both halves of a section with the first end up."""

    def at(units: int) -> int:
        return round(units * scale)

    radius, length = at(shape.radius), at(shape.length)
    filled = {
        (row, radius - 1 - distance)
        for box in shape.metal
        for row in range(at(box.start), at(box.stop))
        for distance in range(at(box.inner), at(box.outer))
    }
    solid = any(box.inner == 0 for box in shape.metal)
    if solid:  # the other half goes on at the axis: no edge there
        filled |= {(row, radius) for row, column in list(filled) if column == radius - 1}
    notches = {_row_of(groove, length): groove for groove in part.grooves}
    if scale >= 1.5:
        filled -= {(row, column) for row in notches for column in (0, 1)}
    letters = {cell: letter for cell, letter in outlined(filled).items() if cell[1] < radius}
    for row, groove in notches.items():
        letters[(row, 0 if scale < 1.5 else 1)] = RING if groove.filled else NO_RING
    for pocket, seal in zip(shape.pockets, part.seals, strict=False):
        if seal is not None:
            _put_seal(letters, pocket, seal, at, radius)
    for slant in shape.slants:
        start = (at(slant.depth + 1) - 1, radius - at(slant.distance + 1))
        _put_lip(letters, start, at(slant.rows), upward=slant.toward_first_end)
    if shape.coil:
        _put_coil(letters, shape.coil, at, radius)
    _finish_ends(letters, shape, radius, length, at(shape.thread))
    halves = ["".join(letters.get((row, column), " ") for column in range(radius)) for row in range(length)]
    rows = [half + mirrored(half) for half in halves]
    if shape.named_first_face:
        rows[1] = _with_word(rows[1], part.ends[0].split()[0], halves[1])
    return rows


def _with_word(row: str, word: str, half: str) -> str:
    """Write what is marked on a face into the metal just behind it, on one side only."""
    metal = half.index(METAL)
    shown = cut(word, half.count(METAL))
    return row[:metal] + shown + row[metal + len(shown) :]


def _row_of(groove: RingGroove, length: int) -> int:
    return min(max(1, round(groove.place * (length - 1))), length - 2)


def _put_seal(
    letters: dict[Cell, str], pocket: Pocket, seal: PocketSeal, at: Callable[[int], int], radius: int
) -> None:
    """A lip seal in its pocket: its back as a stroke from the wall inward, its lip as a slant from there."""
    rows = range(at(pocket.start), at(pocket.stop))
    floor, mouth = (rows[-1], rows[0]) if pocket.opens_at_first_end else (rows[0], rows[-1])
    row = floor if seal.lip_points_out else mouth
    upward = seal.lip_points_out == pocket.opens_at_first_end
    wall, last = radius - 1 - at(pocket.wall), radius - 1 - at(pocket.inner)
    letters[(row, wall)] = joined_to(letters[(row, wall)], right=True)
    for column in range(wall + 1, last):
        letters[(row, column)] = "─"
    letters[(row, last)] = "┘" if upward else "┐"
    _put_lip(letters, (row + (-1 if upward else 1), last + 1), len(rows) - 1, upward=upward)


def _put_lip(letters: dict[Cell, str], start: Cell, rows: int, *, upward: bool) -> None:
    """A slant that nears the axis, which is to the right of this half, by one column a row."""
    for index in range(rows):
        letters[(start[0] + (-index if upward else index), start[1] + index)] = "╱" if upward else "╲"


def _put_coil(letters: dict[Cell, str], coil: Box, at: Callable[[int], int], radius: int) -> None:
    """A spring cut through: its turns one above another."""
    for row in range(at(coil.start), at(coil.stop)):
        distance = coil.outer - 1 if row % 2 else coil.inner
        letters[(row, radius - 1 - at(distance))] = "o"


def _finish_ends(letters: dict[Cell, str], shape: Shape, radius: int, length: int, thread: int) -> None:
    """Round or chamfer the corners of an end, and cut the flanks of a thread."""
    for column in range(radius):
        if shape.rounded_second_end and (cell := (length - 1, column)) in letters:
            letters[cell] = {"└": "╲", "┘": "╱"}.get(letters[cell], letters[cell])
        if shape.chamfered_first_end and letters.get((0, column)) == "┌":
            letters[(0, column)] = "╱"
    for row in range(1, thread):
        edge = min(column for cell_row, column in letters if cell_row == row)
        letters[(row, edge)] = "<"


def _block_rows(part: Part, end_up: str, width: int, height: int) -> list[str]:
    """A block with the name of its upper end at the top and of its lower end at the bottom."""
    first, second = part.ends
    lower = second if end_up == first else first
    inner = max(width - 4, 1)
    lines = [""] * max(height - 2, 3)
    lines[0], lines[-1] = end_up, lower
    lines[len(lines) // 2] = part.name
    rows = ["┌" + "─" * (inner + 2) + "┐"]
    for line in lines:
        shown = shorten_in_the_middle(line, inner)
        left = (inner - width_of(shown)) // 2
        rows.append("│ " + " " * left + shown + " " * (inner - left - width_of(shown)) + " │")
    rows.append("└" + "─" * (inner + 2) + "┘")
    return rows
