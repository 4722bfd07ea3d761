"""A time of cure without the temperature for which it holds."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "Thread-locker has its times, and not the temperature for which they are true."
WHY = "In a cold shop it takes twice as long and more: the pump is run while the locker is soft."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
[fasteners.threadlocker]
strength = "medium"
amount = "1 drop"
where = "leading threads"
handling = "20 min"
cure = "24 h"
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
amount = "1 drop"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        locker = group.threadlocker
        if locker is not None and locker.temperature is None:
            yield subject.finding(
                "cure-without-temperature",
                SEVERITY,
                locker,
                ("cure",),
                f"`{group.id}` cures for {locker.cure}, but at which temperature is not said.",
                'Write `temperature` as the maker of the locker states it, such as "22 °C".',
            )
