"""Clocks: a cure that bars what comes next, or a value that must stand for a time."""

from __future__ import annotations

from benchcheck.assembly.clocks import clock_rules
from benchcheck.screens.bench.sentences import day_and_time
from benchcheck.screens.bench.sheets.plain import as_sentence, begun
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.big_type import NUMBER_ROWS
from benchcheck.screens.widgets.clock_face import ClockFace, draw_clock, draw_passage
from benchcheck.session.clocks import ends
from benchcheck.session.prompt import ClockPicture, Form

LEAVES = "leaves this pump to its clock, and goes to the open pumps"
_PASSAGE_CELLS = 66


def face_of(view: View) -> ClockFace | None:
    """The clock of the prompt; None where none has been started."""
    prompt, state = view.prompt, view.state
    if isinstance(prompt.picture, ClockPicture):
        return ClockFace(
            view.local(prompt.picture.started), view.local(prompt.picture.until), view.local(view.now)
        )
    if prompt.until is None:
        return None
    for rule in clock_rules(state.pump):
        if ends(state, rule) == prompt.until:
            started = state.clocks[rule.id].at
            return ClockFace(view.local(started), view.local(prompt.until), view.local(view.now))
    return ClockFace(view.local(view.now), view.local(prompt.until), view.local(view.now))


def is_over(view: View) -> bool:
    face = face_of(view)
    return face is not None and face.ends <= face.now


def sheet(view: View) -> Sheet:
    """The time left, until when, and what may be done meanwhile."""
    prompt = view.prompt
    holding = prompt.form is Form.NUMBER
    work = begun(view)
    left = work.verb(prompt.verb, list(prompt.do))
    face = face_of(view)
    if face is not None and work.rows_left > NUMBER_ROWS:
        work.draw(work.row, 2, draw_clock(face, work.width - 2))
        work.row += NUMBER_ROWS + 1
    if holding:
        work.labelled("what", as_sentence(prompt.ask))
        work.field("reads", prompt.unit, f"good: {prompt.good}" if prompt.good else "")
    else:
        work.labelled("clock", as_sentence(_what(view)))
        work.said()
    if face is not None and work.width >= _PASSAGE_CELLS + 12 and work.rows_left >= 5:
        work.gap(4)
        work.draw(work.row, 10, draw_passage(face, _PASSAGE_CELLS))
        work.row += 3
    if not holding and not is_over(view):
        work.labelled("may", "leave it standing, and work on another pump")
        for reason in _because(view):
            work.labelled("not", reason)
    for text in left:
        work.labelled("do", text)
    return Sheet(work.lines(), _enter(view, holding))


def _what(view: View) -> str:
    picture = view.prompt.picture
    return picture.what if isinstance(picture, ClockPicture) else view.prompt.ask.split(":")[0]


def _because(view: View) -> list[str]:
    """What must not be done while the clock runs."""
    return [
        as_sentence(rule.because)
        for rule in clock_rules(view.state.pump)
        if rule.because and rule.called == _what(view)
    ]


def _enter(view: View, holding: bool) -> str:
    prompt = view.prompt
    over = is_over(view)
    if not holding:
        return "goes on: the time is over" if over else LEAVES
    if over:
        return view.words(prompt.enter) if view.text.strip() else "nothing yet: type the reading"
    assert prompt.until is not None
    return (
        f"nothing good before {day_and_time(view.local(prompt.until), view.local(view.now))}; records a fall"
    )
