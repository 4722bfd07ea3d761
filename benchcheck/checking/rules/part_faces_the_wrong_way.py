"""A part that faces the wrong way in the finished pump."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.pump import Pump
from benchcheck.checking.facings import chain, menders_together, reversals, said_at
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
        at = f" at {subject.where_is(reversal.act.step)}" if reversal.act else ""
        chains = ". And: ".join(chain(subject, reversal.after, each) for each in reversal.broken)
        message = f"As it is fitted{at}{subject.when(reversal.cases)}, {chains}."
        together = () if reversal.menders else menders_together(reversal.after, reversal.broken[0])
        if not reversal.menders and not together:
            place = subject.place(reversal.broken[0].must, "toward")
            remedy = "No one part mends it: compare `shows`, `from` and `must_face` with the drawing."
        else:
            pump = reversal.after.pump
            place = said_at(subject, pump.parts[(reversal.menders or together)[0]], pump.variant)
            remedy = _remedy(pump, reversal.menders, together, len(reversal.broken))
        yield Finding("part-faces-the-wrong-way", SEVERITY, place, message, remedy)


def _remedy(pump: Pump, menders: tuple[str, ...], together: tuple[str, ...], broken: int) -> str:
    if together:
        names = listed((f"`{each}`" for each in together), "and")
        return f"Turn {names} over: each hides that the other is wrong."
    part = pump.parts[menders[0]]
    seen = next(end for end in pump.ends(part.id) if end != pump.planned_seen[part.id])
    remedy = f"Turn {listed(f'`{each}`' for each in menders)} over: "
    remedy += f'in `{part.id}` write shows = "{seen}".' if part.shows else "`from` is the other end."
    return remedy + (f" That mends all {broken}." if broken > 1 else "")
