"""A groove that is hidden before its ring is in it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
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
    with_an_old_ring = {stop.about for stop in subject.stopped_by("single-use-fitted-again")}
    for stop in subject.stopped_by("groove-left-empty"):
        if stop.act is None and stop.about in with_an_old_ring:
            continue
        groove, fits = stop.about, subject.steps_with(stop.about, Verb.FIT)
        if stop.act is None:
            message = f"No ring is in `{groove}` at the end{subject.when(stop.cases)}."
            remedy = f'Write rings = ["{groove}"] in the step that closes it, or in one before it.'
        else:
            step = stop.act.step
            late = f", and {subject.where_is(fits[-1])} comes too late" if fits else "; no step fits its ring"
            message = f"`{step.id}` hides `{groove}` with no ring in it{subject.when(stop.cases)}{late}."
            remedy = (
                f"Put `{fits[-1].id}` before `{step.id}`."
                if fits
                else f'Write rings = ["{groove}"] in `{step.id}`, or in a step before it.'
            )
        yield Finding("groove-left-empty", SEVERITY, subject.place_of(stop), message, remedy)
