"""A screw that does not go deep enough into its thread to hold."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import strength_of, thread_of
from benchcheck.checking.screws import Reach, reaches
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.engagement import engagement
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners

SEVERITY = Severity.ERROR
WHAT = "A screw does not reach its thread, or so little of it that the thread would strip before it breaks."
WHY = "The thread in the casting goes, at the bench or under pressure; a screw that breaks can be replaced."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 20", grip = "17 mm" }]
tapped = { depth = "14 mm" }
thread = "M6"
strength = "8.8"
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 25", grip = "17 mm" }]
tapped = { depth = "14 mm" }
thread = "M6"
strength = "8.8"
"""

LEAST_DIAMETERS = 1.0
"""Engagement in diameters below which no metal is taken to hold a screw to its breaking. Common practice for
steel; softer metal needs more."""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        for each in reaches(group):
            if (wrong := _wrong(group, each)) is not None:
                severity, words = wrong
                yield subject.finding(
                    "thread-engagement-short",
                    severity,
                    each.screws,
                    ("item",),
                    f'"{each.screws.item}" with a grip of {each.screws.grip} {words}.',
                    "Write a longer screw, or the grip of the drawing.",
                )


def _wrong(group: Fasteners, each: Reach) -> tuple[Severity, str] | None:
    if each.ends is None:
        return SEVERITY, f"does not reach the thread of `{group.into}`"
    thread = thread_of(group)
    if thread is None:
        return None
    into = f"goes {each.into_millimetre:.3g} mm into `{group.into}`"
    strength = strength_of(group, thread)
    metal = group.tapped.tensile_strength if group.tapped is not None else None
    if metal is None or strength is None:
        diameters = each.into_millimetre / thread.diameter_millimetre
        if diameters >= LEAST_DIAMETERS:
            return None
        return Severity.WARNING, f"{into}, {diameters:.2g} of its diameter; expected at least one diameter"
    result = engagement(thread, each.into_millimetre, strength.tensile_megapascal, metal.to("MPa"))
    if result.first_to_fail == "screw breaks":
        return None
    strips, breaks = min(result.tapped_thread_newton, result.screw_thread_newton), result.screw_newton
    told = f"the thread strips at {strips / 1000:.3g} kN, the screw breaks at {breaks / 1000:.3g} kN"
    return Severity.WARNING, f"{into}: {told}"
