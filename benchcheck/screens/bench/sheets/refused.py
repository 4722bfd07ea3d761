"""A refusal in the place of its question: NOT YET, what is wrong, where, and what mends it."""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.screens.bench.sheets.grooves import opening
from benchcheck.screens.bench.sheets.plain import as_sentence
from benchcheck.screens.bench.sheets.ring import ring_drawing
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Work
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.screens.widgets.groove import Closing, Groove, draw_grooves
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.prompt import Form, Outcome, RingPicture

AGAIN = "asks again: nothing was recorded"


@dataclass(frozen=True)
class Refused:
    """A refusal that stands, with the answer it refuses."""

    outcome: Outcome
    answer: str = ""
    mend_words: str = ""
    """What the mending does, for the row of Enter; empty where there is no way to take."""

    @property
    def can_be_taken_over(self) -> bool:
        return self.outcome.passable and bool(self.outcome.events)


def sheet(view: View, refused: Refused) -> Sheet:
    """The refusal with its place drawn where it can be."""
    refusals = refused.outcome.refusals
    work = Work(view)
    first = refusals[0]
    outside = first.rule.startswith(("reading-", "running-torque", "angle-"))
    work.verb("outside" if outside else "not yet", _beside(view, refused))
    work.gap(10)
    drawing = _place(view, refused, work)
    end = work.drawing_start if drawing is not None else work.width
    top = work.row
    for number, refusal in enumerate(refusals):
        if number:
            work.gap(4)
        work.labelled("wrong", as_sentence(refusal.wrong), end)
        for reason in refusal.chain:
            work.labelled("so", as_sentence(reason), end)
        if refusal.where:
            work.labelled("where", as_sentence(refusal.where), end)
        if refusal.mend:
            work.gap(2)
            work.labelled("mend", as_sentence(refusal.mend), end)
    work.gap(2)
    if not refused.outcome.passable:
        work.labelled("pass", "Nobody may pass this.", end)
    elif refused.can_be_taken_over:
        work.labelled("pass", "F4 takes it over, with a reason; another person decides on it.", end)
    if drawing is not None:
        work.draw(top, end + 1, drawing)
    enter = view.words(refused.mend_words) if refused.mend_words else AGAIN
    return Sheet(work.lines(), enter)


def _beside(view: View, refused: Refused) -> list[str]:
    """What was answered, in words."""
    if not refused.answer:
        return []
    words = next((each.words for each in view.prompt.choices if each.value == refused.answer), refused.answer)
    unit = f" {view.prompt.unit}" if view.prompt.unit and view.prompt.form is Form.NUMBER else ""
    return [f'You said: "{words}{unit}".', "Nothing was recorded of it."]


def _place(view: View, refused: Refused, work: Work) -> Drawing | None:
    """The grooves or the group that the refusal is about, with the fault marked."""
    if not view.size.full:
        return None
    width, height = work.width - work.drawing_start - 2, min(work.rows_left, 13)
    pump = view.state.pump
    named = next(
        (
            groove
            for refusal in refused.outcome.refusals
            for groove in pump.grooves.values()
            if f"{groove.id} " in f"{refusal.wrong} " and refusal.rule != "part-left-out"
        ),
        None,
    )
    if named is not None:
        told = [
            each
            for each in pump.grooves.values()
            if each.in_ == named.in_ and opening(each) is opening(named)
        ]
        grooves = tuple(
            Groove(
                view.words(each.id),
                view.words(str(pump.value(each.takes))),
                filled=bool(view.state.assembly.living_rings(each.id)) and each is not named,
                sign=Sign.FAULTY
                if each is named
                else Sign.DONE
                if view.state.assembly.living_rings(each.id)
                else Sign.TO_COME,
            )
            for each in told
        )
        cover = ", ".join(pump.called(part) for part in named.closed_against if part in pump.parts)
        closing = Closing(view.words(pump.called(named.in_)), view.words(cover), grooves, opening(named))
        return draw_grooves(closing, width, height)
    if isinstance(view.prompt.picture, RingPicture):
        return ring_drawing(view, view.prompt.picture, width, work.rows_left)
    return None
