"""A thread that the group's own screws, parts or bosses contradict."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import thread_of
from benchcheck.checking.screws import thread_in
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.thread import Thread
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners
from benchcheck.procedure.table import Table

SEVERITY = Severity.WARNING
WHAT = "A group's thread is not that of its screws, of the part that is its nut, or of the boss it sits in."
WHY = "The torque is proved for one thread and given to another."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M8 x 20" }]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20" }]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        thread = thread_of(group)
        if thread is None:
            continue
        for what, text, table, key in _also_told(subject, group):
            other = thread_in(text)
            if other is not None and _unlike(thread, other):
                yield subject.finding(
                    "thread-told-two-ways",
                    SEVERITY,
                    table,
                    (key,),
                    f"{what} is {other}, and the thread of `{group.id}` is {thread}.",
                    "Write the one that the drawing has in both places.",
                )


def _also_told(subject: Subject, group: Fasteners) -> Iterator[tuple[str, str, Table, str]]:
    """Every other place that tells the thread of a group: what, text, table and key."""
    for screws in group.screws:
        yield f'The screw "{screws.item}"', screws.item, screws, "item"
    for part in subject.file.part:
        if part.id in group.parts and part.item is not None:
            yield f"The item of `{part.id}`", part.item, part, "item"
    for groove in subject.file.groove:
        if groove.in_ in group.parts and groove.gland is not None and groove.gland.boss is not None:
            yield f"The boss of `{groove.id}`", groove.gland.boss, groove.gland, "boss"


def _unlike(one: Thread, other: Thread) -> bool:
    return (one.diameter_millimetre, one.pitch_millimetre) != (
        other.diameter_millimetre,
        other.pitch_millimetre,
    )
