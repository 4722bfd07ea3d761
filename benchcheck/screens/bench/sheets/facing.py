"""Which way a part lies: two sections as it lies now, in an order that varies, named by what one sees."""

from __future__ import annotations

from benchcheck.screens.bench.part_picture import picture_of
from benchcheck.screens.bench.sheets.plain import (
    as_sentence,
    begun,
    beside_verb,
    choice_sheet,
    enter_words,
    notes,
    pointing_hint,
)
from benchcheck.screens.bench.view import View
from benchcheck.screens.content import literal
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.facing import LEAST_HEIGHT, draw_facing
from benchcheck.session.prompt import FacingPicture

_TALLEST = 22
_MARGIN = 2


def sheet(view: View) -> Sheet:
    """The two pictures with their answers; in words alone where they have no room."""
    prompt = view.prompt
    picture = prompt.picture
    assert isinstance(picture, FacingPicture)
    work = begun(view)
    left = work.verb(prompt.verb, beside_verb(view))
    if work.roomy:
        for text in left:
            work.sentence(text)
        work.gap()
    else:
        work.row -= 1
    work.sentence(as_sentence(prompt.ask))
    for note in notes(prompt):
        work.sentence(as_sentence(note))
    work.said()
    if work.roomy:
        work.gap()
    part = picture_of(view.state, picture.part)
    answers = tuple(view.words(each.words) for each in prompt.choices)
    drawing = None
    if len(picture.ends) == 2 and len(answers) == 3 and work.rows_left >= LEAST_HEIGHT:
        ends = (literal(picture.ends[0]), literal(picture.ends[1]))
        drawing = draw_facing(
            part,
            ends,
            view.pointed_at,
            work.width - 2 * _MARGIN,
            min(work.rows_left, _TALLEST),
            up_word="toward you" if view.state.pump.procedure.procedure.lies else "up",
            answers=answers,
        )
    if drawing is None:
        return choice_sheet(view)
    work.draw(work.row, _MARGIN, drawing)
    return Sheet(work.lines(), enter_words(view), pointing_hint(view))
