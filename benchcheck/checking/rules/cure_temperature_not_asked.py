"""A cure that depends on a temperature that nobody reads."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "The cure of a thread-locker holds at a temperature, and no question asks for the one at the bench."
WHY = "Who reads no thermometer takes the shop for warm, and the record cannot show that it was."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
[fasteners.threadlocker]
strength = "medium"
amount = "1 drop"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
[fasteners.threadlocker]
strength = "medium"
amount = "1 drop"
where = "leading threads"
handling = "20 min"
cure = "24 h"
temperature = "22 °C"

[[step]]
id = "screws"
act = "tighten"
group = "F1"
ask = [{ what = "temperature at the bench", min = "22 °C", max = "30 °C" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        locker = group.threadlocker
        if locker is None or locker.temperature is None:
            continue
        asks = [ask for step in subject.file.step if step.group == group.id for ask in step.ask]
        limits = [limit for ask in asks for limit in (ask.min, ask.max) if limit is not None]
        if not any(limit.kind == "temperature" for limit in limits):
            yield subject.finding(
                "cure-temperature-not-asked",
                SEVERITY,
                locker,
                ("temperature",),
                f"The cure of `{group.id}` is for {locker.temperature}, and no step of it asks for that.",
                f'Ask in it for the temperature at the bench, with min = "{locker.temperature}".',
            )
