"""A carrier of which nobody says how it must face."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A part with two ends carries parts whose facing counts, and has no `must_face` of its own."
WHY = "If it and the parts in it are both reversed, the two faults cancel in every check but its own."
WRONG = """
[[part]]
id = "holder"
ends = ["deep end", "flat end"]
into = "cover"
from = "inner face"
shows = "deep end"

[[part]]
id = "wiper"
ends = ["edge", "back"]
into = "holder"
from = "deep end"
shows = "edge"

[[must_face]]
part = "wiper"
end = "edge"
toward = "water end"
because = "it keeps the dirt out"
"""
RIGHT = """
[[part]]
id = "holder"
ends = ["deep end", "flat end"]
into = "cover"
from = "inner face"
shows = "deep end"

[[part]]
id = "wiper"
ends = ["edge", "back"]
into = "holder"
from = "deep end"
shows = "edge"

[[must_face]]
part = "wiper"
end = "edge"
toward = "water end"
because = "it keeps the dirt out"

[[must_face]]
part = "holder"
end = "deep end"
toward = "water end"
because = "the wiper sits in it"
"""


def check(subject: Subject) -> Iterator[Finding]:
    told: set[str] = set()
    for pump in subject.pumps.values():
        faced = {must.part for must in pump.faces}
        for must in pump.faces:
            of = must.of or pump.main
            carrier = pump.parts[must.part].into
            while carrier is not None and carrier not in (of, pump.main):
                part = pump.parts[carrier]
                if part.ends is not None and carrier not in faced | told and pump.along_axis(carrier):
                    told.add(carrier)
                    yield subject.finding(
                        "carrier-without-its-own-facing",
                        SEVERITY,
                        part,
                        ("id",),
                        f"`{carrier}` carries `{must.part}`, whose facing counts ({subject.line(must)}), "
                        "and has no must_face itself.",
                        f"Write a must_face for `{carrier}`, from the drawing.",
                    )
                carrier = part.into
