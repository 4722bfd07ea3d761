"""Two ways of locking one thread."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners

SEVERITY = Severity.WARNING
WHAT = "A group has thread-locker and a locking nut, washer, wire or pin as well."
WHY = "Each spoils the other: the nut scrapes the locker off, and the washer keeps the joint from seating."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
friction = { condition = "wet thread-locker", nut_factor = 0.15 }
prevailing = { min = "0.4 N·m", max = "1.5 N·m", add = "always" }
[fasteners.threadlocker]
strength = "medium"
amount = "1 drop"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
friction = { condition = "oiled", nut_factor = 0.15 }
prevailing = { min = "0.4 N·m", max = "1.5 N·m", add = "always" }
"""


_DEVICE = re.compile(
    r"\b(?:lock ?washers?|tab ?washers?|spring washers?|tooth(?:ed)? washers?|split pins?|cotter pins?"
    r"|lock(?:ing)?[- ]?wires?|self-?locking|prevailing|nylon inserts?|castle nuts?)\b",
    re.I,
)


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.threadlocker is None:
            continue
        other = "a locking nut, with its running torque" if group.prevailing is not None else None
        if other is None:
            words = (_DEVICE.search(text) for text in _names(subject, group))
            other = next((f'"{word[0]}"' for word in words if word is not None), None)
        if other is not None:
            yield subject.finding(
                "two-means-of-locking",
                SEVERITY,
                group,
                ("threadlocker",),
                f"`{group.id}` has thread-locker, and {other}.",
                "Write the one that the drawing has.",
            )


def _names(subject: Subject, group: Fasteners) -> Iterator[str]:
    """What the group and all that it holds are called, in the stores and at the bench."""
    yield group.called
    yield from (screws.item for screws in group.screws)
    for part in subject.file.part:
        if part.id in (*group.parts, *group.holds):
            yield part.called
            yield part.item or ""
