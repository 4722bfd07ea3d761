"""A new part that would not pass."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "What a new part measures lies partly outside the limits of the same question."
WHY = "A good new part would be thrown away; or one of the four numbers is wrong."
WRONG = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "clearance", as_new = ["0.02 mm", "0.06 mm"], max = "0.05 mm" }]
"""
RIGHT = """
[[step]]
id = "runout"
phase = "inspection"
act = "measure"
of = ["shaft"]
ask = [{ what = "clearance", as_new = ["0.02 mm", "0.04 mm"], max = "0.05 mm" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            if ask.as_new is None:
                continue
            least, most = ask.as_new
            below = ask.min is not None and ask.min.kind == least.kind and least.si < ask.min.si
            above = ask.max is not None and ask.max.kind == most.kind and most.si > ask.max.si
            if below or above:
                yield subject.finding(
                    "new-part-outside-the-limits",
                    SEVERITY,
                    ask,
                    ("as_new", 0 if below else 1),
                    f"A new part may measure {least if below else most}, and the limit is "
                    f"{ask.min if below else ask.max}.",
                    "Write limits that every new part meets.",
                )
