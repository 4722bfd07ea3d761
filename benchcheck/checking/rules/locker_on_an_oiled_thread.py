"""Thread-locker on a thread that is oiled too."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import shortened

SEVERITY = Severity.WARNING
WHAT = "A group has thread-locker, and oil, grease or paste on its threads as well."
WHY = "Most lockers do not set on an oily thread, and nobody sees it: the screw holds until it shakes loose."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
friction = { condition = "oiled", nut_factor = 0.15 }
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
friction = { condition = "wet thread-locker", nut_factor = 0.15 }
[fasteners.threadlocker]
strength = "medium"
amount = "1 drop"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"
"""


_GREASY = re.compile(
    r"\b(?:oil(?:ed|y)?|greased?|pastes?|wax(?:ed)?|anti-?seize|lubricat\w+|moly\w*)\b", re.I
)
_NOT = re.compile(r"\b(?:no|not|never|without|free of|off|dry)\b|\b(?:oil|grease)-?\s?free\b", re.I)


def check(subject: Subject) -> Iterator[Finding]:
    parts = {part.id: part for part in subject.file.part}
    for group in subject.file.fasteners:
        if group.threadlocker is None:
            continue
        told: list[tuple[Table, str, str | None]] = [(group, "lubricate", group.lubricate)]
        if group.friction is not None:
            told.append((group.friction, "condition", group.friction.condition))
        told += [(parts[name], "lubricate", parts[name].lubricate) for name in group.parts if name in parts]
        for table, key, text in told:
            if text is not None and _GREASY.search(text) and not _NOT.search(text):
                yield subject.finding(
                    "locker-on-an-oiled-thread",
                    SEVERITY,
                    table,
                    (key,),
                    f'`{group.id}` has thread-locker, and its threads are "{shortened(text)}".',
                    "Leave one of them out; with a locker that bears oil, silence this and say which it is.",
                )
