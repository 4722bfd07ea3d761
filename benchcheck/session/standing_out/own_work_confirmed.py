"""A person who confirmed what was that person's own work.

Common practice, and 21 CFR 211.101(d) for charges of components (from memory): what one person did, a second
one verifies. At a change of technicians the first may end up as witness of the work done before.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Act, Verb
from benchcheck.procedure.people_names import same_name
from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.events import Event
from benchcheck.session.remarks import Remark, Weight

WHY = "Nobody finds his own slips: the second look is another's (common practice)."
_HANDLED = (Verb.INSTALL, Verb.FIT, Verb.START, Verb.TIGHTEN, Verb.LOOK)


def look(course: Course) -> Iterator[Remark]:
    for witnessed in course.of(happened.Witnessed):
        own = [
            done
            for done in _looked_at(course, witnessed)
            if same_name(done.by, witnessed.name) and done.number < witnessed.number
        ]
        if own:
            yield _remark(
                f"{witnessed.name} stood witness for own work, event {own[-1].number}.",
                witnessed.number,
            )
    closed = course.state.closed
    if closed is not None and closed.second:
        signed_on = {each.name for each in course.of(happened.SignedOn)}
        if any(same_name(name, closed.second) for name in signed_on):
            yield _remark(f"{closed.second} released a pump worked on by {closed.second}.", closed.number)


def _looked_at(course: Course, witnessed: happened.Witnessed) -> Iterator[Event]:
    """The events that stand for what the hold point looks at."""
    act = course.state.act(witnessed.act)
    if act is None:
        return
    for other in course.state.acts:
        fact = course.state.fact(other.id)
        if fact is not None and other.verb in _HANDLED and _is_seen(act, other):
            done = course.at(fact.event)
            if done is not None:
                yield done


def _is_seen(act: Act, other: Act) -> bool:
    return other.step.id == act.step.id or other.target in act.step.of


def _remark(sentence: str, event: int) -> Remark:
    return Remark("own work confirmed", Weight.DEPARTS, sentence, event)
