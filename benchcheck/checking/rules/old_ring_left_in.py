"""An old ring that no step takes out."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A groove is opened and gets a new ring, and no step takes the old one out."
WHY = "The new ring goes in on top of the old one, or on what is left of it."
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "lip", "shaft"]       # and the ring of G1?
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[str] = set()
    for walk in subject.walks:
        for moment in walk.moments:
            groove = moment.act.target
            if moment.act.verb is not Verb.FIT or moment.passed_over or groove in told:
                continue
            if moment.before.sealed.get(groove) and not moment.before.living_rings(groove):
                told.add(groove)
                yield Finding(
                    "old-ring-left-in",
                    SEVERITY,
                    subject.place_of_act(moment.act),
                    f"`{moment.act.step.id}` fits a new ring into `{groove}`, and no step has taken the old "
                    "one out.",
                    f'Write "{groove}" into the `off` of the step that opens it.',
                )
