"""Times that no hand could keep.

Common practice for screws: to lift the socket off one head, set it on the next and pull until the wrench
clicks takes a practised hand three seconds and more; two are taken, on purpose low. For all else: people read
some 240 words a minute (M. Brysbaert 2019, from memory), so that reading a question of a dozen words takes
three seconds; one is taken. One quick answer is nothing; a row of them is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.events import ActEvent, Event
from benchcheck.session.remarks import Remark, Weight
from benchcheck.session.state import moment

WHY = "What was entered faster than it can be done was not done then (common practice)."
SECONDS_A_POSITION, POSITIONS = 2.0, 4
SECONDS_AN_ACT, ACTS = 1.0, 10
Position = happened.PositionTightened | happened.PositionTurned | happened.PositionChecked


def look(course: Course) -> Iterator[Remark]:
    positions = (each for each in course.events if isinstance(each, Position))
    for (group, _, _), row in groupby(positions, key=_round_of):
        fast = _fast_row(list(row), SECONDS_A_POSITION, POSITIONS)
        if fast:
            called = course.state.pump.called(group)
            yield _remark(f"{called[:1].upper()}{called[1:]}: {len(fast)} positions", fast)
    acts = [each for each in course.events if isinstance(each, ActEvent) and each.done]
    fast_acts = _fast_row(acts, SECONDS_AN_ACT, ACTS)
    if fast_acts:
        yield _remark(f"{len(fast_acts)} acts", fast_acts)


def _round_of(event: Position) -> tuple[str, str, int]:
    return event.group, event.kind, event.round if isinstance(event, happened.PositionTightened) else 0


def _fast_row(row: Sequence[Event], seconds: float, fewest: int) -> Sequence[Event]:
    """The first row of so many events or more that came faster than this each; empty if there is none."""
    for start in range(len(row) - fewest + 1):
        end = start + fewest
        while end <= len(row) and _span(row[start:end]) < seconds * (end - start - 1):
            end += 1
        if end - 1 >= start + fewest:
            return row[start : end - 1]
    return ()


def _span(row: Sequence[Event]) -> float:
    return (moment(row[-1].at) - moment(row[0].at)).total_seconds()


def _remark(what: str, fast: Sequence[Event]) -> Remark:
    span = max(0.0, _span(fast))
    return Remark(
        "hand too fast",
        Weight.ODD,
        f"{what} in {span:.1f} s, events {fast[0].number} to {fast[-1].number}.",
        fast[0].number,
    )
