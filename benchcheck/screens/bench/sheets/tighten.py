"""Tightening: the figure for this wrench, where the wrench goes now, and where it goes next."""

from __future__ import annotations

from benchcheck.screens.bench.prompts import POSITION_MARK, shown_choices
from benchcheck.screens.bench.sheets.plain import (
    as_sentence,
    begun,
    choice_words,
    enter_words,
    pointing_hint,
)
from benchcheck.screens.bench.sheets.ring import ring_drawing, rounds, seen_from_words, signs
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Work
from benchcheck.screens.widgets.cells import Drawing, wrap
from benchcheck.screens.widgets.order_strip import draw_order_strip, draw_rounds
from benchcheck.session.prompt import Form, RingPicture

_READING_CELLS = 6


def sheet(view: View) -> Sheet:
    """Number, limits and rounds on the left, the group as one stands before it on the right."""
    prompt = view.prompt
    picture = prompt.picture
    assert isinstance(picture, RingPicture)
    work = begun(view, beside_drawing=True)
    several = picture.count > 1
    work.verb(f"{prompt.verb} {picture.now}" if several else prompt.verb, until=work.drawing_start)
    top = max(work.verb_row - 1, 0)
    drawing, caption = _drawing(view, work, picture, top)
    end = work.drawing_start if drawing is not None else work.width
    if prompt.figure is not None:
        work.number(prompt.figure.text, [prompt.figure.unit, prompt.figure.how])
        work.row -= 0 if work.roomy else 1
        work.labelled("what", as_sentence(_what(view, picture)), end)
    else:
        work.sentence(as_sentence(prompt.ask), end)
        work.gap(6)
    if prompt.form is Form.CHOICE:
        work.said(end)
        work.choices([choice_words(each) for each in shown_choices(prompt, view.page)], end, keep=5)
        enter, hint = enter_words(view), pointing_hint(view)
    elif prompt.form is Form.NUMBER:
        word = "turned" if prompt.unit == "°" else "showed"
        good = f"good: {prompt.figure.good}" if prompt.figure else ""
        work.field(word, prompt.unit, good, cells=_READING_CELLS, until=end)
        enter, hint = _enter(view, picture), "← →  turn the picture" if drawing else ""
    else:
        if prompt.figure is not None:
            work.labelled("good", f"{prompt.figure.good} {prompt.unit}", end)
        if view.text:
            work.field("at", "is the position you mean", cells=3, until=end)
        else:
            work.said(end)
        enter, hint = _enter(view, picture), "← →  turn the picture" if drawing else ""
    _why_and_rounds(view, work, picture, end, drawing)
    if drawing is not None:
        work.draw(top, end + 1, drawing)
        for offset, line in enumerate(caption):
            work.canvas.put(work.height - len(caption) + offset, end + 2, line)
    return Sheet(work.lines(), enter, hint)


def _drawing(
    view: View, work: Work, picture: RingPicture, top: int
) -> tuple[Drawing | None, tuple[str, ...]]:
    """The ring with its caption, as large as the room beside the text allows."""
    if not view.size.full:
        return None, ()
    width = work.width - work.drawing_start - 1
    caption = wrap(seen_from_words(view, picture), width - 2) if seen_from_words(view, picture) else ()
    height = work.height - top - len(caption)
    return ring_drawing(view, picture, width, height), caption


def _why_and_rounds(view: View, work: Work, picture: RingPicture, end: int, drawing: Drawing | None) -> None:
    """Where the figure comes from, what else is done, and the rounds as far as there is room."""
    prompt = view.prompt
    table = rounds(view, picture)
    current = min(picture.round, len(table)) - 1
    lines = draw_rounds(table, max(current, 0), end) if picture.count > 1 else ()
    start = work.height - len(lines)
    for text in prompt.do:
        needed = len(wrap(view.words(text), max(min(end - 11, 70), 10)))
        if work.row + needed < start:
            work.labelled("do", text, end)
    if prompt.figure is not None and prompt.figure.why:
        for text in (prompt.figure.why, _screws(picture)):
            if text and work.row + len(wrap(view.words(text), end - 11)) < start:
                work.labelled("why" if text == prompt.figure.why else "screw", text, end)
    row = (
        max(work.row + (1 if work.row + 1 < start else 0), min(start, work.row + 2)) if work.roomy else start
    )
    work.draw(max(row, work.row), 0, lines)
    if drawing is None and picture.count > 1 and len(table) > 1 and len(lines) <= 1:
        by_position = signs(view, picture)
        strip = draw_order_strip(picture.order, [by_position[p] for p in picture.order], end - 4)
        work.draw(work.row + 1, 2, strip)


def _what(view: View, picture: RingPicture) -> str:
    """What is tightened: the group, or the part where each is a fastener of its own."""
    pump = view.state.pump
    group = pump.groups.get(view.prompt.target)
    if group is not None and len(group.parts) == picture.count:
        return pump.called(group.parts[picture.now - 1])
    return picture.group


def _screws(picture: RingPicture) -> str:
    return dict(picture.screws).get(picture.now, "")


def _enter(view: View, picture: RingPicture) -> str:
    """What Enter records, with the position that the answer names and the reading that is typed."""
    prompt = view.prompt
    named, _, rest = view.text.rpartition(POSITION_MARK)
    if prompt.form is Form.CONFIRM:
        named, rest = named or rest, ""
    if prompt.form is Form.NUMBER and not rest.strip():
        return "nothing yet: type the angle" if prompt.unit == "°" else "nothing yet: type what it showed"
    enter = prompt.enter.replace("what you type", f"{rest} {prompt.unit}")
    if named:
        enter = enter.replace(f"position {picture.now}", f"position {named}", 1)
    return view.words(enter)
