"""A part put in at an end that is already inside something."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step fits a part at the leading end of a body that has gone into another body before."
WHY = "That end lies at the bottom of a bore by then: nobody can reach it."
WRONG = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft", "disc"]

[[step]]
id = "shaft-in"
parts = ["shaft", "disc"]

[[part]]
id = "disc"
into = "shaft"
from = "plain end"          # deep in the body by then
"""
RIGHT = """
[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft", "disc"]

[[step]]
id = "shaft-in"
parts = ["disc", "shaft"]

[[part]]
id = "disc"
into = "shaft"
from = "plain end"

[[stack]]
on = "body"
from = "drive end"
order = ["shaft", "disc"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("end-is-closed"):
        step, part, body = act.step, stop.about, stop.refusal.off
        seat, under = stop.after.seated[part], stop.after.seated[body].body
        yield Finding(
            "end-is-closed",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` fits `{part}` from the {seat.end} of `{body}`, which went into `{under}` first"
            f"{subject.when(stop.cases)}.",
            f"Fit `{part}` before `{body}` goes in; write through = true in `{body}` "
            "if that end comes out at the far side.",
        )
