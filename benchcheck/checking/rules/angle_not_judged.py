"""An angle of which nobody can say what preload it makes."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ADVICE
WHAT = "A group is turned on by an angle, and its grip or the stiffness of the joint is not told."
WHY = "The angle is then stated once: a slip of ten degrees is a fifth of the preload, and nothing shows it."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 50", single_use = "once fitted" }]
torque = { target = "3 N·m", tolerance = "10 %" }
angle = { add = "20 °", tolerance = "5 °" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
screws = [{ item = "M6 x 50", grip = "40 mm", single_use = "once fitted" }]
torque = { target = "3 N·m", tolerance = "10 %" }
angle = { add = "20 °", tolerance = "5 °", stiffness_ratio = 4.0 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.angle is None or group.torque is None or group.low_because is not None:
            continue
        missing = []
        if not group.screws or any(screws.grip is None for screws in group.screws):
            missing.append("a `grip` for each of its `screws`")
        if group.angle.stiffness_ratio is None:
            missing.append("a `stiffness_ratio`; for steel in steel, 4 is usual")
        if missing:
            yield subject.finding(
                "angle-not-judged",
                SEVERITY,
                group.angle,
                ("add",),
                f"What preload {group.angle.add} makes in `{group.id}` cannot be worked out.",
                f"Write {listed(missing, 'and')}.",
            )
