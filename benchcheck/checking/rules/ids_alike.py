"""Ids that look alike."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Clock, Fasteners, Groove, Part, Step

SEVERITY = Severity.WARNING
WHAT = (
    "Two ids of one kind differ only in small and capital letters, in what stands between, or in "
    "O and 0, l, I and 1."
)
WHY = "They are read as one on the screen and in the record, and the wrong one is typed in the next revision."
WRONG = """
[[part]]
id = "L1P"          # beside lip
into = "shaft"
from = "keyed end"
"""
RIGHT = """
[[part]]
id = "wiper"
into = "shaft"
from = "keyed end"
"""

_ALIKE = str.maketrans({"0": "o", "1": "l", "i": "l", "-": None, "_": None, ".": None})


def check(subject: Subject) -> Iterator[Finding]:
    file = subject.file
    things: tuple[Part | Groove | Fasteners | Clock, ...]
    things = (*file.part, *file.groove, *file.fasteners, *file.clock)
    for tables in (things, file.step):
        alike: dict[str, list[Part | Groove | Fasteners | Clock | Step]] = {}
        for table in tables:
            alike.setdefault(_seen(table.id), []).append(table)
        for group in alike.values():
            if len(group) == 1:
                continue  # where it stands need not be known
            other, *rest = sorted(group, key=lambda each: subject.place(each, "id"))
            for table in rest:
                yield subject.finding(
                    "ids-alike",
                    SEVERITY,
                    table,
                    ("id",),
                    f"`{table.id}` looks like `{other.id}` ({subject.line(other, 'id')}).",
                    "Give one of them another name.",
                )


def _seen(name: str) -> str:
    """An id as a tired eye sees it."""
    return name.casefold().translate(_ALIKE)
