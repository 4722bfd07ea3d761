"""What lies on top at the place a part will cover: answered from the pump, so the picture does not tell."""

from __future__ import annotations

from benchcheck.screens.bench.prompts import shown_choices
from benchcheck.screens.bench.sheets.plain import (
    as_sentence,
    begun,
    beside_verb,
    enter_words,
    pointing_hint,
)
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.cells import Canvas, Drawing, shorten_in_the_middle, width_of
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.prompt import StackPicture

_HEIGHT = 10
_ASKED = "what lies here?"


def sheet(view: View) -> Sheet:
    """The choices on the left, the place with what comes over it on the right."""
    prompt = view.prompt
    picture = prompt.picture
    assert isinstance(picture, StackPicture)
    work = begun(view)
    left = work.verb(prompt.verb, beside_verb(view))
    end = work.drawing_start if view.size.full else work.width
    texts = [each.words for each in shown_choices(prompt, view.page)]
    work.sentence(as_sentence(prompt.ask))
    work.said()
    work.gap(len(texts) + len(left))
    top = work.row
    work.choices(texts, end, keep=len(left))
    for text in left:
        work.labelled("then", text, end)
    if view.size.full:
        work.draw(top, end + 1, _place(view, picture, work.width - end - 2))
    return Sheet(work.lines(), enter_words(view), pointing_hint(view))


def _place(view: View, picture: StackPicture, width: int) -> Drawing:
    """The part that comes, and below it the place, open."""
    canvas = Canvas(width, _HEIGHT)
    name = view.words(view.state.pump.called(picture.coming))
    coming = Sign.NOW.around(shorten_in_the_middle(name, width - 4))
    inner = max(width_of(coming.text), 22)
    left = max((width - inner - 4) // 2, 0)
    middle = left + 2 + inner // 2
    seen_from = view.words(f"from the {picture.end}")
    canvas.put(
        0, max(middle - width_of(seen_from) // 2, 0), shorten_in_the_middle(seen_from, width), Tone.QUIET
    )
    canvas.put(1, middle - width_of(coming.text) // 2, coming.text, coming.tone)
    canvas.put(2, middle, "▼")
    for row in (4, 5):
        canvas.put(row, left, "│" + " " * (inner + 2) + "│")
    canvas.put(5, middle - width_of(_ASKED) // 2, _ASKED)
    for row in (6, 7, 8):
        canvas.put(row, left, "│" + "▒" * (inner + 2) + "│")
    canvas.put(9, left, "└" + "─" * (inner + 2) + "┘")
    return canvas.lines()
