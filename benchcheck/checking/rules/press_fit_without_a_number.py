"""A press fit that nothing proves home."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.planned import BUILDS
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fit, Step

SEVERITY = Severity.ERROR
WHAT = (
    "A part with a press or heat fit is fitted, and no measured depth or gap with a limit tells "
    "that it is home."
)
WHY = "A part that stopped short looks home; it moves when the pressure comes on."
WRONG = """
[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "lip", one_of = ["home", "askew"], good = ["home"] }]
"""
RIGHT = """
[[step]]
id = "lip-in"
part = "lip"
ask = [{ what = "case below the edge of the bore", min = "0 mm", max = "0.2 mm", with = "depth gauge" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for part in subject.file.part:
        fits = subject.steps_with(part.id, Verb.INSTALL)
        if part.fit is Fit.SLIDE or not fits or any(_proves(step, part.id) for step in subject.file.step):
            continue
        yield subject.finding(
            "press-fit-without-a-number",
            SEVERITY,
            part,
            ("fit",),
            f"`{part.id}` is a {part.fit.value} fit, and no measured number proves that it is home.",
            f"Let {subject.where_is(fits[-1])} ask for a depth or a gap, with `min` or `max`.",
        )


def _proves(step: Step, part: str) -> bool:
    """Whether a step of the building measures something about the part against a limit."""
    return step.phase in BUILDS and any(
        (question.min is not None or question.max is not None)
        and part in (question.of or step.of or step.all_parts)
        for question in step.ask
    )
