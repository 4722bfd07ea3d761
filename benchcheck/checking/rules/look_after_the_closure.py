"""A look at a groove, or a hold point, after it was closed."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.bars import in_the_way_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import StepAct

SEVERITY = Severity.ERROR
WHAT = "A check looks at a groove that is hidden by then."
WHY = "The witness signs for a ring that nobody can see any more."
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"

[[step]]
id = "ring-look"
act = "check"
of = ["G1"]         # under the cover
witness = true
"""
RIGHT = """
[[step]]
id = "fit-G1"
rings = ["G1"]

[[step]]
id = "ring-look"
act = "check"
of = ["G1"]
witness = true

[[step]]
id = "cover-on"
part = "cover"
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[str, str]] = set()
    for walk in subject.walks:
        for moment in walk.moments:
            step = moment.act.step
            if step.act is not StepAct.CHECK:
                continue
            for number, thing in enumerate(step.of):
                if thing not in walk.pump.grooves or (step.id, thing) in told:
                    continue
                if moment.before.hidden(thing):
                    told.add((step.id, thing))
                    what = "hold point" if step.witness else "look"
                    hid = in_the_way_of(moment.before, thing)
                    by = f"`{hid[0]}` is on by then" if hid else "it is closed by then"
                    yield subject.finding(
                        "look-after-the-closure",
                        SEVERITY,
                        step,
                        ("of", number),
                        f"The {what} `{step.id}` cannot see `{thing}`: {by}.",
                        f"Put it before the step that closes `{thing}`.",
                    )
