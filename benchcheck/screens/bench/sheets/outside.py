"""A reading outside its limits: the number, where it lies, and what may become of it."""

from __future__ import annotations

import re

from benchcheck.screens.bench.prompts import shown_choices
from benchcheck.screens.bench.sheets.measure import gauge
from benchcheck.screens.bench.sheets.plain import as_sentence, begun, enter_words, pointing_hint
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.big_type import NUMBER_ROWS
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.session.engine import next_act
from benchcheck.session.prompt import GaugePicture

_READING = re.compile(r"(-?\d+(?:\.\d+)?) ?([^\d]*)$")


def sheet(view: View) -> Sheet:
    """What stands outside, the limits, and the choices."""
    prompt, state = view.prompt, view.state
    work = begun(view)
    work.verb(prompt.verb, [as_sentence(prompt.ask)])
    found = _READING.search(state.outside)
    texts = [each.words for each in shown_choices(prompt, view.page)]
    if found and work.rows_left >= NUMBER_ROWS + len(texts) + 5:
        work.number(found[1], [found[2].strip(), "", state.outside[: found.start()].strip(" :,=")])
    else:
        work.labelled("reads", state.outside)
    drawing = _scale(view, float(found[1]), min(work.width - 24, 70)) if found else None
    if drawing is not None and work.rows_left >= len(texts) + len(drawing):
        work.draw(work.row, 10, drawing)
        work.row += len(drawing)
    if prompt.good and work.rows_left > len(texts):
        work.labelled("good", prompt.good)
    work.said()
    work.gap(len(texts))
    work.choices(texts)
    if work.rows_left:
        work.labelled("or", "F6 goes back to a thing that is at fault, and it is done anew.")
    return Sheet(work.lines(), enter_words(view), pointing_hint(view))


def _scale(view: View, value: float, width: int) -> Drawing | None:
    act = next_act(view.state)
    if act is None or act.verb.value != "ask":
        return None
    question, unit = act.question, act.question.read_in
    picture = GaugePicture(
        question.min.to(unit) if question.min else None,
        question.max.to(unit) if question.max else None,
        (question.as_new[0].to(unit), question.as_new[1].to(unit)) if question.as_new else None,
        unit,
    )
    return gauge(picture, value, width)
