"""How a part is turned about its axis: said once, or not at all."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = (
    "A part that goes together in several ways has no mark to be turned to, or only one of "
    "`lines_up` and `must_line_up`."
)
WHY = (
    "Cover and ports fit all the same when they stand turned by one screw; only the test shows "
    "it, if it does."
)
WRONG = """
[[part]]
id = "disc"
into = "shaft"
from = "keyed end"
ways = 2            # and which of the two?
"""
RIGHT = """
[[part]]
id = "disc"
into = "shaft"
from = "keyed end"
marks = { notch = 0 }
lines_up = { notch = "shaft: keyway" }
ways = 2

[[part]]
id = "shaft"
ends = ["keyed end", "plain end"]
marks = { keyway = 0 }
into = "body"
from = "drive end"
shows = "keyed end"

[[must_line_up]]
part = "disc"
mark = "notch"
of = "shaft"
toward = "keyway"
because = "the sender reads the notch"
"""


def check(subject: Subject) -> Iterator[Finding]:
    must = {line.part: line for line in subject.file.must_line_up}
    for part in subject.file.part:
        if part.ways > 1 and not part.lines_up and part.id not in must:
            yield subject.finding(
                "turn-stated-once",
                SEVERITY,
                part,
                ("ways",),
                f"`{part.id}` goes together in {part.ways} ways, and nothing says in which.",
                "Write `lines_up` in it, and a must_line_up from the drawing.",
            )
        elif part.lines_up and part.id not in must:
            yield subject.finding(
                "turn-stated-once",
                Severity.ADVICE,
                part,
                ("lines_up",),
                f"Only `lines_up` says how `{part.id}` is turned.",
                "Write a must_line_up for it as well, from the drawing.",
            )
        elif part.id in must and not part.lines_up:
            yield subject.finding(
                "turn-stated-once",
                Severity.ADVICE,
                must[part.id],
                ("part",),
                f"Only must_line_up says how `{part.id}` is turned.",
                f"Write `lines_up` in `{part.id}` as well: which of its marks the fitter brings over which.",
            )
