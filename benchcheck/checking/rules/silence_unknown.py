"""A silence for a rule that there is not."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import nearest, shortened

SEVERITY = Severity.WARNING
WHAT = "A `[[silence]]` names a rule that no finding of these rules has."
WHY = "The finding that it was meant for is still there, or the reason stands for nothing."
WRONG = """
[[silence]]
rule = "torque-low"         # there is no such rule
reason = "The body is soft."
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
    from benchcheck.checking.catalogue import names  # which in turn finds this rule

    for silence in subject.file.silence:
        if silence.rule not in names():
            like = nearest(silence.rule, names())
            yield subject.finding(
                "silence-unknown",
                SEVERITY,
                silence,
                ("rule",),
                f"There is no rule `{shortened(silence.rule)}` that could be silenced.",
                f"Write `{like}`, if that is meant." if like else "Copy the name from the finding.",
            )
