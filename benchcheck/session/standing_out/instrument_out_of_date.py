"""An instrument that was used after the last day of its calibration, by the register of the day of the look.

ISO 9001:2015, 7.1.5, and for torque tools ISO 6789 (both from memory): an instrument is calibrated at
intervals, and earlier results are looked at again where it was not. The bench refuses such a one; the
register may have been put right since.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.events import Event
from benchcheck.session.remarks import Remark, Weight

WHY = "What an instrument out of date showed has to be looked at again (ISO 9001, 7.1.5)."


@dataclass(frozen=True, slots=True)
class Use:
    """The last use of an instrument in a session."""

    instrument: str
    day: date
    event: int


def uses(course: Course) -> Iterator[Use]:
    """The last use of each wrench and gauge."""
    last: dict[str, Event] = {}
    for event in course.events:
        match event:
            case happened.PositionTightened(wrench=name) | happened.Measured(instrument=name) if name:
                last[name] = event
    for instrument, event in last.items():
        yield Use(instrument, course.day(event), event.number)


def look(course: Course) -> Iterator[Remark]:
    if course.today is not None:
        yield from out_of_date(uses(course), course.state.job.registers.due)


def out_of_date(used: Iterable[Use], due: Mapping[str, date]) -> Iterator[Remark]:
    """What is to be said of these uses, given the last day of each calibration; that day is still good."""
    for each in used:
        last = due.get(each.instrument)
        if last is not None and each.day > last:
            yield Remark(
                "instrument out of date",
                Weight.DEPARTS,
                f"{each.instrument} was used on {each.day}; its calibration ended on {last}.",
                each.event,
            )
