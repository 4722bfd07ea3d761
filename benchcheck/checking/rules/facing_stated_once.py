"""A facing that is said from one side only."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import SIDE

SEVERITY = Severity.ADVICE
WHAT = "Which way a part faces is said by `shows` alone, or by `must_face` alone."
WHY = (
    "A thing said once proves itself: a slip in it shows only if the drawing and the fitter's "
    "view are both written down."
)
WRONG = """
[[part]]
id = "disc"
ends = ["stamped face", "plain face"]
into = "shaft"
from = "keyed end"
shows = "stamped face"      # and which way must it face?
"""
RIGHT = """
[[part]]
id = "disc"
ends = ["stamped face", "plain face"]
into = "shaft"
from = "keyed end"
shows = "stamped face"

[[must_face]]
part = "disc"
end = "stamped face"
toward = "drive end"
because = "the sender reads the stamp"
"""


def check(subject: Subject) -> Iterator[Finding]:
    file = subject.file
    faced = {must.part: must for must in file.must_face}
    for part in file.part:
        across = SIDE in part.ends_it_goes_in_from
        if part.ends is None or part.into is None or part.temporary or across:
            continue
        if part.id not in faced:
            yield subject.finding(
                "facing-stated-once",
                SEVERITY,
                part,
                ("shows",),
                f"Only `shows` says which way `{part.id}` faces.",
                "Write a must_face for it as well, from the drawing.",
            )
        elif part.shows is None:
            yield subject.finding(
                "facing-stated-once",
                SEVERITY,
                part,
                ("id",),
                f"Only must_face ({subject.line(faced[part.id])}) says which way `{part.id}` faces.",
                "Write `shows` as well: the end that faces whoever fits it.",
            )
