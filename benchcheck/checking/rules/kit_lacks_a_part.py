"""A single-use part that is always taken out, and of which the kit has none."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = (
    "A part that is good only once is taken out in every job, and the kit, as its bag says, has no new one."
)
WHY = "The old one goes back in, or the job stops with the pump open."
WRONG = """
[kit]
holds = [{ ring = "-137", material = "NBR" }]      # the lip is pressed out, and is scrap then
"""
RIGHT = """
[kit]
holds = [{ ring = "-137", material = "NBR" }, { part = "lip" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    kit = subject.file.kit
    if kit is None:
        return
    told = {line.part for line in kit.holds}
    always_off = {name for step in subject.file.step if not step.if_ for name in step.off}
    put_in = {name for step in subject.file.step for name in step.all_parts}
    for part in subject.file.part:
        if part.single_use is None or part.id in told or part.temporary:
            continue
        if part.id in always_off and part.id in put_in:
            yield subject.finding(
                "kit-lacks-a-part",
                SEVERITY,
                kit,
                ("holds",),
                f"`{part.id}` is taken out in every job and is good only once, and the kit holds no new one.",
                f'Look at the bag: if it is in it, write {{ part = "{part.id}" }}.',
            )
