"""A nut factor that nobody has published for the condition beside it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.preload import FrictionError, nut_factor_band
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A nut factor lies outside all that is published for the condition of the threads."
WHY = "It is a slip of the finger, or the condition is another one; the preload is off by as much."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "dry", nut_factor = 0.15 }     # that is the factor of oiled threads
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "9 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "dry", nut_factor = 0.20 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        friction = group.friction
        if friction is None or friction.nut_factor is None:
            continue
        try:
            band = nut_factor_band(friction.condition)
        except FrictionError:
            band = nut_factor_band("unknown")
        if band.low <= friction.nut_factor <= band.high:
            continue
        known = (
            f'"{friction.condition}"'
            if band.condition != "unknown"
            else f'a condition such as "{friction.condition}"'
        )
        published = f"{band.low:.2f} to {band.high:.2f}" if band.low < band.high else f"{band.low:.2f}"
        yield subject.finding(
            "nut-factor-unlikely",
            SEVERITY,
            friction,
            ("nut_factor",),
            f"Found a nut factor of {friction.nut_factor:g}; {published} is published for {known}.",
            "Check factor and condition; if both are measured, silence this finding with where and when.",
        )
