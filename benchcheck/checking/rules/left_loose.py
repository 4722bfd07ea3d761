"""The last holder of a part that may never be loose."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A step takes off the last thing that holds a part for which `never_loose` is set."
WHY = "The part drops, or springs out of the place to which it was set."
WRONG = """
[[part]]
id = "shaft"
ends = ["keyed end", "plain end"]
into = "body"
from = "drive end"
shows = "keyed end"
never_loose = true

[[part]]
id = "lock"
into = "body"
from = "side"
holds = ["shaft"]

[[part]]
id = "clip"
into = "shaft"
from = "keyed end"
holds = ["shaft"]
temporary = true

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip"]

[[step]]
id = "clip-on"
phase = "teardown"
part = "clip"

[[step]]
id = "shaft-out"
phase = "teardown"
act = "remove"
off = ["lock", "shaft"]

[[step]]
id = "shaft-in"
part = "shaft"

[[step]]
id = "clip-off"
act = "remove"
off = ["clip"]      # and the lock is not on yet

[[step]]
id = "lock-on"
part = "lock"
"""
RIGHT = """
[[part]]
id = "shaft"
ends = ["keyed end", "plain end"]
into = "body"
from = "drive end"
shows = "keyed end"
never_loose = true

[[part]]
id = "lock"
into = "body"
from = "side"
holds = ["shaft"]

[[part]]
id = "clip"
into = "shaft"
from = "keyed end"
holds = ["shaft"]
temporary = true

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip"]

[[step]]
id = "clip-on"
phase = "teardown"
part = "clip"

[[step]]
id = "shaft-out"
phase = "teardown"
act = "remove"
off = ["lock", "shaft"]

[[step]]
id = "shaft-in"
parts = ["shaft", "lock"]

[[step]]
id = "clip-off"
act = "remove"
off = ["clip"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for stop, act in subject.acts_stopped_by("left-loose"):
        step, part = act.step, stop.about
        yield Finding(
            "left-loose",
            SEVERITY,
            subject.place_of(stop),
            f"`{step.id}` takes off `{act.target}`, the last that holds `{part}`, "
            f"which may never be loose{subject.when(stop.cases)}.",
            f"Put on something else that holds `{part}` before it.",
        )
