"""A deviation that was decided on: its reasons are the reviewer's to weigh.

ISO 9001:2015, 8.7 (from memory): a decision on what does not conform can be looked at afterwards. A position
that was disposed of by name, or whose thread was repaired, is one as well.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "A pump that is not as the procedure has it is read by a second pair of eyes (ISO 9001, 8.7)."


def look(course: Course) -> Iterator[Remark]:
    for deviation in course.state.deviations:
        decided = course.state.dispositions.get(deviation.deviation)
        if decided is not None:
            yield _remark(
                f"Deviation {deviation.deviation}, {deviation.wrong}: {decided.disposition}, decided by "
                f"{decided.name}.",
                decided.number,
            )
    for disposed in course.of(happened.PositionDisposed):
        yield _remark(
            f"{_place(course, disposed)}: {disposed.disposition}, decided by {disposed.name}.",
            disposed.number,
        )
    for repaired in course.of(happened.PositionRepaired):
        yield _remark(
            f"{_place(course, repaired)}: thread repaired, with limits given by {repaired.name}.",
            repaired.number,
        )


def _remark(sentence: str, event: int) -> Remark:
    return Remark("deviation decided", Weight.DEPARTS, sentence, event)


def _place(course: Course, event: happened.PositionDisposed | happened.PositionRepaired) -> str:
    called = course.state.pump.called(event.group)
    return f"{called[:1].upper()}{called[1:]}, position {event.position}"
