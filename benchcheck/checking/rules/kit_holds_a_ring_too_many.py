"""A ring in the kit that no groove takes."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.kits import fits, needed, same
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "The kit, as its bag says, holds more rings of a size and rubber than the grooves of any variant take."
WHY = (
    "A ring is left over at the end, and nobody knows whether a groove is empty; or a groove is missing here."
)
WRONG = """
[kit]
holds = [{ ring = "-137", material = "NBR", count = 2 }, { part = "lip" }]
"""
RIGHT = """
[kit]
holds = [{ ring = "-137", material = "NBR", count = 1 }, { part = "lip" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    kit = subject.file.kit
    if kit is None:
        return
    need = needed(subject)
    for index, line in enumerate(kit.holds):
        if line.ring is None:
            continue
        pieces = [piece for piece in need if fits(line, piece)]
        count = sum(len(need[piece]) for piece in pieces)
        told = sum(each.count for each in kit.holds if each.ring and same(each, line))
        first = next(at for at, each in enumerate(kit.holds) if each.ring and same(each, line))
        if told <= count or index != first:
            continue
        name = f"{line.ring} {line.material or ''}".strip()
        yield subject.finding(
            "kit-holds-a-ring-too-many",
            SEVERITY,
            line,
            ("ring",),
            f"The kit holds {told} of {name}; the grooves take {count or 'none'}.",
            "Look at the bag; if it is right, a groove is missing, or has another size or rubber.",
        )
