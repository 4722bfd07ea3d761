"""The order in which things were done, against the order that was asked."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report.journal import Journal
from benchcheck.report.tightened import Tightened, standing_tightened
from benchcheck.report.words import capital
from benchcheck.screens.layout import Hand
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import ChapterPage, Further, sentence
from benchcheck.screens.tones import Tone
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Line, Run
from benchcheck.session.events import ActEvent

_LABEL = 10


def page(desk: Desk, session: OneSession, further: Further) -> OrderPage:
    return OrderPage(session, further)


class OrderPage(ChapterPage):
    """Steps, then the positions of each group, round by round."""

    title = "Order, as done and as asked"

    def lines(self, hand: Hand) -> Drawing:
        journal = self._session.journal
        if journal is None:
            return sentence("Nothing can be said of it: the events are not understood.", hand)
        found: list[Line] = []
        later = list(out_of_order(journal))
        if not later:
            found += sentence("Steps: in the order of the procedure.", hand)
        for step, event, before in later:
            text = f"! Step {step} was done at event {event}, after step {before}; it was asked before that."
            found += sentence(text, hand)
        for done in standing_tightened(journal):
            if done.group.count > 1 and done.run.turned:
                found.append(())
                found += sentence(capital(done.group.called), hand)
                found += _strips(done, hand)
        return tuple(found)


def out_of_order(journal: Journal) -> Iterator[tuple[str, int, str]]:
    """Steps that were done, as they stand, after one that was asked later: with their event, and that step.

    A step stands as done by the last event that completed an act of it and still counts.
    """
    done: dict[str, int] = {}
    for event in journal.events:
        if isinstance(event, ActEvent) and event.done and journal.stands(event):
            done[event.act.partition("/")[0]] = event.number
    asked = [step.id for step in journal.state.pump.steps if step.id in done]
    for place, step in enumerate(asked):
        earlier = [other for other in asked[place + 1 :] if done[other] < done[step]]
        if earlier:
            yield step, done[step], earlier[0]


def _strips(done: Tightened, hand: Hand) -> Iterator[Line]:
    """The order that was asked, and below it each round, where it differs drawn reversed."""
    cells = len(str(done.group.count)) + 1
    yield _strip("asked", [(f"{each:>{cells}}", Tone.INK) for each in done.order], hand)
    for number in range(1, done.rounds + 1):
        order = done.done_order(number)
        if not order:
            continue
        asked = [each for each in done.order if each in order]
        told = [
            (f"{each:>{cells}}", Tone.INK if each == due else Tone.WRONG)
            for each, due in zip(order, asked, strict=False)
        ]
        word = "" if list(order) == asked else "   ! another order"
        missing = len(done.order) - len(set(order))
        word += f"   ! {missing} missing" if missing else ""
        yield (*_strip(f"round {number}", told, hand), Run(word))


def _strip(label: str, places: list[tuple[str, Tone]], hand: Hand) -> Line:
    head = Run(" " * MARGIN + hand.words(label).ljust(_LABEL), Tone.QUIET)
    return (head, *(Run(text, tone) for text, tone in places))
