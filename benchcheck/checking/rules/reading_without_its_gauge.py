"""A reading that is to name its gauge, and no registered gauge of that kind that it could be read on."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.gauge import why_not
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A reading names its gauge by its kind, and the register has none of that kind for it."
WHY = "The bench takes the reading only on a registered gauge, so the work stops there."
WRONG = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "5 bar", max = "6 bar", gauge = "bourdon tube" }]
# no [[gauge]] of the register is of that kind
"""
RIGHT = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "pressure in the body", min = "73 psi", max = "87 psi", gauge = "pressure gauge" }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for ask in step.ask:
            if ask.gauge is None:
                continue
            kind, unit = ask.gauge, ask.read_in
            of_kind = [gauge for gauge in subject.gauges if gauge.is_kind(kind)]
            # What its limits want of it is for `limits-finer-than-any-gauge`.
            reasons = [why_not(gauge, unit, None, None, guarded=ask.guarded) for gauge in of_kind]
            if all(reasons):
                told = (f"{gauge.id} {why}" for gauge, why in zip(of_kind, reasons, strict=True))
                yield subject.finding(
                    "reading-without-its-gauge",
                    SEVERITY,
                    ask,
                    ("gauge",),
                    f"No registered {kind} serves for this reading: "
                    f"{'; '.join(told) or 'there is none of that kind'}.",
                    "Register the gauge, in the unit that is read, or write the kind as the register has it.",
                )
