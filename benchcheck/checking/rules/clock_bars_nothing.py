"""A clock that starts when all that it bars is over."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.courses import courses
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.table import Table

SEVERITY = Severity.WARNING
WHAT = "Every step that a clock bars stands before the step that starts it, or there is no such step."
WHY = "The time was written down for a reason, and nothing heeds it."
WRONG = """
[[clock]]
id = "soak"
starts = "leak"
least = "5 min"
bars = ["cover-on"]     # long done
because = "a dry ring is nicked when the pressure comes on"
"""
RIGHT = """
[[clock]]
id = "soak"
starts = "cover-on"
least = "5 min"
bars = ["leak"]
because = "a dry ring is nicked when the pressure comes on"

[[step]]
id = "soaked"
phase = "test"
act = "wait"
clock = "soak"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "drops at the drain in five minutes", one_of = ["none", "one or more"], good = ["none"] }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    heeded: dict[str, bool] = {}
    for course in courses(subject):
        heeded[course.clock.id] = heeded.get(course.clock.id, False) or course.bars_something
    for name, is_heeded in heeded.items():
        if is_heeded:
            continue
        table: Table | None = next((each for each in subject.file.clock if each.id == name), None)
        keys: tuple[str, ...] = ("bars",)
        if table is None:  # a clock that a group makes
            group = subject.group(name.rpartition(" ")[0])
            table = group and (group.threadlocker if name.endswith(" cure") else group.again)
            keys = ("bars",) if name.endswith(" cure") else ("before",)
        if table is not None:
            yield subject.finding(
                "clock-bars-nothing",
                SEVERITY,
                table,
                keys,
                f"All that the clock `{name}` bars is over when it starts.",
                "Name the steps or phases that have to wait for it.",
            )
