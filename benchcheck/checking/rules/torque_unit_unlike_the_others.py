"""One torque in a system of units that no other group of the procedure uses."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ADVICE
WHAT = "One group's target is in newtons, pounds or kilograms where all the others are in another of these."
WHY = "It is how a number under a wrong unit looks; and a wrench that shows both is left in the other one."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
torque = { target = "7 N·m", tolerance = "10 %" }

[[fasteners]]
id = "F2"
into = "body"
from = "drive end"
torque = { target = "60 lbf·in", tolerance = "10 %" }

[[fasteners]]
id = "F3"
into = "body"
from = "drive end"
torque = { target = "20 lbf·ft", tolerance = "10 %" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
torque = { target = "62 lbf·in", tolerance = "10 %" }

[[fasteners]]
id = "F2"
into = "body"
from = "drive end"
torque = { target = "60 lbf·in", tolerance = "10 %" }

[[fasteners]]
id = "F3"
into = "body"
from = "drive end"
torque = { target = "20 lbf·ft", tolerance = "10 %" }
"""

_FEWEST_OTHERS = 2
"""Fewer than so many others are no custom."""


def check(subject: Subject) -> Iterator[Finding]:
    torques = [group.torque for group in subject.file.fasteners if group.torque is not None]
    for torque in torques:
        mine = _force(torque.target.unit)
        others = [each.target.unit for each in torques if each is not torque]
        forces = {_force(unit) for unit in others}
        if len(others) < _FEWEST_OTHERS or len(forces) != 1 or mine in forces:
            continue
        yield subject.finding(
            "torque-unit-unlike-the-others",
            SEVERITY,
            torque,
            ("target",),
            f"This is the only torque in {torque.target.unit}; the other {len(others)} are in "
            f"{listed(sorted(set(others)))}.",
            "Check the unit against the drawing.",
        )


def _force(unit: str) -> str:
    """The system of a unit of torque, by its force: N, lbf (ounces too) or kgf."""
    force = unit.partition("·")[0]
    return {"lbf": "lbf", "ozf": "lbf", "kgf": "kgf", "gf": "kgf"}.get(force, "N")
