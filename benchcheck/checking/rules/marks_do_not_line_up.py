"""A part that stands turned about its axis in the finished pump."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.facing import misfits
from benchcheck.checking.facings import reversals
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import MustLineUp

SEVERITY = Severity.ERROR
WHAT = (
    "The mark to which a part is turned brings another mark to another place than its `must_line_up` demands."
)
WHY = (
    "It goes together in several ways, and only one of them joins the ports, or lets leaking oil "
    "out at the lowest place."
)
WRONG = """
[[part]]
id = "body"
ends = ["drive end", "water end"]
marks = { drain = 180, filler = 0 }

[[part]]
id = "cover"
ends = ["outer face", "inner face"]
marks = { arrow = 180 }
into = "body"
from = "drive end"
shows = "outer face"
lines_up = { arrow = "body: filler" }       # it must stand over the drain
ways = 4
"""
RIGHT = """
[[part]]
id = "body"
ends = ["drive end", "water end"]
marks = { drain = 180, filler = 0 }

[[part]]
id = "cover"
ends = ["outer face", "inner face"]
marks = { arrow = 180 }
into = "body"
from = "drive end"
shows = "outer face"
lines_up = { arrow = "body: drain" }
ways = 4
"""


def check(subject: Subject) -> Iterator[Finding]:
    reversed_by = {reversal.act.id for reversal in reversals(subject) if reversal.act}
    for stop in subject.stopped_by("marks-do-not-line-up"):
        if stop.act is not None and stop.act.id in reversed_by:
            continue  # turned over, its marks run the other way round
        for misfit in misfits(stop.after):
            must, part = misfit.must, stop.pump.parts[stop.about]
            if not isinstance(must, MustLineUp) or must.part != part.id:
                continue
            mark = next(iter(part.lines_up), None)
            keys = ("id",) if mark is None else ("lines_up", mark)
            at = f" at {subject.where_is(stop.act.step)}" if stop.act else ""
            yield subject.finding(
                "marks-do-not-line-up",
                SEVERITY,
                part,
                keys,
                f"As it is fitted{at}{subject.when(stop.cases)}, the {must.mark} of `{part.id}` stands over "
                f"{misfit.is_toward} of `{misfit.of}`; it must stand over the {misfit.toward} "
                f"({subject.line(must)}), because {must.because}.",
                "Correct `lines_up`, `marks` or `must_line_up`, from the drawing.",
            )
