"""A part that comes off and never goes back."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step takes a part off that belongs into the finished pump, and no later step puts it back."
WHY = "It lies on the mat when the pump is closed; shims, keys and springs are missed only when it runs."
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "key", "shaft"]

[[part]]
id = "key"          # no step puts it back
into = "shaft"
from = "keyed end"
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "key", "shaft"]

[[part]]
id = "key"
into = "shaft"
from = "keyed end"

[[step]]
id = "shaft-in"
parts = ["shaft", "key"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    missing = {part: cases for part, cases in subject.never_put_in().items() if subject.part(part)}
    missing |= {stop.about: stop.cases for stop in subject.stopped_by("part-left-out") if stop.act is None}
    for part, cases in missing.items():
        takes = subject.steps_with(part, Verb.REMOVE)
        if takes:
            step = takes[-1]
            yield subject.finding(
                "remove-unanswered",
                SEVERITY,
                step,
                ("off", step.off.index(part)),
                f"`{step.id}` takes `{part}` off, and no later step puts it back{subject.when(cases)}.",
                f'Write a step with part = "{part}", after this one and before what covers it.',
            )
