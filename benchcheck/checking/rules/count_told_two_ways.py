"""A count in words that the layout does not have."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.texts import A_NUMBER, groups_of, number, of_cautions, of_step
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import listed

SEVERITY = Severity.WARNING
WHAT = 'A text says "all six" or "the 8 screws", and the group it is about has another number.'
WHY = "Who counts to six stops at the sixth; or the text was copied, and who knows what else with it."
WRONG = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"      # four positions
text = "Look at all six screws once more."
"""
RIGHT = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"
text = "Look at all four screws once more."
"""


_NOUN = r"(?:\w+[- ])?(?:screws?|bolts?|nuts?|studs?|fasteners?|positions?|heads?|fittings?|plugs?)"
_COUNT = re.compile(
    rf"\b(?:all (?:the |of the )?(?P<all>{A_NUMBER})\b(?= of them| {_NOUN}\b|\s*(?:[.,;:)]|$))"
    rf"|(?<![\d.,/-])(?P<of>{A_NUMBER})(?= {_NOUN}\b))",
    re.I,
)


def check(subject: Subject) -> Iterator[Finding]:
    file = subject.file
    for group in file.fasteners:
        for key in ("name", "low_because"):
            yield from _of(subject, getattr(group, key) or "", group, (key,), (group,))
    for step in file.step:
        for passage in of_step(step):
            yield from _of(subject, passage.text, passage.table, passage.keys, groups_of(file, step))
    for passage in of_cautions(file):
        groups = tuple(group for step in passage.steps for group in groups_of(file, step))
        yield from _of(subject, passage.text, passage.table, passage.keys, groups)


def _of(
    subject: Subject, text: str, table: Table, keys: tuple[str | int, ...], groups: tuple[Fasteners, ...]
) -> Iterator[Finding]:
    counts = {group.count for group in groups}
    for match in _COUNT.finditer(text):
        told = number(match["all"] or match["of"])
        # "one screw" and "the two outer screws" may be some of them; a larger count, or all of them, may not
        if groups and told not in counts and (match["all"] is not None or told > max(counts)):
            has = listed([f"`{group.id}` has {group.count}" for group in groups], "and")
            yield subject.finding(
                "count-told-two-ways",
                SEVERITY,
                table,
                keys,
                f'"{match[0]}" is said here, and {has}.',
                "Check the layout against the drawing, and write its count, or none.",
            )
            return
