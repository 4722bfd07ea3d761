"""Grooves about to be hidden, in section: what is in each, and what will cover them.

Grooves round a part or in a bore are drawn one above another, as the work lies; grooves in a face side by
side. A filled groove shows its ring cut through, an empty one is called EMPTY.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Canvas, Drawing, cut, shorten_in_the_middle, width_of
from benchcheck.screens.widgets.glyphs import METAL, OTHER_METAL, mirrored, upside_down
from benchcheck.screens.widgets.section import NO_RING, RING
from benchcheck.screens.widgets.signs import Sign


class Opening(Enum):
    """Which way a groove is open."""

    OUTWARD = "outward"  # round the outside of a part that goes into a bore
    INWARD = "inward"  # in a bore that a part goes into
    FACE = "face"  # in a face that another face comes down on


@dataclass(frozen=True)
class Groove:
    """A groove as it is now: its name, the size read or wanted, whether a ring is in it, and its state.

    Of one that is asked about, it is not known what lies in it.
    """

    name: str
    size: str
    filled: bool
    sign: Sign = Sign.DONE
    unknown: bool = False

    @property
    def words(self) -> str:
        if self.unknown:
            return "look"
        if self.filled or self.sign is Sign.NOW:
            return self.size
        return "open" if self.sign is Sign.TO_COME else "EMPTY"

    @property
    def ring(self) -> str:
        return UNKNOWN if self.unknown else RING if self.filled else NO_RING


@dataclass(frozen=True)
class Closing:
    """Grooves of one part, uppermost or leftmost first, and the part that will hide them.

    `caption` is written under the picture; `face_up` says which way the face with the grooves looks.
    """

    carrier: str
    cover: str
    grooves: tuple[Groove, ...]
    opening: Opening
    caption: str = ""
    face_up: bool = True


UNKNOWN = "?"
_PLAIN_ROW = METAL * 8 + "│"
_GROOVE_ROWS = (METAL * 5 + "┌──┘", METAL * 5 + "│   ", METAL * 5 + "└──┐")
_RING_COLUMN = 7
_COVER_ROW = "│" + OTHER_METAL * 6
_GAP = " " * 5
_FACE_UNIT = 10
_FACE_ROWS = ("─────┐   ┌", METAL * 5 + "│   │", METAL * 5 + "└───┘", METAL * _FACE_UNIT)
_FACE_END_ROWS = ("─────", METAL * 5, METAL * 5, METAL * 5)
_FACE_RING_COLUMN = 7


def draw_grooves(closing: Closing, width: int, height: int) -> Drawing | None:
    """The picture in `width` by `height` cells; None where it has no room or there is nothing to show."""
    if not closing.grooves:
        return None
    if closing.opening is Opening.FACE:
        return _draw_face(closing, width, height)
    return _draw_side(closing, width, height)


def list_grooves(grooves: Sequence[Groove], width: int) -> Drawing:
    """The same in words, one line a groove, for where there is no room for a picture."""
    canvas = Canvas(width, len(grooves))
    names = max((width_of(groove.name) for groove in grooves), default=0) + 4
    for row, groove in enumerate(grooves):
        label = groove.sign.around(groove.name)
        canvas.put(row, 0, label.text, label.tone)
        canvas.put(row, names, groove.ring)
        canvas.put(row, names + 3, *_words(groove))
    return canvas.lines()


def _words(groove: Groove) -> tuple[str, Tone]:
    return groove.words, Tone.INK if groove.filled else groove.sign.tone


def _draw_side(closing: Closing, width: int, height: int) -> Drawing | None:
    """Grooves one above another, the part that carries them on the inner or on the outer side."""
    inward = closing.opening is Opening.INWARD
    labels = [groove.sign.around(groove.name) for groove in closing.grooves]
    label_cells = max(width_of(label.text) for label in labels)
    block = len(_PLAIN_ROW + _GAP + _COVER_ROW)
    words_column = label_cells + 1 + block + 3
    count = len(closing.grooves)
    if width < words_column + max(width_of(groove.words) for groove in closing.grooves):
        return None
    spare = height - (3 * count + 5)
    if spare < 0:
        return None
    between = 1 if spare >= count - 1 else 0
    spare -= between * (count - 1)

    canvas = Canvas(width, height)
    left = label_cells + 1

    def metal(row: int, carrier_row: str, ring: str = " ") -> None:
        inner = (
            carrier_row[:_RING_COLUMN] + ring + carrier_row[_RING_COLUMN + 1 :]
            if ring.strip()
            else carrier_row
        )
        text = inner + _GAP + _COVER_ROW
        canvas.put(row, left, mirrored(text) if inward else text)

    _put_names(canvas, closing, left, inward, blank_below=spare > 0)
    row = 1 + min(spare, 1)
    for _ in range(1 + (spare > 1)):
        metal(row, _PLAIN_ROW)
        row += 1
    for index, (groove, label) in enumerate(zip(closing.grooves, labels, strict=True)):
        metal(row, _GROOVE_ROWS[0])
        metal(row + 1, _GROOVE_ROWS[1], groove.ring)
        metal(row + 2, _GROOVE_ROWS[2])
        canvas.put(row + 1, label_cells - width_of(label.text), label.text, label.tone)
        canvas.put(row + 1, words_column, *_words(groove))
        row += 3
        if between and index < count - 1:
            metal(row, _PLAIN_ROW)
            row += 1
    metal(row, _PLAIN_ROW)
    edges = (len(_COVER_ROW) - 1, len(_COVER_ROW + _GAP)) if inward else (8, 8 + 1 + len(_GAP))
    for edge in edges:
        canvas.put(row + 1, left + edge, "▼")
    caption = shorten_in_the_middle(closing.caption, width)
    canvas.put(row + 2, max(0, min(left, width - width_of(caption))), caption)
    return canvas.lines()


def _put_names(canvas: Canvas, closing: Closing, left: int, inward: bool, blank_below: bool) -> None:
    """What each side of the picture is, over its own side; one below the other where they are long."""
    names = (closing.cover, closing.carrier) if inward else (closing.carrier, closing.cover)
    second = left + (len(_COVER_ROW + _GAP) if inward else len(_PLAIN_ROW + _GAP) + 1)
    lower = int(blank_below and width_of(names[0]) > second - left - 2)
    canvas.put(0, left, shorten_in_the_middle(names[0], canvas.width - left if lower else second - left - 2))
    canvas.put(lower, second, shorten_in_the_middle(names[1], canvas.width - second))


def _draw_face(closing: Closing, width: int, height: int) -> Drawing | None:
    """Grooves side by side in one face, with the covering face a little way off."""
    count = len(closing.grooves)
    block = _FACE_UNIT * count + len(_FACE_END_ROWS[0])
    if width < block or height < 13:
        return None
    rows = ["".join([each] * count) + end for each, end in zip(_FACE_ROWS, _FACE_END_ROWS, strict=True)]
    rows = [OTHER_METAL * block, "─" * block, " " * block, *rows]
    ring_row = 4
    if not closing.face_up:
        rows = upside_down(rows)
        ring_row = len(rows) - 1 - ring_row
    upper, lower = (closing.cover, closing.carrier) if closing.face_up else (closing.carrier, closing.cover)
    canvas = Canvas(width, height)
    canvas.put(0, 0, shorten_in_the_middle(upper, width))
    for offset, row in enumerate(rows, start=1):
        canvas.put(offset, 0, row)
    canvas.put(len(rows) + 1, 0, shorten_in_the_middle(lower, width))
    for index, groove in enumerate(closing.grooves):
        middle = index * _FACE_UNIT + _FACE_RING_COLUMN
        canvas.put(1 + ring_row, middle, groove.ring)
        label = groove.sign.around(cut(groove.name, _FACE_UNIT - 3))
        canvas.put(len(rows) + 2, middle - width_of(label.text) // 2, label.text, label.tone)
        words, tone = _words(groove)
        shown = cut(words, _FACE_UNIT - 1)
        canvas.put(len(rows) + 3, middle - width_of(shown) // 2, shown, tone)
    canvas.put(len(rows) + 4, 0, shorten_in_the_middle(closing.caption, width))
    return canvas.lines()
