"""A part that faces the wrong way in the finished pump."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.facings import chain, reversals, said_at
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ERROR
WHAT = "Seat by seat, the steps bring an end of a part to another side than its `must_face` demands."
WHY = (
    "A lip that faces the wrong way lets its oil out; a reversed carrier reverses everything that sits in it."
)
WRONG = """
[[part]]
id = "cover"
ends = ["outer face", "inner face"]
marks = { arrow = 180 }
into = "body"
from = "drive end"
shows = "inner face"        # and so the lip in it faces outward too
lines_up = { arrow = "body: drain" }
ways = 4
"""
RIGHT = """
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
    for reversal in reversals(subject):
        pump, musts = reversal.after.pump, [each.must for each in reversal.broken]
        at = f" at {subject.where_is(reversal.act.step)}" if reversal.act else ""
        chains = ". And: ".join(chain(subject, reversal.after, each) for each in reversal.broken)
        message = f"As it is fitted{at}{subject.when(reversal.cases)}, {chains}."
        if not reversal.menders:
            place = subject.place(musts[0], "toward")
            remedy = "No one part mends it: compare `shows`, `from` and `must_face` with the drawing."
        else:
            part = pump.parts[reversal.menders[0]]
            place = said_at(subject, part, pump.variant)
            remedy = f"Turn {listed(f'`{each}`' for each in reversal.menders)} over: "
            seen = next(end for end in pump.ends(part.id) if end != pump.planned_seen[part.id])
            remedy += f'in `{part.id}` write shows = "{seen}".' if part.shows else "`from` is the other end."
            if len(reversal.broken) > 1:
                remedy += f" That mends all {len(reversal.broken)}."
        yield Finding("part-faces-the-wrong-way", SEVERITY, place, message, remedy)
