"""A look at a part over which another lies."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.bars import in_the_way_of
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "A check looks at how a part lies when another part is over it."
WHY = "What is half covered is taken on trust."
WRONG = """
[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"

[[step]]
id = "shaft-look"
act = "check"
of = ["shaft"]      # under the cover
"""
RIGHT = """
[[step]]
id = "shaft-look"
act = "check"
of = ["shaft"]

[[step]]
id = "cover-on"
rings = ["G1"]
part = "cover"
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[tuple[str, str]] = set()
    for walk in subject.walks:
        for moment in walk.moments:
            act, now = moment.act, moment.before
            if act.verb is not Verb.LOOK or act.target not in now.seated:
                continue
            over = [each for each in in_the_way_of(now, act.target) if each in walk.pump.parts]
            if over and (act.step.id, act.target) not in told:
                told.add((act.step.id, act.target))
                yield subject.finding(
                    "look-at-what-is-covered",
                    SEVERITY,
                    act.step,
                    ("of", act.step.of.index(act.target)),
                    f"When `{act.step.id}` looks at `{act.target}`, `{over[0]}` lies over it.",
                    f"Put it before the step that fits `{over[-1]}`.",
                )
