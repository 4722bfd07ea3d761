"""Where things stand in the work band: verb, number, labelled lines, choices, field, drawing.

Rows count from the top of the band. Everything here goes through `Hand.words`, so that a text of a file is
literal and, where ASCII is wanted, spelled out.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchcheck.screens.ascii import spelled_out
from benchcheck.screens.content import literal
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import LABEL_END, MARGIN, TEXT_START, work_height
from benchcheck.screens.widgets.big_type import (
    NUMBER_ROWS,
    VERB_ROWS,
    draw_number,
    draw_verb,
    number_width,
)
from benchcheck.screens.widgets.cells import Canvas, Drawing, Line, Run, cut, line_width, width_of, wrap
from benchcheck.screens.widgets.signs import Sign

if TYPE_CHECKING:  # the model costs more than a first screen may
    from benchcheck.procedure.model import Caution

CHOICES_A_PAGE = 9
"""Digits that can point."""
DRAWING_START = 44
"""Column of the drawing in a window of 80 columns."""
LONGEST_LINE = 70
"""Letters in a line of the work band, at most: longer lines are lost on the way back to their beginning."""
_SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""Signal words, the gravest first."""
_LOUD_SIGNALS = _SIGNALS[:2]
_FIELD_CELLS = 8
_NUMBER_CELLS = 5
"""Of a choice's number between its signs."""


@dataclass(frozen=True)
class Size:
    """A window in cells."""

    width: int
    height: int

    @property
    def full(self) -> bool:
        """Whether there is room for a drawing."""
        return self.width >= 80 and self.height >= 24

    @property
    def large(self) -> bool:
        return self.width >= 110 and self.height >= 34


@dataclass(frozen=True, kw_only=True)
class Hand:
    """The window, and what the hand has done in it so far."""

    size: Size
    plain: bool = False
    text: str = ""
    """What stands in the field."""
    pointed_at: int | None = None
    """The digit pointed with, on this page of the choices."""
    page: int = 0
    """Page of the choices."""
    said: str = ""
    """Why the last thing typed was not taken."""
    told: str = ""
    """What came of the last deed, where the sheet does not show it by itself."""

    def words(self, text: str) -> str:
        """A text of a file or a person as it may be drawn here."""
        return spelled_out(literal(text)) if self.plain else literal(text)


@dataclass(frozen=True)
class Sheet:
    """The changing half of a sheet: the work band, and what Enter will do, with a hint for the last row."""

    work: Drawing
    enter: str
    hint: str = ""


def _signal_word(caution: Caution) -> str:
    return f"! {caution.signal.value} !"


def _tone(caution: Caution) -> Tone:
    return Tone.WRONG if caution.signal.value in _LOUD_SIGNALS else Tone.INK


def _whole_sentences(text: str, cells: int) -> str:
    """As many sentences of a text as have room, or as much of the first."""
    shown = ""
    for sentence in text.split(". "):
        longer = f"{shown} {sentence.rstrip('.')}.".strip()
        if width_of(longer) > cells:
            break
        shown = longer
    return shown or wrap(text, cells - 1)[0] + "…"


