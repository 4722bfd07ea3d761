"""A step before one that its own `after` names."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step stands before a step that has to be done first, as its `after` says."
WHY = "The order was declared where the model of the pump does not show it; at the bench the step is refused."
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"
after = ["screws"]      # which stands below
"""
RIGHT = """
[[step]]
id = "screws"
act = "tighten"
group = "F1"
after = ["cover-on"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("step-before-its-time"):
        step, other = act.step, subject.step(stop.about)
        if other is None:
            continue
        message = (
            f"`{step.id}` is to come after itself."
            if other == step
            else f"`{step.id}` is to come after {subject.where_is(other)}, and stands before it"
            f"{subject.when(stop.cases)}."
        )
        yield subject.finding(
            "step-before-its-time",
            SEVERITY,
            step,
            ("after", step.after.index(other.id)),
            message,
            f"Put `{other.id}` before it, or take it out of `after`.",
        )
