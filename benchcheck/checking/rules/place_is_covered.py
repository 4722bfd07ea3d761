"""Steps in another order than the stack."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = (
    "A step fits a part whose place is covered by one that is in already, as a `stack` of the file has them."
)
WHY = (
    "Either the steps or the stack are wrong: at the bench the part does not go in, or goes where "
    "it does not belong."
)
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "spacer", "shaft"]

[[step]]
id = "cover-on"
rings = ["G1"]
parts = ["cover", "spacer"]     # the stack has it under the cover

[[part]]
id = "spacer"
into = "body"
from = "drive end"

[[stack]]
on = "body"
from = "drive end"
order = ["cover", "spacer"]
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "spacer", "shaft"]

[[step]]
id = "cover-on"
rings = ["G1"]
parts = ["spacer", "cover"]

[[part]]
id = "spacer"
into = "body"
from = "drive end"

[[stack]]
on = "body"
from = "drive end"
order = ["cover", "spacer"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("place-is-covered"):
        step, part, above = act.step, stop.about, stop.refusal.off
        stack = next(
            each
            for each in subject.file.stack
            if {part, above} <= set(each.order) and each.order.index(above) < each.order.index(part)
        )
        fits = subject.steps_with(above, Verb.INSTALL)
        since = f" since {subject.where_is(fits[0])}" if fits else ""
        yield Finding(
            "place-is-covered",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` fits `{part}` when `{above}` is on already{since}; "
            f"the stack has `{above}` outside it ({subject.line(stack, 'order', stack.order.index(above))})"
            f"{subject.when(stop.cases)}.",
            f"Put `{part}` before `{above}`, or correct the stack, from the drawing.",
        )
