"""A closing summary that is not what the events add up to.

Common practice: a summary is a claim. One that was made by another program, or by hand, may claim anything.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session.closing import agrees
from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "Lists are made from summaries; one that is wrong hides what happened (common practice)."


def look(course: Course) -> Iterator[Remark]:
    closed = course.state.closed
    if closed is None:
        return
    for each in agrees(course.state):
        yield Remark(
            "summary untrue", Weight.BROKEN, f"The closing summary is not true: {each}.", closed.number
        )
