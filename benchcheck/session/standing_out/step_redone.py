"""What was done and did not stay: gone back for, corrected, answered outside its limits at first.

Common practice: most of what is found wrong later was touched twice.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "What was undone and done again was wrong once; rework is where new faults come in (common practice)."


def look(course: Course) -> Iterator[Remark]:
    pump = course.state.pump
    for back in course.of(happened.WentBack):
        targets = ", ".join(pump.the(target) for target in back.targets)
        yield _remark(f"The work went back to {targets}: {back.reason}.", back.number)
    for corrected in course.of(happened.Corrected):
        sentence = f"The answer of event {corrected.event} was corrected: {corrected.reason}."
        yield _remark(sentence, corrected.number)
    for each in course.of(happened.Measured):
        if each.verdict == "outside":
            yield _remark(f"{each.what} was {each.value:g} {each.unit}, outside its limits.", each.number)
    for told in course.of(happened.Told):
        if told.verdict == "outside":
            yield _remark(f"{told.what} was {told.value}, not as due.", told.number)


def _remark(sentence: str, event: int) -> Remark:
    return Remark("step redone", Weight.DEPARTS, sentence, event)
