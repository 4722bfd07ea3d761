"""A locking nut, and no word on its running torque."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A group's nuts lock by themselves, and nothing says what their running torque may be and if it is added."
)
WHY = "Part of the torque only turns the nut: the joint gets too little, or a worn nut is used again unseen."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 self-locking nut" }]
torque = { target = "7 N·m", tolerance = "10 %" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 self-locking nut" }]
torque = { target = "7 N·m", tolerance = "10 %" }
prevailing = { min = "0.4 N·m", max = "1.5 N·m", add = "always" }
"""


_LOCKS_ITSELF = re.compile(
    r"\b(?:prevailing|self-? ?locking|all-metal (?:lock)?nuts?|nylon inserts?|stiff nuts?|locking nuts?)\b",
    re.I,
)


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.prevailing is not None or group.torque is None:
            continue
        for passage in subject.told_of[group.id]:
            word = _LOCKS_ITSELF.search(passage.text)
            if word is not None:
                yield subject.finding(
                    "locking-nut-without-a-rule",
                    SEVERITY,
                    passage.table,
                    passage.keys,
                    f'"{word[0]}" is said of `{group.id}`, and it has no `prevailing`.',
                    "Write `prevailing` with `min`, `max` and `add`; published rules on adding differ.",
                )
                break
