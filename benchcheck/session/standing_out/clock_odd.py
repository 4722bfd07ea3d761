"""A clock that went back, or times that do not follow each other.

Common practice, and what records of regulated work are asked for (21 CFR 11.10(e): time-stamped by the
computer): order comes from the numbers, but a time that runs backwards says that the clock was set.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from itertools import pairwise

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.engine import CLOCK_SLACK
from benchcheck.session.remarks import Remark, Weight
from benchcheck.session.state import moment

WHY = "Times are worth what the clock of the bench is worth (21 CFR 11.10(e))."


def look(course: Course) -> Iterator[Remark]:
    said = set()
    for event in course.of(happened.ClockWentBack):
        said.add(event.number)
        back = timedelta(seconds=event.seconds)
        yield _remark(f"The clock of the bench went back by {back} (hours, minutes, seconds).", event.number)
    for before, after in pairwise(course.events):
        if after.number not in said and moment(after.at) < moment(before.at) - CLOCK_SLACK:
            yield _remark(
                f"Event {after.number} bears an earlier time than the one before it, and no clock was noted "
                "to have gone back.",
                after.number,
            )
    if course.events and moment(course.events[0].at) < moment(course.state.header.opened) - CLOCK_SLACK:
        yield _remark("The first event is older than the record.", course.events[0].number)


def _remark(sentence: str, event: int) -> Remark:
    return Remark("clock odd", Weight.ODD, sentence, event)
