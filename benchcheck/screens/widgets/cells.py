"""A sheet of cells to draw on, and the lines it gives.

A line is a tuple of runs; a run is text with one tone. Widths are counted in terminal cells, not in letters:
a wide letter takes two, a combining mark none. Drawings put text at rows and columns; what a tone looks like,
and what becomes of it in ASCII, is decided elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from rich.cells import cell_len

from benchcheck.screens.tones import Tone


class Run(NamedTuple):
    """Letters that share one tone."""

    text: str
    tone: Tone = Tone.INK


Line = tuple[Run, ...]

Drawing = tuple[Line, ...]

_FILLED_BY_THE_CELL_BEFORE = ""

_WORDS = re.compile("[^ ]* +|[^ ]+")
"""Words, each with the blanks that follow it; blanks at the beginning are one of their own."""


def width_of(text: str) -> int:
    """Width of a text in terminal cells."""
    return len(text) if text.isascii() else cell_len(text)


@lru_cache(maxsize=4096)
def clusters(text: str) -> tuple[str, ...]:
    """The text cut where a terminal may move on by a cell: marks and joined letters stay with their base."""
    if text.isascii():
        return tuple(text)
    parts: list[str] = []
    for letter in text:
        if parts and (
            cell_len(letter) == 0
            or (cell_len(parts[-1] + letter) == cell_len(parts[-1]) and len(parts[-1]) > 1)
        ):
            parts[-1] += letter
        else:
            parts.append(letter)
    return tuple(parts)


def plain_text(line: Line) -> str:
    """The letters of a line without their tones."""
    return "".join(run.text for run in line)


def line_width(line: Line) -> int:
    """Width of a line in terminal cells."""
    return sum(width_of(run.text) for run in line)


def cut(text: str, width: int) -> str:
    """The beginning of a text that fits into `width` cells, whole letters only."""
    kept: list[str] = []
    used = 0
    for cluster in clusters(text):
        used += width_of(cluster)
        if used > width:
            break
        kept.append(cluster)
    return "".join(kept)


def shorten_in_the_middle(text: str, width: int) -> str:
    """A name shortened to `width` cells so that its beginning and its end can still be told apart."""
    if width_of(text) <= width:
        return text
    if width < 5:
        return cut(text, width)
    tail_width = (width - 1) // 2
    tail = "".join(reversed(clusters(text)))
    end = "".join(reversed(clusters(cut(tail, tail_width))))
    return cut(text, width - 1 - width_of(end)) + "…" + end


def wrap(text: str, width: int) -> tuple[str, ...]:
    """A text in lines of at most `width` cells, broken at blanks; a longer word is broken where it must be.

    Two blanks after a full stop stay as they are inside a line.
    """
    if width_of(text) <= width and "\n" not in text:
        return (text.rstrip(" "),)
    lines: list[str] = []
    current = ""
    for paragraph in text.split("\n"):
        for word in _WORDS.findall(paragraph):
            if current and width_of(current + word.rstrip(" ")) <= width:
                current += word
                continue
            if current:
                lines.append(current.rstrip(" "))
            current = word.lstrip(" ") if lines or current else word
            while width_of(current.rstrip(" ")) > width:
                head = cut(current, width) or clusters(current)[0]
                lines.append(head)
                current = current[len(head) :]
        lines.append(current.rstrip(" "))
        current = ""
    return tuple(lines)


class Canvas:
    """A sheet of `width` by `height` blank cells; text outside it is cut off at the edge."""

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.height = height
        self._letters = [[" "] * width for _ in range(height)]
        self._tones = [[Tone.INK] * width for _ in range(height)]

    def put(self, row: int, column: int, text: str, tone: Tone = Tone.INK) -> None:
        """Write a text from a cell on; a wide letter that only half fits is left out."""
        if not 0 <= row < self.height or not text:
            return
        parts = clusters(text)
        if len(parts) == width_of(text) and width_of(parts[0]) == 1:  # then each of them is one cell
            self._put_narrow(row, column, parts, tone)
            return
        for cluster in parts:
            cells = width_of(cluster)
            if cells and column >= 0 and column + cells <= self.width:
                self._clear(row, column, cells)
                self._letters[row][column] = cluster
                for offset in range(cells):
                    self._tones[row][column + offset] = tone
                    if offset:
                        self._letters[row][column + offset] = _FILLED_BY_THE_CELL_BEFORE
            column += cells

    def _put_narrow(self, row: int, column: int, letters: Sequence[str], tone: Tone) -> None:
        """Write letters of one cell each, all at once."""
        start, stop = max(column, 0), min(column + len(letters), self.width)
        if start >= stop:
            return
        self._clear(row, start, stop - start)
        self._letters[row][start:stop] = letters[start - column : stop - column]
        self._tones[row][start:stop] = [tone] * (stop - start)

    def put_line(self, row: int, column: int, line: Line) -> None:
        """Write a line, run by run."""
        for run in line:
            self.put(row, column, run.text, run.tone)
            column += width_of(run.text)

    def put_drawing(self, row: int, column: int, drawing: Sequence[Line]) -> None:
        """Write a drawing with its upper left cell at `row`, `column`."""
        for offset, line in enumerate(drawing):
            self.put_line(row + offset, column, line)

    def letter(self, row: int, column: int) -> str:
        """What stands in a cell; a blank outside the sheet."""
        if 0 <= row < self.height and 0 <= column < self.width:
            return self._letters[row][column]
        return " "

    def _clear(self, row: int, column: int, cells: int) -> None:
        """Blank what a new letter would leave half covered."""
        letters = self._letters[row]
        if letters[column] == _FILLED_BY_THE_CELL_BEFORE:
            letters[column - 1] = " "
        end = column + cells
        if end < self.width and letters[end] == _FILLED_BY_THE_CELL_BEFORE:
            letters[end] = " "

    def lines(self) -> Drawing:
        """The sheet as lines, each exactly as wide as the sheet."""
        return tuple(_runs(*row) for row in zip(self._letters, self._tones, strict=True))


def _runs(letters: Sequence[str], tones: Sequence[Tone]) -> Line:
    """Neighbouring cells of one tone become one run."""
    if not letters:
        return ()
    if tones.count(tones[0]) == len(tones):
        return (Run("".join(letters), tones[0]),)
    starts = [0, *(at for at, (one, other) in enumerate(pairwise(tones), 1) if one is not other), len(tones)]
    return tuple(Run("".join(letters[start:stop]), tones[start]) for start, stop in pairwise(starts))
