"""A number of rings that nothing confirms."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "There are grooves, and no line of the `[kit]` says how many rings the bag holds."
WHY = (
    "A groove that was forgotten in the file is missed by nobody: the bag is the only other one "
    "who knows of it."
)
WRONG = """
[kit]
holds = [{ part = "lip" }]      # and the rings?
"""
RIGHT = """
[kit]
holds = [{ ring = "-137", material = "NBR" }, { part = "lip" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    kit = subject.file.kit
    if subject.file.groove and not (kit and any(line.ring for line in kit.holds)):
        yield subject.finding(
            "ring-count-stated-once",
            SEVERITY,
            subject.file.groove[0],
            (),
            "Nothing but the grooves says how many rings there are.",
            "Write in [kit] what is printed on its bag, the rings too.",
        )
