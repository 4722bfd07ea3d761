"""An extension that no wrench of the shop can take."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.wrenches import plain
from benchcheck.procedure.finding import Finding, Place, Severity

SEVERITY = Severity.WARNING
WHAT = (
    "With the extension of a crow-foot no registered wrench can do a position, for its length or its scale."
)
WHY = "An extension changes what the screw gets; without the wrench's length nobody knows by how much."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
crowfoot = { at = [3], extension = "500 mm", angle = "180 °" }     # longer than any grip
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 4, seen_from = "drive end", datum = "the drain" }
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
crowfoot = { at = [3], extension = "50 mm", angle = "90 °" }
"""


def check(subject: Subject) -> Iterator[Finding]:
    judged = [id(pull) for pull in plain(subject.pulls)]
    found: dict[Place, Finding] = {}
    for pull in subject.pulls:
        if id(pull) in judged or pull.hurdle is None or pull.group.crowfoot is None:
            continue
        others = (each for each in subject.pulls if each.group is pull.group and not each.crowfoot)
        if any(each.wanted == pull.wanted and each.hurdle is not None for each in others):
            continue  # without the extension it cannot be done either, and that is said already
        finding = subject.finding(
            "crowfoot-fits-no-wrench",
            SEVERITY,
            pull.group.crowfoot,
            ("extension",),
            f"No registered wrench can do {pull.words}: {pull.reasons()}.",
            "Write another extension or angle, or register a wrench that takes it, with its length.",
        )
        found.setdefault(finding.place, finding)
    yield from found.values()
