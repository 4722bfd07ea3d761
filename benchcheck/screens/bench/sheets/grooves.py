"""Grooves: which ring goes where, or what lies in a groove about to be hidden.

Asked what lies in a groove, the picture shows that groove open: it must not give the answer.
"""

from __future__ import annotations

from benchcheck.procedure.model import Groove as GrooveTold
from benchcheck.screens.bench.prompts import shown_choices
from benchcheck.screens.bench.sheets.plain import (
    as_sentence,
    begun,
    beside_verb,
    enter_words,
    field_label,
    notes,
    pointing_hint,
)
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.screens.widgets.groove import Closing, Groove, Opening, draw_grooves, list_grooves
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.prompt import Form, GroovePicture


def sheet(view: View) -> Sheet:
    """The question on the left, the grooves in section on the right."""
    prompt = view.prompt
    work = begun(view)
    end = work.drawing_start if view.size.full else work.width
    left = work.verb(prompt.verb, beside_verb(view))
    top = work.row
    if prompt.form is Form.WORDS:
        for text in left:
            work.labelled("then", text, end)
        work.gap(4)
        work.sentence(as_sentence(prompt.ask), end)
        work.gap(2)
        work.field(field_label(prompt), cells=12)
        for note in notes(prompt):
            work.gap(2)
            work.labelled("note", note, end)
        enter, hint = (
            view.words(prompt.enter) if view.text.strip() else "nothing yet: type size and rubber",
            "",
        )
    else:
        texts = [each.words for each in shown_choices(prompt, view.page)]
        work.sentence(as_sentence(prompt.ask), end)
        work.said()
        work.gap(len(texts))
        work.choices(texts, end, keep=len(left))
        for text in left:
            work.labelled("then", text, end)
        for note in notes(prompt):
            work.labelled("note", note, end)
        enter, hint = enter_words(view), pointing_hint(view)
    if view.size.full:
        work.draw(top, end, grooves_drawing(view, work.width - end, work.height - top))
    return Sheet(work.lines(), enter, hint)


def grooves_drawing(view: View, width: int, height: int) -> Drawing | None:
    """The grooves of the prompt's picture, drawn or, where there is no room, listed."""
    prompt = view.prompt
    picture = prompt.picture
    assert isinstance(picture, GroovePicture)
    asks_what_lies = prompt.form is Form.CHOICE
    pump = view.state.pump
    told = [pump.grooves[name] for name, _, _ in picture.grooves if name in pump.grooves]
    kinds = {opening(each) for each in told}
    asked = pump.grooves.get(picture.asked)
    if asked is None:
        return None
    if len(kinds) > 1 or len({each.in_ for each in told}) > 1:
        told = [each for each in told if each.in_ == asked.in_ and opening(each) is opening(asked)]
    filled = {name: size for name, _, size in picture.grooves}
    grooves = tuple(
        Groove(
            view.words(each.id),
            view.words(filled[each.id] or str(pump.value(each.takes))),
            filled=bool(filled[each.id]),
            sign=_sign(each.id, picture.asked, bool(filled[each.id])),
            unknown=asks_what_lies and each.id == picture.asked,
        )
        for each in told
    )
    cover = ", ".join(pump.called(part) for part in asked.closed_against if part in pump.parts)
    closing = Closing(
        view.words(pump.called(asked.in_)),
        view.words(cover),
        grooves,
        opening(asked),
        caption="",
    )
    return draw_grooves(closing, width, min(height, 13)) or list_grooves(grooves, width)


def _sign(name: str, asked: str, filled: bool) -> Sign:
    if name == asked:
        return Sign.NOW
    return Sign.DONE if filled else Sign.TO_COME


def opening(groove: GrooveTold) -> Opening:
    """Which way a groove is open, from what its file says of it."""
    if groove.face is not None:
        return Opening.FACE
    if groove.gland is not None and groove.gland.shaft is not None:
        return Opening.INWARD
    return Opening.OUTWARD
