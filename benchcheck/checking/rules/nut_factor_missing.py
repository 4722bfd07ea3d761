"""A condition of threads in words, without the number that it stands for."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.joints import percent, strength_of, thread_of
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.preload import FrictionError, NutFactorBand, nut_factor_band, preload_by_nut_factor
from benchcheck.mechanics.strength import proof_load_newton
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners

SEVERITY = Severity.WARNING
WHAT = (
    "A group names the condition of its threads without the nut factor that its torque was worked out with."
)
WHY = (
    "Published factors for one and the same word differ by half. Which one holds is for the author to say; "
    "without it no preload can be worked out."
)
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        friction = group.friction
        if friction is None or friction.nut_factor is not None or group.low_because is not None:
            continue
        try:
            band = nut_factor_band(friction.condition)
        except FrictionError:
            band = nut_factor_band("unknown")
        published = f"{band.low:.2f} to {band.high:.2f}" if band.low < band.high else f"{band.low:.2f}"
        yield subject.finding(
            "nut-factor-missing",
            SEVERITY,
            friction,
            ("condition",),
            f'"{friction.condition}" alone is no nut factor; {published} is published for it'
            f"{_preloads(group, band)}.",
            "Write the `nut_factor` that the torque was worked out with.",
        )


def _preloads(group: Fasteners, band: NutFactorBand) -> str:
    """What the band makes of the target, where that can be said."""
    thread = thread_of(group)
    strength = strength_of(group, thread) if thread else None
    if thread is None or strength is None or group.torque is None:
        return ""
    proof_load = proof_load_newton(thread, strength)
    least, most = (
        percent(
            preload_by_nut_factor(group.torque.target.si, factor, thread.diameter_millimetre) / proof_load
        )
        for factor in (band.high, band.low)
    )
    return f", which makes {least} to {most} of proof load" if least != most else f", {least} of proof load"
