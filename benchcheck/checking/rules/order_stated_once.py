"""A part whose place in the order is said by the steps alone."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A part stands in no `stack`, and no step of the teardown takes it off."
WHY = (
    "What covers what is worked out from the order of the steps; from that alone any order would "
    "prove itself."
)
WRONG = """
[[part]]
id = "disc"         # in no stack, in no teardown
into = "shaft"
from = "keyed end"

[[step]]
id = "shaft-in"
parts = ["shaft", "disc"]
"""
RIGHT = """
[[part]]
id = "disc"
into = "shaft"
from = "keyed end"

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft", "disc"]

[[step]]
id = "shaft-in"
parts = ["shaft", "disc"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    stacked = {part for stack in subject.file.stack if len(stack.order) > 1 for part in stack.order}
    for part in subject.file.part:
        if part.into is None or part.temporary or part.id in stacked:
            continue
        if not subject.steps_with(part.id, Verb.REMOVE):
            yield subject.finding(
                "order-stated-once",
                SEVERITY,
                part,
                ("id",),
                f"Only the steps say when `{part.id}` goes in: it is in no stack, and no step takes it off.",
                "Write it into a stack, from the drawing, or into the `off` of the teardown.",
            )
