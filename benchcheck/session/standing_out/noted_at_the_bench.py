"""What people at the bench wrote down or met with: a word, a groove found otherwise, a wrench laid down or
dropped, another revision, a handover without a signature, a torn end of the record.

Common practice: who writes a remark wants it read.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.session import events as happened
from benchcheck.session.course import Course
from benchcheck.session.remarks import Remark, Weight

WHY = "Who writes something down at the bench wants it read (common practice)."


def look(course: Course) -> Iterator[Remark]:
    for event in course.events:
        match event:
            case happened.Remark():
                yield _remark(Weight.ODD, f"{event.by} wrote: {event.text}", event.number)
            case happened.WrenchChanged():
                yield _remark(Weight.ODD, f"{event.wrench} was laid down: {event.reason}", event.number)
            case happened.GrooveFound():
                yield _remark(Weight.DEPARTS, f"{event.groove} was found {event.found}", event.number)
            case happened.InstrumentDoubted():
                sentence = f"{event.instrument} is in doubt: {event.reason}"
                yield _remark(Weight.DEPARTS, sentence, event.number)
            case happened.MovedOn():
                void = (
                    f"{len(event.void)} confirmations no longer counted" if event.void else "all still counts"
                )
                sentence = f"The work moved on to revision {event.revision}: {void}"
                yield _remark(Weight.DEPARTS, sentence, event.number)
            case happened.WorkHalted():
                yield _remark(Weight.DEPARTS, f"The work was halted: {event.why}", event.number)
            case happened.CardLeft(signed=False):
                sentence = f"{event.name} left without signing the handover card: {event.words}"
                yield _remark(Weight.ODD, sentence, event.number)
            case happened.TakenUp(torn_bytes=torn) if torn:
                sentence = f"{torn} bytes of an unfinished entry were set aside as {event.torn_file}"
                yield _remark(Weight.ODD, sentence, event.number)


def _remark(weight: Weight, words: str, event: int) -> Remark:
    return Remark("noted at the bench", weight, f"{words.removesuffix('.')}.", event)
