"""A deviation that nobody has decided on.

ISO 9001:2015, 8.7 (from memory): what does not conform is dealt with by a decision, and the record names
who took it.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "What does not conform is held until an entitled person has decided on it (ISO 9001, 8.7)."


def look(course: Course) -> Iterator[Remark]:
    for each in course.state.open_deviations:
        yield Remark(
            "deviation open",
            Weight.OPEN,
            f"Deviation {each.deviation} is not decided on: {each.wrong}.",
            each.number,
        )
