"""A number that is read off a gauge, a micrometer, or by counting, with its limits on a line."""

from __future__ import annotations

from benchcheck.screens.bench.sheets.plain import as_sentence, begun, beside_verb, notes
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.screens.widgets.scale import Limit, Zones, draw_zones
from benchcheck.session.prompt import GaugePicture

_SCALE_CELLS = 60
_SCALE_ROWS = 4


def sheet(view: View) -> Sheet:
    """What, with what, the field, the limits in words and on a line."""
    prompt = view.prompt
    work = begun(view)
    with_ = [text for text in prompt.do if text.casefold().startswith("with ")]
    do = [text for text in beside_verb(view) if text not in with_]
    for text in work.verb(prompt.verb, do):
        work.labelled("do", text)
    work.gap(8)
    work.labelled("what", as_sentence(prompt.ask))
    for text in with_:
        work.labelled("with", text[5:].rstrip("."))
    work.gap(6)
    counting = prompt.verb == "COUNT"
    work.field("count" if counting else "reads", prompt.unit, f"good: {prompt.good}" if prompt.good else "")
    work.gap(4)
    for note in notes(prompt):
        work.labelled("note", note)
    picture = prompt.picture
    if isinstance(picture, GaugePicture) and view.size.width >= _SCALE_CELLS + 12:
        drawing = gauge(picture, None, _SCALE_CELLS)
        if drawing is not None and work.rows_left > len(drawing):
            work.gap(_SCALE_ROWS + 1)
            work.draw(work.row, 10, drawing)
            work.row += len(drawing)
    if prompt.cautions and work.rows_left > 3:
        work.gap(2)
        work.cautions(prompt.cautions)
    enter = f"nothing yet: type the {'count' if counting else 'reading'}"
    if typed := view.text.strip():
        enter = view.words(f"{prompt.enter}: {with_unit(typed, prompt.unit)}")
    return Sheet(work.lines(), enter)


def with_unit(typed: str, unit: str) -> str:
    """A figure as it will be read: in the unit that was asked for, unless another was typed with it."""
    return typed if not unit or any(map(str.isalpha, typed)) else f"{typed} {unit}"


def gauge(picture: GaugePicture, value: float | None, width: int) -> Drawing | None:
    """The limits on a line: as new, worn but good, and beyond; None without two different limits or one."""
    new, high = picture.as_new, picture.high
    if new is not None and high is not None and new[0] < new[1] < high:
        if new[0] <= 0:
            return _zones([new[1], high], ["as new", "worn, may stay", "replace"], 0, 1, value, width)
        return _zones([*new, high], ["", "as new", "worn, may stay", "replace"], 1, 2, value, width)
    low_limit = picture.low if picture.low else None
    if low_limit is not None and picture.high is not None and low_limit < picture.high:
        return _zones([low_limit, picture.high], ["too little", "good", "too much"], 1, None, value, width)
    if picture.high is not None:
        return _zones([picture.high], ["good", "too much"], 0, None, value, width)
    if low_limit is not None:
        return _zones([low_limit], ["too little", "good"], 1, None, value, width)
    return None


def _zones(
    limits: list[float], names: list[str], good: int, reject: int | None, value: float | None, width: int
) -> Drawing:
    told = Zones(tuple(Limit(each, f"{each:g}") for each in limits), tuple(names), good, reject)
    drawing = draw_zones(told, value, width)
    return drawing if value is not None else drawing[1:]