class Work:
    """The work band while it is being written."""

    def __init__(self, view: Hand) -> None:
        self.view = view
        self.width = view.size.width
        self.height = work_height(view.size.height)
        self.canvas = Canvas(self.width, self.height)
        self.verb_row = 2 if self.height >= 28 else 1 if self.height >= 14 else 0
        self.verb_end = MARGIN
        self.row = self.verb_row + VERB_ROWS + (1 if self.height >= 14 else 0)
        """The first row below the verb that is free."""
        self._unread = (0, "")
        """Column and blanks of what says over the verb that there is more to read of the cautions."""

    @property
    def drawing_start(self) -> int:
        """Column at which a drawing beside the text begins."""
        return self.width * DRAWING_START // 80 if self.view.size.full else self.width

    @property
    def rows_left(self) -> int:
        return self.height - self.row

    @property
    def roomy(self) -> bool:
        """Whether lines may stand apart."""
        return self.height >= 28

    def lines(self) -> Drawing:
        return self.canvas.lines()

    # --- the verb and the number --------------------------------------------------------------------------

    def verb(self, words: str, beside: Sequence[str] = (), until: int | None = None) -> list[str]:
        """Draw the verb, with sentences to its right; those that have no room there are handed back."""
        end = self.width if until is None else until
        drawing = draw_verb(self.view.words(words), end - MARGIN, plain=self.view.plain)
        self.canvas.put_drawing(self.verb_row, MARGIN, drawing)
        self.verb_end = MARGIN + max(map(line_width, drawing))
        column = max(self.verb_end + 3, 26)
        room = min(end - column, LONGEST_LINE)
        if room < 24:
            return list(beside)
        row, left = self.verb_row, list(beside)
        while left:
            lines = wrap(self.view.words(left[0]), room)
            if row + len(lines) > self.verb_row + VERB_ROWS:
                break
            for line in lines:
                self.canvas.put(row, column, line)
                row += 1
            del left[0]
        return left

    def number(self, figure: str, beside: Sequence[str]) -> None:
        """The one number, five rows, with unit and words beside it."""
        self.canvas.put_drawing(self.row, MARGIN, draw_number(figure))
        column = MARGIN + number_width(figure) + 3
        end = self.drawing_start if self.view.size.full else self.width
        lines: list[str] = []
        for text in beside:
            lines += wrap(self.view.words(text), max(end - column - 1, 8)) if text else [""]
        start = self.row + max(0, (NUMBER_ROWS - len(lines)) // 2)
        for offset, line in enumerate(lines[:NUMBER_ROWS]):
            self.canvas.put(start + offset, column, line)
        self.row += NUMBER_ROWS + 1

    # --- cautions -----------------------------------------------------------------------------------------

    def cautions(self, cautions: Sequence[Caution]) -> None:
        """What can hurt here, each whole and labelled by its signal word; the rest stays behind a key.

        Where all have room, nothing over the verb has to say any more that there is more to read.
        """
        for at, caution in enumerate(cautions):
            column = MARGIN + width_of(_signal_word(caution)) + 2
            lines = wrap(self.view.words(caution.text), min(self.width - column - 1, LONGEST_LINE))
            if len(lines) > self.rows_left:
                return
            self.canvas.put(self.row, MARGIN, _signal_word(caution), _tone(caution))
            for line in lines:
                self.canvas.put(self.row, column, line)
                self.row += 1
            if at == len(cautions) - 1:
                self.canvas.put(self.verb_row - 1, *self._unread)

    def caution_line(self, cautions: Sequence[Caution], key: str, until: int | None = None) -> None:
        """The gravest caution in the row over the verb, and by which key the rest of them is read.

        It shows as many of its whole sentences as have room. No caution is left out without a word.
        """
        if not cautions:
            return
        if self.verb_row == 0:
            self.verb_row, self.row = 1, self.row + 1
        end = self.width if until is None else until
        caution = min(cautions, key=lambda each: _SIGNALS.index(each.signal.value))
        column = MARGIN + width_of(_signal_word(caution)) + 2
        text, others = self.view.words(caution.text), len(cautions) - 1
        more = f"{others} more: {key}" if others else f"more: {key}"
        if others or width_of(text) > end - column - 1:
            start = end - width_of(more) - 1
            self.canvas.put(self.verb_row - 1, start, more)
            self._unread = (start, " " * width_of(more))
            end = start - 1
        self.canvas.put(self.verb_row - 1, MARGIN, _signal_word(caution), _tone(caution))
        self.canvas.put(self.verb_row - 1, column, _whole_sentences(text, end - column - 1))

    # --- lines --------------------------------------------------------------------------------------------

    def sentence(self, text: str, until: int | None = None, column: int = MARGIN) -> None:
        """A sentence from the margin on, wrapped."""
        end = self.width if until is None else until
        for line in self._that_fit(text, min(end - column - 1, LONGEST_LINE + 6)):
            self.canvas.put(self.row, column, line)
            self.row += 1

    def labelled(self, label: str, text: str, until: int | None = None) -> None:
        """A small label, and its text wrapped beside it."""
        end = self.width if until is None else until
        for number, line in enumerate(self._that_fit(text, min(end - TEXT_START - 1, LONGEST_LINE))):
            if number == 0:
                self.label(label)
            self.canvas.put(self.row, TEXT_START, line)
            self.row += 1

    def _that_fit(self, text: str, cells: int, most_rows: int | None = None) -> Sequence[str]:
        """A text in lines, as many as there are rows for; an ellipsis where there is more to read."""
        lines = wrap(self.view.words(text), cells)
        left = max(0, self.height - self.row)
        room = left if most_rows is None else min(left, most_rows)
        if len(lines) <= room or not room:
            return lines[:room]
        return (*lines[: room - 1], cut(lines[room - 1], cells - 1) + "…")

    def label(self, label: str) -> None:
        self.canvas.put(self.row, LABEL_END - width_of(label), label, Tone.QUIET)

    def all_labelled(self, lines: Iterable[tuple[str, str]], until: int | None = None) -> None:
        for label, text in lines:
            self.labelled(label, text, until)

    def gap(self, least_left: int = 0) -> None:
        """A blank row, where more than `least_left` rows stay free below it."""
        if self.rows_left - 1 >= least_left:
            self.row += 1

    # --- what is answered ---------------------------------------------------------------------------------

    def field(
        self,
        label: str,
        unit: str = "",
        after: str = "",
        cells: int = _FIELD_CELLS,
        until: int | None = None,
    ) -> None:
        """The field with what stands in it; below it, what there is to say about the last thing typed."""
        self.label(label)
        self.canvas.put_line(self.row, TEXT_START, self._field_line(unit, after, cells))
        self.row += 1
        self.said(until)

    def _field_line(self, unit: str, after: str, cells: int) -> Line:
        text = self.view.words(self.view.text)
        empty = "▁" * max(cells - width_of(text), 1)
        tail = f" {self.view.words(unit)}" if unit else ""
        tail += f"   {self.view.words(after)}" if after else ""
        return (Run(text, Tone.NOW), Run(empty + tail))

    def said(self, until: int | None = None, most_rows: int | None = None) -> None:
        """Why the last thing typed was not taken, or what came of it, in the place where the eye is."""
        end = self.width if until is None else until
        sign, tone = ("! ", Tone.WRONG) if self.view.said else ("═ ", Tone.INK)
        text = self.view.said or self.view.told
        if not text:
            return
        for number, line in enumerate(
            self._that_fit(text, min(end - TEXT_START - 3, LONGEST_LINE), most_rows)
        ):
            if number == 0:
                self.canvas.put(self.row, TEXT_START - 3, sign, tone)
            self.canvas.put(self.row, TEXT_START, line)
            self.row += 1

    def choice(
        self,
        number: int,
        text: str,
        until: int | None = None,
        column: int = MARGIN,
        most_rows: int | None = None,
    ) -> None:
        """One answer to point at."""
        sign = Sign.NOW if number == self.view.pointed_at else Sign.TO_COME
        run = sign.around(f" {number} ")
        start = column + width_of(run.text) + 2
        for offset, line in enumerate(self._that_fit(text, self._choice_room(until, column), most_rows)):
            if offset == 0:
                self.canvas.put(self.row, column, run.text, run.tone)
            self.canvas.put(self.row, start, line)
            self.row += 1

    def choices(self, texts: Sequence[str], until: int | None = None, keep: int = 0) -> None:
        """All answers of a page, set apart by blank rows where `keep` rows still stay free.

        Where their words have no room, each has one row: what can be pointed at has to be seen.
        """
        room = self._choice_room(until)
        rows = sum(len(wrap(self.view.words(text), room)) for text in texts)
        apart = self.rows_left - keep >= rows + len(texts)
        most_rows = None if rows <= self.rows_left else 1
        for number, text in enumerate(texts, 1):
            self.choice(number, text, until, most_rows=most_rows)
            if apart:
                self.row += 1

    def _choice_room(self, until: int | None, column: int = MARGIN) -> int:
        """Cells for the words of a choice, behind its number between its signs."""
        end = self.width if until is None else until
        return min(end - (column + _NUMBER_CELLS + 2) - 1, LONGEST_LINE)

    # --- the drawing --------------------------------------------------------------------------------------

    def draw(self, row: int, column: int, drawing: Drawing | None) -> None:
        if drawing is not None:
            self.canvas.put_drawing(row, column, drawing)
