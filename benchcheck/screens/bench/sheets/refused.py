"""A refusal in the place of its question: NOT YET, what is wrong, where, and what mends it."""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.procedure.model import Groove as GrooveTold
from benchcheck.screens.bench.prompts import POSITION_MARK
from benchcheck.screens.bench.sheets.grooves import opening
from benchcheck.screens.bench.sheets.plain import as_sentence
from benchcheck.screens.bench.sheets.ring import ring_drawing
from benchcheck.screens.bench.view import View
from benchcheck.screens.layout import Sheet, Work
from benchcheck.screens.widgets.cells import Drawing
from benchcheck.screens.widgets.groove import Closing, Groove, draw_grooves
from benchcheck.screens.widgets.signs import Sign
from benchcheck.session.prompt import Form, Outcome, RingPicture

AGAIN = "asks again; nothing was recorded"
_OUTSIDE = ("reading-", "running-torque", "angle-")
_OF_FORM = frozenset(
    {"nothing-answered", "no-such-answer", "not-a-reading", "not-a-count", "bag-not-read", "person-not-known"}
)


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
    outside = refusals[0].rule.startswith(_OUTSIDE)
    work.verb("outside" if outside else "not yet", until=work.drawing_start)
    drawing = _place(view, refused, work)
    end = work.drawing_start if drawing is not None else work.width
    if drawing is not None:
        work.draw(max(work.verb_row - 1, 0), end + 1, drawing)
    said = _what_was_said(view, refused)
    if said:
        work.labelled("answer", said, end)
        work.gap(8)
    for number, refusal in enumerate(refusals):
        if number:
            work.gap(4)
        work.labelled("wrong", as_sentence(refusal.wrong), end)
        for reason in refusal.chain:
            work.labelled("so", as_sentence(reason), end)
        if refusal.where:
            work.labelled("where", as_sentence(refusal.where), end)
        if refusal.mend:
            work.gap(3)
            work.labelled("mend", as_sentence(refusal.mend), end)
    work.gap(2)
    if refused.can_be_taken_over:
        work.labelled("or", "F4 takes it over, with a reason; another person decides on it.", end)
    elif not refused.outcome.passable and not _is_of_form(refused):
        work.labelled("or", "Nobody may pass this.", end)
    if refused.mend_words:
        work.labelled("or", "Esc 1 asks again, where only the answer was given wrongly.", end)
    work.said()
    enter = view.words(refused.mend_words) if refused.mend_words else AGAIN
    return Sheet(work.lines(), enter)


def _is_of_form(refused: Refused) -> bool:
    """Whether the answer only could not be read: nothing on the pump is wrong then."""
    return not refused.outcome.events and all(each.rule in _OF_FORM for each in refused.outcome.refusals)


def _what_was_said(view: View, refused: Refused) -> str:
    """The answer that is refused, in the words it was asked in."""
    if not refused.answer:
        return ""
    prompt = view.prompt
    words = next((each.words for each in prompt.choices if each.value == refused.answer), refused.answer)
    unit = f" {prompt.unit}" if prompt.unit and prompt.form is Form.NUMBER else ""
    return f"{words}{unit}; it is not recorded"


def _place(view: View, refused: Refused, work: Work) -> Drawing | None:
    """The grooves or the group that the refusal is about, with the fault marked."""
    if not view.size.full:
        return None
    width, height = work.width - work.drawing_start - 1, work.height - max(work.verb_row - 1, 0)
    refusals = refused.outcome.refusals
    grooves = view.state.pump.grooves.values()
    for refusal in refusals:
        named = next((each for each in grooves if f"{each.id} " in f"{refusal.wrong} "), None)
        if named is not None and refusal.rule != "part-left-out":
            two = refusal.rule == "second-ring-in-a-groove"
            return draw_grooves(_closing(view, named, two), width, min(height, 15))
    if isinstance(view.prompt.picture, RingPicture):
        position, mark, _ = refused.answer.partition(POSITION_MARK)
        faulty = int(position) if mark and position.isdecimal() else view.prompt.picture.now
        return ring_drawing(view, view.prompt.picture, width, height, faulty)
    return None


def _closing(view: View, named: GrooveTold, two_rings: bool) -> Closing:
    """The grooves of the part, the one that the refusal is about marked as faulty."""
    pump, now = view.state.pump, view.state.assembly

    def groove(told: GrooveTold) -> Groove:
        if told is named:
            size = "TWO" if two_rings else str(pump.value(told.takes))
            return Groove(view.words(told.id), view.words(size), filled=two_rings, sign=Sign.FAULTY)
        filled = bool(now.living_rings(told.id))
        sign = Sign.DONE if filled else Sign.TO_COME
        return Groove(view.words(told.id), view.words(str(pump.value(told.takes))), filled, sign)

    alike = [
        each for each in pump.grooves.values() if each.in_ == named.in_ and opening(each) is opening(named)
    ]
    cover = ", ".join(pump.called(part) for part in named.closed_against if part in pump.parts)
    return Closing(
        view.words(pump.called(named.in_)), view.words(cover), tuple(map(groove, alike)), opening(named)
    )
