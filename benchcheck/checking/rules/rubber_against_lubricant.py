"""A ring and the oil or grease that destroys it."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.rings import family_of, fluids_in
from benchcheck.checking.subject import Subject
from benchcheck.mechanics.rubber import Compatibility, Verdict, compatibility
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "A ring is fitted with a lubricant, or into an oiled part, that its rubber does not bear."
WHY = "It swells within hours until it tears or jams the parts, and nothing shows at the bench."
WRONG = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "EPDM"
lubricate = "mineral oil"
"""
RIGHT = """
[[groove]]
id = "G1"
in = "cover"
where = "round the spigot"
against = "body"
takes = "-137"
material = "EPDM"
lubricate = "silicone grease"
"""


def check(subject: Subject) -> Iterator[Finding]:
    parts = {part.id: part for part in subject.file.part}
    for groove in subject.file.groove:
        rubber = family_of(groove.material)
        if rubber is None:
            continue
        own = groove.lubricate or ""
        if (worst := _worst(rubber, own)) is not None:
            severity = SEVERITY if worst.verdict is Verdict.NEVER else Severity.ADVICE
            yield subject.finding(
                "rubber-against-lubricant",
                severity,
                groove,
                ("lubricate",),
                f"`{groove.id}` takes {groove.material}, lubricated with {worst.fluid}: {worst.reason}.",
                "Write a lubricant that this rubber bears, or another rubber.",
            )
        for name in (groove.in_, *groove.closed_against):
            part = parts.get(name)
            worst = _worst(rubber, part.lubricate or "") if part is not None else None
            if part is not None and worst is not None and worst.verdict is Verdict.NEVER:
                yield subject.finding(
                    "rubber-against-lubricant",
                    Severity.WARNING,
                    part,
                    ("lubricate",),
                    f"`{part.id}` is lubricated with {worst.fluid}, and touches the ring of `{groove.id}`, "
                    f"which is {groove.material}: {worst.reason}.",
                    "Write a lubricant that this rubber bears, or where on the part none may come.",
                )


def _worst(rubber: str, text: str) -> Compatibility | None:
    """The verdict on the lubricant that the rubber bears least; None if it bears all that are known."""
    verdicts = [compatibility(rubber, fluid) for fluid in fluids_in(text)]
    bad = [each for each in verdicts if each.verdict in (Verdict.NEVER, Verdict.LIMITED)]
    return min(bad, key=lambda each: each.verdict is Verdict.LIMITED) if bad else None
