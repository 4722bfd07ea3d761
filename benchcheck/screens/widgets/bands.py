"""The five bands of a sheet: two sentences, a ruler, the work, and what Enter and Esc will do.

They lie on the same rows of every screen. The sentences shorten by whole clauses when the window is narrow;
no clause is ever cut inside a word.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import (
    Canvas,
    Drawing,
    Line,
    Run,
    line_width,
    shorten_in_the_middle,
    width_of,
    wrap,
)
from benchcheck.screens.widgets.ruler import draw_rule

ROWS_ABOVE, ROWS_BELOW = 3, 3
MARGIN = 2
LABEL_END = 8
TEXT_START = 10


@dataclass(frozen=True)
class Clause:
    """A piece of a status sentence in one or more forms, the longest first.

    `drop_rank` orders what goes first when room is short (the lowest); None is never dropped. What is not as
    usual is `loud` and stands in capitals.
    """

    forms: tuple[str, ...]
    drop_rank: int | None = None
    loud: bool = False


Sentence = tuple[Clause, ...]


@dataclass(frozen=True)
class Bands:
    """A whole sheet before it is set. `keys` is the last row as the keys give it."""

    first: Sequence[Sentence]
    second: Sequence[Sentence]
    ruler: Line | None
    work: Drawing
    enter: str
    keys: Line


def set_bands(bands: Bands, width: int, height: int) -> Drawing:
    """The sheet as exactly `height` lines of `width` cells."""
    rule = draw_rule(width)
    enter = " " * MARGIN + "Enter".ljust(TEXT_START - MARGIN)
    lines = [
        (Run(status(bands.first, width)),),
        (Run(status(bands.second, width)),),
        bands.ruler if bands.ruler is not None else rule,
        *bands.work[: work_height(height)],
        *([()] * (work_height(height) - len(bands.work))),
        rule,
        (Run(enter + shorten_in_the_middle(bands.enter, width - TEXT_START)),),
        bands.keys,
    ]
    return tuple(_as_wide(line, width) for line in lines[:height])


def _as_wide(line: Line, width: int) -> Line:
    """The line as wide as the sheet: filled up, or cut at its edge."""
    missing = width - line_width(line)
    if missing == 0:
        return line
    if missing > 0:
        return (*line, Run(" " * missing))
    canvas = Canvas(width, 1)
    canvas.put_line(0, 0, line)
    return canvas.lines()[0]


def work_height(height: int) -> int:
    """Rows that are left for the work."""
    return max(height - ROWS_ABOVE - ROWS_BELOW, 0)


def status(sentences: Sequence[Sentence], width: int) -> str:
    """Sentences in one line: each clause a form shorter in turn, from the end; then clauses go by rank."""
    forms = [[0] * len(sentence) for sentence in sentences]
    places = [(row, index) for row, sentence in enumerate(sentences) for index in range(len(sentence))]

    def text() -> str:
        return _joined(sentences, forms)

    most_forms = max((len(sentences[row][index].forms) for row, index in places), default=0)
    for form in range(1, most_forms):
        for row, index in reversed(places):
            if width_of(text()) > width and form < len(sentences[row][index].forms):
                forms[row][index] = form
    droppable = [
        (rank, row, index) for row, index in places if (rank := sentences[row][index].drop_rank) is not None
    ]
    for _, row, index in sorted(droppable):
        if width_of(text()) <= width:
            break
        forms[row][index] = -1
    return shorten_in_the_middle(text(), width)


def _joined(sentences: Sequence[Sentence], forms: Sequence[Sequence[int]]) -> str:
    """Clauses joined by commas, sentences by a full stop and two blanks; a form of -1 is left out."""
    spoken = []
    for sentence, chosen in zip(sentences, forms, strict=True):
        words = [
            clause.forms[form].upper() if clause.loud else clause.forms[form]
            for clause, form in zip(sentence, chosen, strict=True)
            if form >= 0
        ]
        if words:
            spoken.append(", ".join(words).removesuffix("."))
    return ".  ".join(spoken) + ("." if spoken else "")


def labelled_lines(lines: Sequence[tuple[str, str]], width: int) -> Drawing:
    """Lines of a small quiet label and its text; an empty label carries on the one before."""
    canvas = Canvas(width, len(lines))
    for row, (label, text) in enumerate(lines):
        canvas.put(row, LABEL_END - width_of(label), label, Tone.QUIET)
        canvas.put(row, TEXT_START, shorten_in_the_middle(text, width - TEXT_START))
    return canvas.lines()


def too_small(pump_and_place: str, width: int, height: int, least: tuple[int, int]) -> Drawing:
    """What a window shows that is too small to work in: which pump, what is needed, that no key answers."""
    words = (
        f"This window has {width} x {height}; {least[0]} x {least[1]} is the least.  "
        "Make it larger, or the type smaller.  No key is an answer until then."
    )
    canvas = Canvas(width, height)
    canvas.put(0, 0, shorten_in_the_middle(pump_and_place, width))
    title = Run("TOO SMALL TO WORK SAFELY", Tone.WRONG)
    if height >= 8 and width >= 28:
        canvas.put_line(2, MARGIN, (title,))
        rows, start = wrap(words, width - MARGIN), 4
    else:
        canvas.put_line(1, 0, (title,))
        rows, start = wrap(words, max(width, 1)), 2
    for offset, row in enumerate(rows):
        canvas.put(start + offset, MARGIN if start == 4 else 0, row)
    return canvas.lines()
