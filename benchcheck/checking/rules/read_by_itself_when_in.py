"""A part that is read by itself after it went in."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.readings import readings
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A reading with between = false is about a part that is in the pump by then."
WHY = "What can only be measured on the bench is not measured, or measured somehow."
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"

[[step]]
id = "runout-again"
act = "measure"
of = ["shaft"]          # in the body by then
between = false
ask = [{ what = "runout at the seal track", max = "0.05 mm" }]
"""
RIGHT = """
[[step]]
id = "runout-again"
act = "measure"
of = ["shaft"]
between = false
ask = [{ what = "runout at the seal track", max = "0.05 mm" }]

[[step]]
id = "shaft-in"
part = "shaft"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for question, step, now in readings(subject):
        if step.between:
            continue
        inside = [each for each in question.of or step.of if each in now.seated and now.present(each)]
        if inside:
            yield subject.finding(
                "read-by-itself-when-in",
                SEVERITY,
                question if question.of else step,
                ("of",),
                f"`{step.id}` reads `{inside[0]}` by itself (between = false), and it is in by then.",
                "Put it before the step that fits it, or leave `between` out if it is read in its place.",
            )
