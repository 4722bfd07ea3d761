"""A deed that is confirmed once it is done: what to do on the left, on the right what it is done to."""

from __future__ import annotations

from benchcheck.assembly.planned import order_of
from benchcheck.screens.bench.sheets.plain import as_sentence, begun, beside_verb, notes
from benchcheck.screens.bench.sheets.ring import ring_drawing
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.screens.widgets.signs import Sign
from benchcheck.screens.widgets.stack import Stacked, draw_stack
from benchcheck.session.going_back import BACK
from benchcheck.session.prompt import RingPicture

_LEAST_STACK = 2


def sheet(view: View) -> Sheet:
    """What to do, what Enter then records, and the stack or the group it is about."""
    prompt = view.prompt
    work = begun(view)
    left = work.verb(prompt.verb, beside_verb(view))
    top = work.row
    width = work.width - work.drawing_start - 2
    drawing = beside(view, width, work.height - top) if view.size.full else None
    end = work.drawing_start if drawing is not None else work.width
    if drawing is not None:
        work.draw(top, end + 1, drawing)
    for text in left:
        work.labelled("do", text, end)
    if prompt.step == BACK:
        work.labelled(
            "to", ", ".join(map(view.state.pump.the, view.state.reaching)) or "what is used up", end
        )
    work.gap(3)
    if not any(prompt.ask.casefold() in text.casefold() for text in prompt.do):
        work.labelled("then", as_sentence(prompt.ask), end)
    work.said()
    if prompt.good:
        work.labelled("good", prompt.good, end)
    for note in notes(prompt):
        work.labelled("note", note, end)
    if drawing is None and prompt.cautions:
        work.gap(3)
        work.cautions(prompt.cautions)
    return Sheet(work.lines(), view.words(prompt.enter))


def beside(view: View, width: int, height: int) -> Drawing | None:
    """The stack that a part goes onto or comes off, or the group that is loosened."""
    target = view.prompt.target
    if target in view.state.pump.groups:
        return _group(view, target, width, height)
    return _stack(view, target, width, height) if target in view.state.pump.parts else None


def _stack(view: View, part: str, width: int, height: int) -> Drawing | None:
    """The parts that are in, as the longest stack that names this one has them, the one in hand marked."""
    pump, seated = view.state.pump, view.state.assembly.seated
    best: tuple[tuple[str, ...], str, str] | None = None
    for stack in pump.stacks:
        if part not in stack.order:
            continue
        there = tuple(each for each in stack.order if each in pump.parts and (each in seated or each == part))
        if best is None or len(there) > len(best[0]):
            best = (there, pump.called(stack.on), stack.from_)
    if best is None or len(best[0]) < _LEAST_STACK:
        return None
    there, on, from_end = best
    parts = [
        Stacked(view.words(pump.called(each)), Sign.NOW if each == part else Sign.DONE) for each in there
    ]
    return draw_stack(view.words(on), view.words(from_end), parts, width, height)


def _group(view: View, group: str, width: int, height: int) -> Drawing | None:
    """The group as one stands before it, no position in hand."""
    told = view.state.pump.groups[group]
    layout = told.layout
    if layout is None or told.count < _LEAST_STACK:
        return None
    picture = RingPicture(
        group=told.called,
        count=told.count,
        circle=layout.circle or 0,
        rows=layout.rectangle[0] if layout.rectangle else 0,
        columns=layout.rectangle[1] if layout.rectangle else 0,
        points=layout.points or (),
        seen_from=layout.seen_from or "",
        datum=layout.datum or "",
        at_datum=layout.at_datum,
        order=order_of(view.state.pump, group),
        done=(),
        now=0,
        next=0,
        round=1,
        rounds=("100 %",),
        figures=(),
        check_pass=False,
    )
    return ring_drawing(view, picture, width, height)
