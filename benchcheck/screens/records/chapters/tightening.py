"""Tightening by position and round: each group on one band, from its lower to its upper limit."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report import words
from benchcheck.report.tightened import Limits, Tightened, standing_tightened
from benchcheck.screens.layout import Hand
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.screens.records.page import ChapterPage, Further, sentence
from benchcheck.screens.widgets.bands import MARGIN
from benchcheck.screens.widgets.cells import Drawing, Line, Run
from benchcheck.screens.widgets.tolerance_rows import BandRow, Mark, draw_rows, place_of
from benchcheck.session.events import PositionTightened

_SHOWED, _SET, _MOVED = "●", "○", "►"
_LEGEND = (
    f"{_SHOWED} the last round, as the wrench showed it   {_SET} as it was set, then clicked   "
    f"1, 2 earlier rounds, each against its own limits   {_MOVED} when it moved in the check pass   "
    f"{words.OUTSIDE} outside   {words.UNGUARDED} inside by less than the wrench's own error"
)


def page(desk: Desk, session: OneSession, further: Further) -> TighteningPage:
    return TighteningPage(session, further)


class TighteningPage(ChapterPage):
    """All groups that stand, in the order of the procedure."""

    title = "Tightening, each position between its limits"

    def lines(self, hand: Hand) -> Drawing:
        journal = self._session.journal
        if journal is None:
            return sentence("Nothing can be said of it: the events are not understood.", hand)
        found: list[Line] = []
        for done in standing_tightened(journal):
            found += _group(done, hand)
            found.append(())
        missing = [
            group.called
            for name, group in journal.state.pump.groups.items()
            if name not in journal.state.assembly.held
        ]
        if missing:
            found += sentence(f"Not tightened: {words.listed(missing)}.", hand)
        if not found:
            return sentence("Nothing was tightened.", hand)
        return (*found, *sentence(_LEGEND, hand))


def _group(done: Tightened, hand: Hand) -> Iterator[Line]:
    """One group: what it is and with what, its band, and what is to be said besides."""
    yield from sentence(_head(done), hand)
    limits = done.limits(done.rounds)
    if limits is not None:
        yield from _indented(
            draw_rows(_rows(done, hand), hand.size.width - 2 * MARGIN, _written(limits, hand))
        )
    elif done.group.torque is None:
        yield from sentence("tight; no torque is asked", hand)
    turn = done.turn_limits()
    if turn is not None:
        rows = [
            _turned(done, position, turn, hand)
            for position in done.positions
            if done.turn(position) is not None
        ]
        yield from sentence("Turned on:", hand)
        yield from _indented(draw_rows(rows, hand.size.width - 2 * MARGIN, _written(turn, hand)))
    moved = [str(each) for each in done.positions if any(look.moved for look in done.looks(each))]
    if moved:
        yield from sentence(f"Moved in the check pass: position {words.listed(moved)}.", hand)
    for each in done.disposals():
        yield from sentence(f"~ Position {each.position}: {each.disposition}, decided by {each.name}.", hand)


def _indented(drawing: Drawing) -> Iterator[Line]:
    yield from ((Run(" " * MARGIN), *line) for line in drawing)


def _head(done: Tightened) -> str:
    group = done.group
    wanted = f", {group.torque.target} ± {group.torque.tolerance}" if group.torque is not None else ""
    with_ = dict.fromkeys(each.wrench for each in _tightened(done) if each.wrench)
    foot = ", limits at the screw" if group.crowfoot is not None else ""
    return f"{words.capital(group.called)}{wanted}{f', with {words.listed(with_)}' if with_ else ''}{foot}"


def _tightened(done: Tightened) -> Iterator[PositionTightened]:
    return (each for each in done.standing() if isinstance(each, PositionTightened))


def _written(limits: Limits, hand: Hand) -> tuple[str, str, str]:
    low, _, high = words.limits(limits.low, limits.high).partition(" to ")
    return low, f"{words.number(round(limits.target, 2))} {hand.words(limits.unit)}", high


def _rows(done: Tightened, hand: Hand) -> list[BandRow]:
    return [_row(done, position, hand) for position in done.positions]


def _row(done: Tightened, position: int, hand: Hand) -> BandRow:
    marks = []
    last: PositionTightened | None = None
    for number in range(1, done.rounds + 1):
        event = done.reading(position, number)
        limits = done.limits_for(event) if event is not None else None
        if event is None or limits is None:
            continue
        last = event
        final = _SHOWED if event.how == "showed" else _SET
        marks += _marked(event.value, limits, final if number == done.rounds else str(number))
    marks[-1:-1] = _moved(done, position)
    label = f"position {position}"
    if last is None:
        return BandRow(label, (), "!  no round")
    if done.group.count == 1:
        label = "reading" if last.how == "showed" else "setting"
    said = f"{done.sign(last):1} {words.number(last.value)} {last.unit}, event {last.number}"
    if last.round != done.rounds:
        said += f", round {last.round} only"
    return BandRow(label, tuple(marks), hand.words(said))


def _moved(done: Tightened, position: int) -> list[Mark]:
    """What the wrench showed where the position moved in the check pass, by the limits of the last round."""
    limits = done.limits(done.rounds)
    return [
        mark
        for look in done.looks(position)
        if look.moved and limits is not None and look.unit == limits.unit
        for mark in _marked(look.value, limits, _MOVED)
    ]


def _marked(value: float, limits: Limits, sign: str) -> list[Mark]:
    """A value in its place; limits without room between them have none."""
    if not limits.low < limits.target < limits.high:
        return []
    return [Mark(place_of(value, limits.low, limits.target, limits.high), sign)]


def _turned(done: Tightened, position: int, limits: Limits, hand: Hand) -> BandRow:
    event = done.turn(position)
    assert event is not None
    said = f"{done.turn_sign(event):1} {words.number(event.degree)} °, event {event.number}"
    return BandRow(f"position {position}", tuple(_marked(event.degree, limits, _SHOWED)), hand.words(said))
