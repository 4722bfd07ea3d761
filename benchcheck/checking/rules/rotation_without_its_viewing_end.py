"""A direction of rotation, seen from nowhere."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.checking.orientation import is_framed
from benchcheck.checking.subject import Subject
from benchcheck.checking.texts import sentences
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.table import Table

SEVERITY = Severity.WARNING
WHAT = "A text says clockwise or counter-clockwise, and not from which end."
WHY = "From the other end it looks the other way round; the pump is built or tested to run backwards."
WRONG = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "way it turns", one_of = ["clockwise", "counter-clockwise"] }]
"""
RIGHT = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "way it turns, seen from the drive end", one_of = ["clockwise", "counter-clockwise"] }]
"""


_ROTATION = re.compile(r"\b(?:anti|counter)?-?clockwise\b(?!\s+(?:pass|round|order))", re.I)
_TURNED_BY_HAND = re.compile(
    r"\b(?:screws?|nuts?|bolts?|studs?|plugs?|needle|knob|threads?|tighten\w*|loosen\w*|slacken\w*|wrench)\b",
    re.I,
)
"""What is tightened or adjusted is looked at from where it is turned."""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            told = " ".join((ask.what, *ask.one_of))
            if _is_wrong(told):
                yield _finding(subject, ask, "what")
        for key in ("name", "text"):
            if any(_is_wrong(sentence) for sentence in sentences(getattr(step, key) or "")):
                yield _finding(subject, step, key)
    for caution in subject.file.caution:
        if any(_is_wrong(sentence) for sentence in sentences(caution.text)):
            yield _finding(subject, caution, "text")


def _is_wrong(sentence: str) -> bool:
    if _ROTATION.search(sentence) is None:
        return False
    return _TURNED_BY_HAND.search(sentence) is None and not is_framed(sentence)


def _finding(subject: Subject, table: Table, key: str) -> Finding:
    return subject.finding(
        "rotation-without-its-viewing-end",
        SEVERITY,
        table,
        (key,),
        "A direction of rotation is told, but not from which end it is seen.",
        'Write it with the end: "clockwise, seen from the ... end".',
    )
