"""The question which way a part lies: two sections of one size, told apart by what one sees.

Neither picture is called right. In which order they stand is handed in, so that it can vary.
"""

from __future__ import annotations

from collections.abc import Sequence

from benchcheck.screens.widgets.cells import Canvas, Drawing, width_of, wrap
from benchcheck.screens.widgets.section import Part, draw_section
from benchcheck.screens.widgets.shapes import Kind
from benchcheck.screens.widgets.signs import Sign

LEAST_WIDTH, LEAST_HEIGHT = 74, 12
_LABEL_CELLS = 4


def words_seen(part: Part, end_up: str) -> str:
    """What somebody sees who looks at the part with this end toward him."""
    if part.kind is Kind.CARTRIDGE:
        return f"you look into the {end_up.removesuffix(' end')}"
    return f"you see the {end_up}"


def draw_facing(
    part: Part,
    ends_up: tuple[str, str],
    pointed_at: int | None,
    width: int,
    height: int,
    up_word: str = "up",
    answers: Sequence[str] = (),
) -> Drawing | None:
    """Two pictures, the first with the first of `ends_up` up, and the answers 1 to 3 below them.

    `answers` are the words below the two pictures and the third one, where they are not the usual ones.
    None where the room is too small to tell the pictures apart: no answer may be taken then.
    """
    if width < LEAST_WIDTH or height < LEAST_HEIGHT:
        return None
    half = width // 2
    words = answers or (*(words_seen(part, end) for end in ends_up), "neither of these")
    below = _answers(words, half)
    picture_height = height - 1 - len(below)
    canvas = Canvas(width, height)
    for index, end_up in enumerate(ends_up):
        canvas.put_drawing(0, index * half, draw_section(part, end_up, half - 2, picture_height, up_word))
    for row, each in enumerate(below):
        for number, column, text in each:
            sign = Sign.NOW if number == pointed_at else Sign.TO_COME
            if number:
                run = sign.around(str(number))
                canvas.put(picture_height + 1 + row, column, run.text, run.tone)
            canvas.put(picture_height + 1 + row, column + _LABEL_CELLS, text)
    return canvas.lines()


def _answers(words: Sequence[str], half: int) -> list[list[tuple[int, int, str]]]:
    """Rows of (number, 0 where a line goes on; column; words): two answers side by side, the third below."""
    sides = [wrap(text, half - _LABEL_CELLS - 2) for text in words[:2]]
    rows: list[list[tuple[int, int, str]]] = []
    for line in range(max(map(len, sides))):
        rows.append(
            [
                (side + 1 if line == 0 else 0, side * half + 1, lines[line])
                for side, lines in enumerate(sides)
                if line < len(lines)
            ]
        )
    rows.append([(3, 1, words[2])])
    assert all(width_of(text) <= half for row in rows for _, _, text in row)
    return rows
