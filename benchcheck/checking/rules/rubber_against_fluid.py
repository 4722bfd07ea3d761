"""A ring and the fluid on its side that destroys it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.rings import family_of, fluids_at
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.rubber import Verdict, compatibility
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A fluid of the pump touches a ring whose rubber does not bear it."
WHY = "The pump passes its test; after weeks in service the ring has swollen, gone soft or cracked."
WRONG = """
[procedure]
fluids = { "oil side" = "hydraulic oil", "wet end" = "water" }

[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
touches = ["oil side"]
takes = "-137"
material = "EPDM"
"""
RIGHT = """
[procedure]
fluids = { "oil side" = "hydraulic oil", "wet end" = "water" }

[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
touches = ["oil side"]
takes = "-137"
material = "NBR"
"""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    for groove in subject.file.groove:
        rubber = family_of(groove.material)
        for side in fluids_at(groove, head):
            fluid = head.fluids[side]
            verdict = compatibility(rubber, fluid) if rubber is not None else None
            if verdict is None or verdict.verdict not in (Verdict.NEVER, Verdict.LIMITED):
                continue
            yield subject.finding(
                "rubber-against-fluid",
                SEVERITY if verdict.verdict is Verdict.NEVER else Severity.ADVICE,
                groove,
                ("material",),
                f"`{groove.id}` takes {groove.material}, and {fluid} touches it "
                f"({subject.line(head, 'fluids', side)}): {verdict.reason}.",
                "Write the rubber of the drawing, or in `touches` which fluids come to this ring.",
            )
