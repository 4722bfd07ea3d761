"""A test pressure above what the weakest part in its circuit bears."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.pressures import pressings
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A test may press a part harder than it bears."
WHY = "It bursts or is stretched for good, with a person beside it; a lip seal is blown off its shaft unseen."
WRONG = """
[[part]]
id = "cover"
ends = ["outer face", "inner face"]
marks = { arrow = 180 }
into = "body"
from = "drive end"
shows = "outer face"
lines_up = { arrow = "body: drain" }
ways = 4
bears = "6 bar"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "9.5 bar", max = "10 bar", hold = "5 min" }]
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
bears = "6 bar"

[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "5 bar", max = "5.5 bar", hold = "5 min" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for each in pressings(subject):
        weakest = min(each.reached, key=lambda part: part.bears.si if part.bears else 0, default=None)
        if weakest is None or weakest.bears is None or weakest.bears.si >= each.most.si:
            continue
        yield subject.finding(
            "part-pressed-too-hard",
            SEVERITY,
            each.ask,
            (each.key,),
            f"`{each.step.id}` presses with up to {each.most}, and `{weakest.id}` "
            f"({subject.line(weakest, 'bears')}) bears {weakest.bears}.",
            f"Write limits up to {weakest.bears}, or in `presses` which parts this pressure reaches.",
        )
