"""Lines found by typing, with a mark that is moved; only those that have room are ever drawn."""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.screens.keys import turned
from benchcheck.screens.layout import Work
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import LABEL_END, TEXT_START
from benchcheck.screens.widgets.cells import Run, width_of

MARK = Run("►", Tone.NOW)
_FIELD_CELLS = 20


def write_field(work: Work, row: int, text: str, place: str) -> None:
    """The field that finds, with what stands in it, and at the right where in the list the mark is."""
    shown = work.view.words(text)
    work.canvas.put(row, LABEL_END - len("find"), "find", Tone.QUIET)
    work.canvas.put(row, TEXT_START, shown, Tone.NOW)
    work.canvas.put(row, TEXT_START + width_of(shown), "▁" * max(_FIELD_CELLS - width_of(shown), 1))
    work.canvas.put(row, work.width - width_of(place) - 1, place, Tone.QUIET)


class Finder:
    """A choice among many lines: those that hold every word typed, in any order and any case."""

    def __init__(self, texts: Sequence[str]) -> None:
        self._texts = [text.casefold() for text in texts]
        self.found: Sequence[int] = range(len(texts))
        """Places of the lines that are found, in their order."""
        self._typed = ""
        self._at = 0
        self._first = 0

    @property
    def marked(self) -> int | None:
        """Place of the line with the mark; None where nothing is found."""
        return self.found[self._at] if self.found else None

    @property
    def place(self) -> str:
        """Where the mark is, in words."""
        return f"{self._at + 1} of {len(self.found)}" if self.found else "none"

    def type(self, typed: str) -> None:
        """Find what holds these words; the mark goes to the first of it."""
        if typed == self._typed:
            return
        words = typed.casefold().split()
        narrower = typed.startswith(self._typed) and " " not in typed
        among = self.found if narrower else range(len(self._texts))
        self.found = [at for at in among if all(word in self._texts[at] for word in words)]
        self._typed, self._at, self._first = typed, 0, 0

    def move(self, lines: int) -> None:
        """Move the mark by so many lines, as far as there are any."""
        self._at = max(0, min(self._at + lines, len(self.found) - 1))

    def turn(self, key: str, rows: int) -> None:
        """Turn by so many rows or to an end; the mark keeps its row, as far as there are lines."""
        before = self._at
        self._at = turned(before, key, max(len(self.found) - 1, 0), rows)
        self._first += self._at - before

    def shown(self, rows: int) -> Sequence[int]:
        """Places of the lines that have room, the marked one among them."""
        self._first = max(0, min(self._first, self._at, len(self.found) - rows), self._at - rows + 1)
        return self.found[self._first : self._first + rows]
