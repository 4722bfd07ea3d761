"""An order that goes round the circle instead of across it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.pattern import circle_order, circle_order_remarks
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "In an order of the author's own, neighbours on a circle follow each other, or opposites do not."
WHY = "The joint tips: one side is pulled down first, and the ring below the other is pinched."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 6, seen_from = "drive end", datum = "the drain" }
order = [1, 2, 3, 4, 5, 6]
torque = { target = "7 N·m", tolerance = "10 %" }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
layout = { circle = 6, seen_from = "drive end", datum = "the drain" }
order = [1, 4, 2, 5, 3, 6]
torque = { target = "7 N·m", tolerance = "10 %" }
"""


_MOST_NAMED = 2


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        circle = group.layout.circle if group.layout is not None else None
        if circle is None or sorted(group.order) != list(range(1, circle + 1)):
            continue
        remarks = circle_order_remarks(group.order)
        if not remarks:
            continue
        grave = any("neighbour" in remark for remark in remarks)
        more = f", and {len(remarks) - _MOST_NAMED} more" if len(remarks) > _MOST_NAMED else ""
        usual = ", ".join(map(str, circle_order(circle)))
        yield subject.finding(
            "order-not-crosswise",
            SEVERITY if grave else Severity.ADVICE,
            group,
            ("order",),
            f"The order of `{group.id}` does not go across: {'; '.join(remarks[:_MOST_NAMED])}{more}.",
            f"Leave `order` out ([{usual}] follows from the layout), or silence this with its source.",
        )
