"""A witness who came after the work had been left alone.

Common practice: a second person who comes after a break sees what is there now, not what was done. A break is
what the procedure calls a long pause, or the pump being left and taken up again.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.events import ActEvent
from benchcheck.session.remarks import Remark, Weight
from benchcheck.session.state import moment

WHY = "A witness who comes after a break sees what is there, not what was done (common practice)."


def look(course: Course) -> Iterator[Remark]:
    long_pause = course.state.job.procedure.procedure.long_pause.si
    for witnessed in course.of(happened.Witnessed):
        fact = course.state.fact(witnessed.act)
        if fact is None or fact.event != witnessed.number:
            continue  # another took its place
        since = _done_before(course, witnessed)
        if since is None:
            continue
        waited = (moment(witnessed.at) - moment(since.at)).total_seconds()
        between = course.events[since.number : witnessed.number - 1]
        if waited > long_pause or any(isinstance(each, happened.TakenUp) for each in between):
            yield Remark(
                "witness late",
                Weight.DEPARTS,
                f"{witnessed.name} looked {_span(waited)} after the work of event {since.number} was done.",
                witnessed.number,
            )


def _done_before(course: Course, witnessed: happened.Witnessed) -> ActEvent | None:
    """The last act that was done before the second person came."""
    for event in reversed(course.events[: witnessed.number - 1]):
        if isinstance(event, ActEvent) and event.done:
            return event
    return None


def _span(seconds: float) -> str:
    minutes = int(seconds // 60)
    return f"{minutes // 60} h {minutes % 60:02} min" if minutes >= 60 else f"{minutes} min"
