"""Readings inside their limits by less than the instrument's own error, and readings outside them.

ISO 14253-1 (from memory): what lies inside the limits by less than the uncertainty is neither proved good nor
proved bad. The mark was put on at the bench; only what stands is named.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "Near a limit the instrument's error decides (ISO 14253-1)."
UNGUARDED = "outside the guarded part"


def look(course: Course) -> Iterator[Remark]:
    for done in course.rounds:
        if not done.stands:
            continue
        for event in done.tightened:
            if event.marked:
                yield _remark(course, event, f"round {event.round}, {event.value:g} {event.unit}")
    loosened = {each.group: each.number for each in course.of(happened.GroupLoosened)}
    for turned in course.of(happened.PositionTurned):
        if turned.marked and turned.number > loosened.get(turned.group, 0):
            yield _remark(course, turned, f"turned {turned.degree:g}°")
    for read in _standing(course):
        if read.marked:
            what = read.what[:1].upper() + read.what[1:]
            got = f"{read.value:g} {read.unit}"
            sentence = f"{what}, {got}: inside its limits by less than the error of {read.instrument}."
            yield Remark("reading unguarded", Weight.DEPARTS, sentence, read.number)


def _standing(course: Course) -> Iterator[happened.Measured]:
    """The last reading at each place of what is confirmed still."""
    last = {(each.act, each.place): each for each in course.of(happened.Measured)}
    return (each for each in last.values() if course.state.fact(each.act) is not None)


def _remark(course: Course, event: happened.PositionTightened | happened.PositionTurned, got: str) -> Remark:
    called = course.state.pump.called(event.group)
    near = event.marked.startswith(UNGUARDED)
    how = "inside its limits by less than the wrench's error" if near else event.marked
    return Remark(
        "reading unguarded",
        Weight.DEPARTS,
        f"{called[:1].upper()}{called[1:]}, position {event.position}, {got}: {how}.",
        event.number,
    )
