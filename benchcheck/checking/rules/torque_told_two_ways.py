"""A torque in words that is not that of the data."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import QuantityError, limits, parse
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners, Step

SEVERITY = Severity.WARNING
WHAT = "A text tells a torque that is none of its group's: not the target, not a round, not a limit."
WHY = "One of the two is read out aloud and the other is set; whichever is wrong, the record looks right."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
text = "The cover is soft: no more than 9 N·m at the last."
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
"""


_TORQUE = re.compile(
    r"(?<![\d.,/-])\d{1,4}(?:\.\d{1,3})? ?"
    r"(?:[kmcd]?N[·⋅ .-]?m{1,2}|lbf?[·⋅ .-]?(?:ft|in)|(?:ft|in)[·⋅ .-]?lbf?|kgf?[·⋅ .-]?c?m|ozf?[·⋅ .-]?in)\b"
)
_SAME = 0.01
"""Share by which a torque in words may be rounded."""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.torque is None:
            continue
        own = list(_own(group))
        for passage in subject.told_of[group.id]:
            if (not isinstance(passage.table, Step) and passage.table is not group) or passage.keys == (
                "low_because",
            ):
                continue
            for match in _TORQUE.finditer(passage.text):
                try:
                    told = parse(match[0], "torque")
                except QuantityError:
                    continue
                if not any(abs(told.si - each) <= _SAME * each for each in own):
                    yield subject.finding(
                        "torque-told-two-ways",
                        SEVERITY,
                        passage.table,
                        passage.keys,
                        f'"{match[0]}" is said here, and `{group.id}` gets {group.torque.target}.',
                        "Write the torque of the drawing in the data, and leave it out here.",
                    )


def _own(group: Fasteners) -> Iterator[float]:
    """Every torque that is told by the group's data [N·m]."""
    assert group.torque is not None
    target = group.torque.target.si
    yield from (target, *limits(group.torque.target, group.torque.tolerance))
    yield from (target * share.si for share in group.rounds)
    if group.prevailing is not None:
        yield from (group.prevailing.min.si, group.prevailing.max.si)
