"""A test pressure that nothing in the file bounds."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.pressures import pressings
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "A test presses the pump, and no part that the pressure reaches says what it bears."
WHY = "A slip in the number or in its unit shows only against a second one: 15 bar and 15 psi both look sane."
WRONG = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "5 bar", max = "5.5 bar", hold = "5 min" }]
"""
RIGHT = """
[[part]]
id = "body"
ends = ["drive end", "water end"]
marks = { drain = 180 }
bears = "8 bar"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "5 bar", max = "5.5 bar", hold = "5 min" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for each in pressings(subject):
        if each.presses and not each.reached:
            where = " that `presses` names" if each.ask.presses else ""
            yield subject.finding(
                "pressure-stated-once",
                SEVERITY,
                each.ask,
                (each.key,),
                f"`{each.step.id}` presses with up to {each.most}, and no part{where} says what it bears.",
                'Write `bears` on the weakest part of that circuit, as in bears = "16 bar".',
            )
