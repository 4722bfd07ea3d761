"""A part that may never be loose, and is held by nothing."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.checking.walk import Case
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "At the end, nothing that is on holds a part for which `never_loose` is set."
WHY = "It walks along its shaft in service."
WRONG = """
[[part]]
id = "shaft"
ends = ["keyed end", "plain end"]
into = "body"
from = "drive end"
shows = "keyed end"
never_loose = true      # and what holds it?
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
id = "collar"
into = "shaft"
from = "keyed end"
holds = ["shaft"]

[[step]]
id = "open"
phase = "teardown"
act = "remove"
off = ["F1", "cover", "G1", "lip", "shaft", "collar"]

[[step]]
id = "shaft-in"
parts = ["shaft", "collar"]
"""


def check(subject: Subject) -> Iterator[Finding]:
    cases: dict[str, list[Case]] = {}
    for walk in subject.walks:
        now = walk.end
        for part in now.seated:
            holders = walk.pump.holders.get(part, ())
            if walk.pump.parts[part].never_loose and not any(
                each in now.held or each in now.seated for each in holders
            ):
                cases.setdefault(part, []).append(walk.case)
    for table in subject.file.part:
        if table.id in cases:
            yield subject.finding(
                "never-held",
                SEVERITY,
                table,
                ("never_loose",),
                f"`{table.id}` may never be loose, and nothing holds it at the end"
                f"{subject.when(tuple(cases[table.id]))}.",
                "Name it in the `holds` of the group or the part that holds it.",
            )
