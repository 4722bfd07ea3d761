"""Work that was entered after it was done: a long pause, then parts and rings one after the other.

21 CFR 211.100(b) (from memory) asks that work is documented at the time of performance. Nobody fits or takes
out six things at five seconds each (common practice); who enters from memory or from a slip of paper does.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.events import Event
from benchcheck.session.remarks import Remark, Weight
from benchcheck.session.state import moment

WHY = "Work is written down when it is done (21 CFR 211.100(b), from memory)."
THINGS, SECONDS_A_THING = 6, 5.0
_HANDLED = (
    happened.RingFitted,
    happened.RingLifted,
    happened.PartInstalled,
    happened.PartRemoved,
    happened.GroupLoosened,
    happened.GroupStarted,
)


def look(course: Course) -> Iterator[Remark]:
    long_pause = course.state.job.procedure.procedure.long_pause.si
    handled = [each for each in course.events if isinstance(each, _HANDLED)]
    for before, after in pairwise(course.events):
        pause = _seconds(before, after)
        row = [each for each in handled if each.number >= after.number][:THINGS] if pause > long_pause else []
        if len(row) == THINGS and _seconds(row[0], row[-1]) < (THINGS - 1) * SECONDS_A_THING:
            yield Remark(
                "entered late",
                Weight.ODD,
                f"After {int(pause // 60)} min without an answer, {THINGS} things were handled in "
                f"{_seconds(row[0], row[-1]):.0f} s.",
                row[0].number,
            )


def _seconds(one: Event, other: Event) -> float:
    return (moment(other.at) - moment(one.at)).total_seconds()
