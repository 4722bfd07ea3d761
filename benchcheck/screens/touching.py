"""What a touch or a click stands for: the key that is written where it falls.

A line of a choice stands for its digit, which points and never answers. In a list with a mark, a line stands
for the arrows that bring the mark there. The row of Enter is Enter, and each key of the last row is itself.
Any other place stands for nothing.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from benchcheck.screens.keys import KEYS
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import ROWS_ABOVE, ROWS_BELOW
from benchcheck.screens.widgets.cells import Line, clusters, plain_text, width_of
from benchcheck.screens.widgets.signs import Sign

_NOW = Sign.NOW
_CHOICE = re.compile(
    rf"(?<![^ ])(?:[ {_NOW.left}] (?P<apart>[1-9]) [ {_NOW.right}]"
    rf"|[ {_NOW.left}](?P<close>[1-9])[ {_NOW.right}]) {{0,2}}(?=[^ ])"
)
"""A digit between the signs of what is to come or of what is now, and where its words begin."""
_MOST_ROWS = 3
"""Rows that the words of one choice take, at most."""
_NAMES = {key.label: key.names[0] for key in KEYS if key.names and " " not in key.label}
_NAMES["PgDn"] = "pagedown"
_LABEL = re.compile(rf"(?<![^ ])(?:{'|'.join(sorted(_NAMES, key=len, reverse=True))})(?![^ :])")


def keys_at(lines: Sequence[Line], row: int, column: int) -> tuple[str, ...]:
    """The keys, by the names that a terminal reports, that a touch of this cell of a sheet stands for."""
    if not 0 <= row < len(lines):
        return ()
    texts = [_cells(line) for line in lines]
    if row == len(lines) - 1:
        return _key_in(texts[row], column)
    if row == len(lines) - 2:
        return ("enter",) if column < len(texts[row].rstrip()) and texts[row].split()[:1] == ["Enter"] else ()
    if not ROWS_ABOVE <= row < len(lines) - ROWS_BELOW:
        return ()
    return _digit_at(texts, row, column) or _moves_to(lines, texts, row)


def _cells(line: Line) -> str:
    """The line with one letter a cell."""
    text = plain_text(line)
    if len(text) == width_of(text):
        return text
    return "".join(
        cluster[0].ljust(width_of(cluster), "_") for cluster in clusters(text) if width_of(cluster)
    )


def _key_in(text: str, column: int) -> tuple[str, ...]:
    """The key whose label or word is touched: a label's words go on to the next label."""
    if column >= len(text.rstrip()):
        return ()
    touched = [found for found in _LABEL.finditer(text) if found.start() <= column]
    return (_NAMES[touched[-1][0]],) if touched else ()


def _digit_at(texts: Sequence[str], row: int, column: int) -> tuple[str, ...]:
    """The digit of the choice in this row, or of the one whose words go on in it."""
    for above in range(_MOST_ROWS):
        at = row - above
        if at < ROWS_ABOVE or not texts[at].strip():
            return ()
        found = [each for each in _CHOICE.finditer(texts[at]) if each.start() <= column]
        if found:
            choice = found[-1]
            before, behind = texts[row][choice.start() : choice.end()], texts[row][choice.end() :]
            goes_on = column >= choice.end() and not before.strip() and behind.strip()
            return (choice["apart"] or choice["close"],) if above == 0 or goes_on else ()
    return ()


def _moves_to(lines: Sequence[Line], texts: Sequence[str], row: int) -> tuple[str, ...]:
    """The arrows that bring a mark at the left edge to this row, if there is one and no blank row between."""
    marked = next((at for at, line in enumerate(lines) if line and line[0] == (_NOW.left, Tone.NOW)), None)
    if marked is None:
        return ()
    between = texts[min(marked, row) : max(marked, row) + 1]
    if not all(text.strip() for text in between):
        return ()
    return ("down",) * (row - marked) or ("up",) * (marked - row)
