"""Steps in another order than the stack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.assembly.acts import Act, Verb
from benchcheck.checking.order import in_the_wrong_order
from benchcheck.checking.subject import Subject
from benchcheck.checking.walk import Stop
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Step
from benchcheck.procedure.wording import listed

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
    covered: dict[str, list[tuple[Stop, Act]]] = {}
    for stop, act in in_the_wrong_order(subject):
        covered.setdefault(stop.refusal.off, []).append((stop, act))
    for above, stops in covered.items():
        fits = subject.steps_with(above, Verb.INSTALL)
        if len(stops) > 1:
            yield _too_early(subject, above, fits[0], [stop for stop, _ in stops])
            continue
        for stop, act in stops:
            since = subject.where_is(fits[0])
            yield Finding(
                "place-is-covered",
                SEVERITY,
                subject.place_of(stop),
                f"`{act.step.id}` fits `{stop.about}` when `{above}` is on already since {since}; "
                f"the stack has `{above}` outside it ({_line(subject, above, stop.about)})"
                f"{subject.when(stop.cases)}.",
                f"Put `{stop.about}` before `{above}`, or correct the stack, from the drawing.",
            )


def _too_early(subject: Subject, above: str, step: Step, stops: Sequence[Stop]) -> Finding:
    """One part that went in before several that lie below it: it is the one in the wrong place."""
    below = [stop.about for stop in stops]
    cases = tuple(dict.fromkeys(case for stop in stops for case in stop.cases))
    return Finding(
        "place-is-covered",
        SEVERITY,
        subject.place_of_part(step, above),
        f"`{step.id}` fits `{above}` before {listed((f'`{each}`' for each in below), 'and')}, "
        f"over which the stack has it ({_line(subject, above, below[0])}){subject.when(cases)}.",
        f"Put `{above}` after them, or correct the stack, from the drawing.",
    )


def _line(subject: Subject, above: str, below: str) -> str:
    """Where a stack has one part outside the other."""
    for stack in subject.file.stack:
        if {above, below} <= set(stack.order) and stack.order.index(above) < stack.order.index(below):
            return subject.line(stack, "order", stack.order.index(above))
    raise LookupError(above, below)
