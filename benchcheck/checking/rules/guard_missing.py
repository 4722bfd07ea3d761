"""A part that goes through a seal without its guard."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step fits, or takes out again, a part without the temporary tool that its `under` asks for."
WHY = (
    "Threads, keyways and sharp shoulders cut the lip; the cut is not seen, and it leaks from the first hour."
)
WRONG = """
[[part]]
id = "shaft"
ends = ["keyed end", "plain end"]
into = "body"
from = "drive end"
shows = "keyed end"
under = "sleeve"

[[part]]
id = "sleeve"       # no step puts it on
into = "shaft"
from = "plain end"
temporary = true
"""
RIGHT = """
[[part]]
id = "shaft"
ends = ["keyed end", "plain end"]
into = "body"
from = "drive end"
shows = "keyed end"
under = "sleeve"
through = true

[[part]]
id = "sleeve"
into = "shaft"
from = "plain end"
temporary = true

[[step]]
id = "shaft-in"
parts = ["sleeve", "shaft"]

[[step]]
id = "sleeve-off"
act = "remove"
off = ["sleeve"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("guard-missing"):
        step, part, tool = act.step, act.target, stop.about
        way = "takes out" if act.verb is Verb.REMOVE else "fits"
        yield Finding(
            "guard-missing",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` {way} `{part}` without `{tool}` on it{subject.when(stop.cases)}.",
            f'Write a step with part = "{tool}" before it, and one that takes it off again.',
        )
