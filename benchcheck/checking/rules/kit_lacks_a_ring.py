"""A groove for which the kit has no ring."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.kits import held, is_size, needed
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ERROR
WHAT = "The kit, as its bag says, holds fewer rings of a size and rubber than the grooves take."
WHY = "It is missed when the pump lies open; the next one that looks like it is taken."
WRONG = """
[kit]
holds = [{ part = "lip" }]      # no -137 for G1
"""
RIGHT = """
[kit]
holds = [{ ring = "-137", material = "NBR" }, { part = "lip" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    kit = subject.file.kit
    if kit is None:
        return
    for piece, grooves in needed(subject).items():
        count, told = len(grooves), held(kit, piece)
        if told >= count:
            continue
        names = listed([f"`{each}`" for each in grooves], "and")
        others = sorted(
            {each.material or "" for each in kit.holds if each.ring and is_size(each.ring, piece[0])}
        )
        as_well = f" It has {piece[0]} of {listed(others)}." if others and not told else ""
        yield subject.finding(
            "kit-lacks-a-ring",
            SEVERITY,
            kit,
            ("holds",),
            f"{names} take {count} of {' '.join(piece)}; the kit holds {told or 'none'}.{as_well}".replace(
                " take 1 ", " takes one "
            ),
            "Look at the bag: if it holds them, write them here; if not, the grooves are wrong.",
        )
