"""A word that is true only as long as the work lies as its author saw it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.orientation import UNSTEADY_NAME, names_of, orientation_word
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A text says up, down, left, right, front, top or inward, and not of what."
WHY = "The work is turned over between two steps, or lies otherwise elsewhere: then it says the opposite."
WRONG = """
[[step]]
id = "lip-in"
part = "lip"
text = "Press it home, lip down."
"""
RIGHT = """
[[step]]
id = "lip-in"
part = "lip"
text = "Press it home on its case."      # which way it faces is asked anyway
"""


def check(subject: Subject) -> Iterator[Finding]:
    names = names_of(subject.file)
    for passage in subject.instructions:
        word = orientation_word(passage.text, names)
        if word is not None:
            yield subject.finding(
                "orientation-word",
                SEVERITY,
                passage.table,
                passage.keys,
                f'"{word}" is true only as long as the work is held as you imagine it.',
                "Leave it out, for what faces where is worked out and asked; or name an end.",
            )
    for part in subject.file.part:
        for index, end in enumerate(part.ends or ()):
            if UNSTEADY_NAME.search(end):
                yield subject.finding(
                    "orientation-word",
                    Severity.ADVICE,
                    part,
                    ("ends", index),
                    f'An end of `{part.id}` is called "{end}", which it is only while the part is held so.',
                    "Name the end by what one can see or feel there.",
                )
