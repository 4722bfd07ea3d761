"""A left-hand thread in words, and a right-hand one in the data, or the other way about."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.joints import thread_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners
from benchcheck.procedure.table import Table

SEVERITY = Severity.ERROR
WHAT = "A text or a thread says left-hand, and the group it is about says right-hand, or the reverse."
WHY = "The way to turn is drawn from the data: the screw is loosened instead of tightened, or sheared off."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20, left-hand" }]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20, left-hand" }]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
hand = "left"
"""


_LEFT = re.compile(r"\bleft[- ]?hand(?:ed)?\b(?! (?:side|end|face|edge|port))|(?<=\d[ -])LH\b", re.I)
_RIGHT = re.compile(r"\bright[- ]?hand(?:ed)?\b(?! (?:side|end|face|edge|port))", re.I)


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        thread = thread_of(group)
        if thread is not None and thread.left_hand and group.hand == "right":
            yield _finding(subject, group, group, ("thread",), f'The thread "{group.thread}" is left-hand')
        for passage in subject.told_of[group.id]:
            left, right = _LEFT.search(passage.text), _RIGHT.search(passage.text)
            other = left if group.hand == "right" else right
            if other is not None and not (left and right):
                yield _finding(subject, group, passage.table, passage.keys, f'"{other[0]}" is said here')


def _finding(
    subject: Subject, group: Fasteners, table: Table, keys: tuple[str | int, ...], told: str
) -> Finding:
    side = "left" if group.hand == "right" else "right"
    return subject.finding(
        "hand-told-two-ways",
        SEVERITY,
        table,
        keys,
        f"{told}, and `{group.id}` is tightened as a {group.hand}-hand thread.",
        f'Write hand = "{side}" in `{group.id}`, or mend the words.',
    )
