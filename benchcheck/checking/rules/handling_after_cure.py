"""A locker that may be handled later than it is cured."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "The handling time of a thread-locker is longer than its cure."
WHY = "The two were exchanged: the pump would be tested while the locker is soft."
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
handling = "24 h"
cure = "20 min"
temperature = "22 °C"
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
        if locker is not None and locker.handling.si > locker.cure.si:
            yield subject.finding(
                "handling-after-cure",
                SEVERITY,
                locker,
                ("handling",),
                f"`{group.id}` may be handled after {locker.handling}, but is cured after {locker.cure}.",
                "Write the short time as `handling` and the long one as `cure`.",
            )
