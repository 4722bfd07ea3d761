"""A groove that is hidden before its ring is in it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "An act hides a groove in which no ring lies yet, or a groove is never filled at all."
WHY = "What is hidden is not looked at again; the pump leaks under pressure, or at once."
WRONG = """
[[step]]
id = "cover-on"
part = "cover"      # closes G1

[[step]]
id = "fit-G1"
rings = ["G1"]      # too late
"""
RIGHT = """
[[step]]
id = "fit-G1"
rings = ["G1"]

[[step]]
id = "cover-on"
part = "cover"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop in subject.stopped_by("groove-left-empty"):
        yield Finding(
            "groove-left-empty",
            SEVERITY,
            subject.place_of(stop),
            f"{stop.refusal.wrong}" + (f" ({stop.refusal.where})" if stop.refusal.where else ""),
            f"fit {stop.refusal.mend} before it" if stop.refusal.mend else "add a step that fits its ring",
        )
