"""A concession whose last day is near or past.

Common practice: a pump that is used as it is until a day has to come back, or be decided on anew, before it.
A month is enough to plan that.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "A concession ends on its last day, and the pump still runs (common practice: a month's notice)."
NOTICE = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class Concession:
    """A decision that holds until a day."""

    expires: str
    """Its last day, as it was given: 2027-03-31."""
    limit: str
    name: str
    event: int


def concessions(course: Course) -> Iterator[Concession]:
    """The decisions of a session that hold until a day; a judgement that was superseded no longer does."""
    for each in course.state.dispositions.values():
        if each.expires:
            yield Concession(each.expires, each.limit, each.name, each.number)
    for position in course.state.positions_disposed.values():
        if position.expires:
            yield Concession(position.expires, position.limit, position.name, position.number)
    judged = course.state.judged
    if judged is not None and judged.expires:
        yield Concession(judged.expires, judged.limit, judged.name, judged.number)


def look(course: Course) -> Iterator[Remark]:
    if course.today is not None:
        yield from expiring(concessions(course), course.today)


def expiring(held: Iterable[Concession], today: date) -> Iterator[Remark]:
    """What is to be said on that day of concessions."""
    for each in held:
        try:
            last = date.fromisoformat(each.expires)
        except ValueError:
            continue
        if last - today > NOTICE:
            continue
        days = (last - today).days
        left = "is past" if days < 0 else "ends today" if not days else f"ends in {days} d"
        was = "was" if days < 0 else "is"
        limit = f" ({each.limit})" if each.limit else ""
        yield Remark(
            "concession expires",
            Weight.OPEN if days < 0 else Weight.ODD,
            f"The concession of {each.name}{limit} {left}: its last day {was} {last}.",
            each.event,
        )
