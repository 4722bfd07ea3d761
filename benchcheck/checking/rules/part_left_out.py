"""A part of the finished pump that no step puts in."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A part is declared, belongs into the finished pump, and is not in it at the end, or not yet "
    "when it is needed."
)
WHY = "What no step names lies on the mat at the end, if anybody looks there."
WRONG = """
[[part]]
id = "spacer"       # no step fits it
into = "body"
from = "drive end"

[[stack]]
on = "body"
from = "drive end"
order = ["cover", "spacer", "shaft"]
"""
RIGHT = """
[[part]]
id = "spacer"
into = "body"
from = "drive end"

[[stack]]
on = "body"
from = "drive end"
order = ["cover", "spacer", "shaft"]

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "spacer", "shaft"]

[[step]]
id = "shaft-in"
part = "shaft"

[[step]]
id = "spacer-in"
part = "spacer"
"""


def check(subject: Subject) -> Iterator[Finding]:
    for part, cases in subject.never_put_in().items():
        if subject.part(part) and not subject.steps_with(part, Verb.REMOVE):
            yield Finding(
                "part-left-out",
                SEVERITY,
                subject.place_of_thing(part),
                f"No step fits `{part}`{subject.when(cases)}.",
                f'Write a step with part = "{part}", or take it off the list.',
            )
    for stop in subject.stopped_by("part-left-out"):
        part = stop.about
        if stop.act is not None:
            yield Finding(
                "part-left-out",
                SEVERITY,
                subject.place_of(stop),
                f"`{stop.act.step.id}` puts `{stop.act.target}` over the place of `{part}`, "
                f"which is not in{subject.when(stop.cases)}.",
                f"Put `{part}` in before it.",
            )
        elif not subject.steps_with(part, Verb.REMOVE):
            fits = subject.steps_with(part, Verb.INSTALL)
            yield subject.finding(
                "part-left-out",
                SEVERITY,
                fits[-1],
                ("id",),
                f"`{part}` is not in the pump at the end{subject.when(stop.cases)}.",
                "Fit it on every way through the steps.",
            )
