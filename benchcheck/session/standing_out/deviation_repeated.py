"""A departure that was made before in the same session.

Common practice: once is a deviation, again is a habit, or a procedure that cannot be kept; it is looked at as
one thing.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "A departure that comes again is a habit, or the procedure cannot be kept (common practice)."


def look(course: Course) -> Iterator[Remark]:
    for each in course.state.deviations:
        if each.again:
            earlier = ", ".join(map(str, each.again))
            yield Remark(
                "deviation repeated",
                Weight.ODD,
                f"Deviation {each.deviation} repeats deviation {earlier}: {each.wrong}.",
                each.number,
            )
