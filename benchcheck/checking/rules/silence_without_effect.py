"""A silence that silences nothing."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ADVICE
WHAT = "A `[[silence]]` covers no finding."
WHY = "What it excused is mended; if the fault comes back, it will come back unheard."
WRONG = """
[[silence]]
rule = "question-without-a-no"      # no question of this file is one
reason = "Only the presence of the plate is asked."
"""
RIGHT = """
[[silence]]
rule = "question-without-a-no"
reason = "Only the presence of the plate is asked."

[[step]]
id = "identify"
phase = "intake"
act = "check"
ask = [{ what = "plate", one_of = ["there"] }]
"""


def check(subject: Subject) -> Iterator[Finding]:
    from benchcheck.checking.catalogue import covers, names  # which in turn finds this rule

    for silence in subject.file.silence:
        if silence.rule in names() and not any(covers(subject, silence, each) for each in subject.found):
            at = f" at `{silence.at}`" if silence.at else ""
            yield subject.finding(
                "silence-without-effect",
                SEVERITY,
                silence,
                ("rule",),
                f"Nothing of this file is `{silence.rule}`{at}.",
                "Take the silence out.",
            )
