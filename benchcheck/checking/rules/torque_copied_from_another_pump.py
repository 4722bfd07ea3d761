"""A torque that stands in another procedure, for another thread."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import thread_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners, Procedure

SEVERITY = Severity.WARNING
WHAT = "A group has the very target and tolerance of its namesake in another procedure, on another thread."
WHY = "A table copied from another model keeps the numbers of that model; only the thread was changed."
WRONG = """
# In the procedure of another pump, F1 has M8 screws and 18 N·m ±8 %.
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "18 N·m", tolerance = "8 %" }
thread = "M6"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
"""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    others = [each.model for each in subject.others if each.model.procedure.id != head.id]
    for group in subject.file.fasteners:
        for other in others:
            copied = _copied(group, other)
            if copied is None or group.torque is None:
                continue
            yield subject.finding(
                "torque-copied-from-another-pump",
                SEVERITY,
                group.torque,
                ("target",),
                f"{group.torque.target} ±{group.torque.tolerance} stands for `{copied.id}` of "
                f"{other.procedure.id} too, on {copied.thread}; here the thread is {group.thread}.",
                "Check the torque against the drawing of this model.",
            )
            break


def _copied(group: Fasteners, other: Procedure) -> Fasteners | None:
    """The group of another procedure that this one has its numbers from, as it seems."""
    for each in other.fasteners:
        namesakes = each.id == group.id or each.called.casefold() == group.called.casefold()
        if namesakes and each.torque is not None and each.torque == group.torque:
            mine, theirs = thread_of(group), thread_of(each)
            if mine is not None and theirs is not None and str(mine) != str(theirs):
                return each
    return None
