"""Numbers taken over from another procedure that nobody has compared with the drawing of this pump."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Status
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ERROR
WHAT = "Numbers of the procedure are not yet confirmed for this model: an error once it is released."
WHY = "A torque that was right for another pump looks just as sure here, and strips the thread or lets go."
WRONG = """
[procedure]
unconfirmed = ["F1: torque", "F1: thread"]  # taken over, not yet compared with the drawing
"""
RIGHT = """
[procedure]
unconfirmed = []                            # each was compared, and then taken out
"""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    by_thing: dict[str, list[int]] = {}
    for place, entry in enumerate(head.unconfirmed):
        by_thing.setdefault(entry.partition(":")[0].strip(), []).append(place)
    for thing, places in by_thing.items():
        keys = [head.unconfirmed[place].partition(":")[2].strip() for place in places]
        told = f": {listed([f'`{key}`' for key in keys if key], 'and')}" if any(keys) else ""
        yield subject.finding(
            "number-not-confirmed",
            SEVERITY if head.status is Status.RELEASED else Severity.WARNING,
            head,
            ("unconfirmed", places[0]),
            f"Not yet confirmed for this model, of `{thing}`{told}.",
            "Compare the numbers with this pump's drawing, mend them, and take the entries out of the list.",
        )
