"""A released pump with a hold point that no second person stands for.

Common practice of hold points: work does not go past one until a second person has looked. The bench refuses
to; a record in which it happened all the same was not made there, or lost its witness by something undone.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Act, Verb
from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.engine import applies
from benchcheck.session.remarks import Remark, Weight

WHY = "A hold point is passed by two persons or not at all (common practice)."


def look(course: Course) -> Iterator[Remark]:
    closed = course.state.closed
    if closed is None or closed.outcome != "released":
        return
    for act in course.state.acts:
        if not applies(course.state, act.step):
            continue
        if act.verb is Verb.WITNESS and _unseen(course, act):
            yield _remark(act, closed.number)
        if act.verb is Verb.INSTALL and act.step.witness and act.target == act.step.all_parts[-1]:
            fact = course.state.fact(act.id)
            installed = course.at(fact.event) if fact is not None else None
            if isinstance(installed, happened.PartInstalled) and not installed.witness:
                yield _remark(act, installed.number)


def _unseen(course: Course, act: Act) -> bool:
    fact = course.state.fact(act.id)
    return fact is None or fact.left_out


def _remark(act: Act, event: int) -> Remark:
    sentence = f"Nobody stands witness for {act.step.name or act.step.id}."
    return Remark("witness missing", Weight.OPEN, sentence, event)
