"""An amount of thread-locker in words that is not that of the data."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.texts import A_NUMBER, number
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A text tells another number of drops than the thread-locker of its group."
WHY = "Two are shown and three are read: too much runs into the bearing, too little does not hold."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
[fasteners.threadlocker]
strength = "medium"
amount = "2 drops"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
text = "Three drops of thread-locker, all round."
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
[fasteners.threadlocker]
strength = "medium"
amount = "2 drops"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
text = "Two drops of thread-locker, all round."
"""


_DROPS = re.compile(rf"\b(?P<count>{A_NUMBER}) drops?\b(?! ?/)", re.I)
_LOCKER = re.compile(r"lock|thread", re.I)


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        amount = _DROPS.search(group.threadlocker.amount) if group.threadlocker is not None else None
        if amount is None:
            continue
        for passage in subject.told_of[group.id]:
            if passage.table is group.threadlocker:
                continue
            for sentence in passage.sentences:
                told = _DROPS.search(sentence) if _LOCKER.search(sentence) else None
                if told is not None and number(told["count"]) != number(amount["count"]):
                    yield subject.finding(
                        "drops-told-two-ways",
                        SEVERITY,
                        passage.table,
                        passage.keys,
                        f'"{told[0]}" is said here, and the thread-locker of `{group.id}` is {amount[0]}.',
                        "Write the amount of the drawing in the data, and leave it out here.",
                    )
