"""A temporary tool that goes in and never comes out."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step puts a temporary tool in, and no later step takes it out."
WHY = "It is closed in with the pump and breaks it at the first turn."
WRONG = """
[[part]]
id = "pin"
into = "shaft"
from = "keyed end"
temporary = true

[[step]]
id = "shaft-in"
parts = ["shaft", "pin"]        # it is never taken out
"""
RIGHT = """
[[part]]
id = "pin"
into = "shaft"
from = "keyed end"
temporary = true

[[step]]
id = "shaft-in"
parts = ["shaft", "pin"]

[[step]]
id = "pin-out"
act = "remove"
off = ["pin"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop in subject.stopped_by("tool-left-inside"):
        tool = stop.about
        step = subject.steps_with(tool, Verb.INSTALL)[-1]
        yield Finding(
            "tool-left-inside",
            SEVERITY,
            subject.place_of_part(step, tool),
            f"`{step.id}` puts the tool `{tool}` in, and no later step takes it out"
            f"{subject.when(stop.cases)}.",
            f'Write a step with act = "remove" and off = ["{tool}"].',
        )
