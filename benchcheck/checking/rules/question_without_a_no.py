"""A question that nobody could answer with no."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.wording import shortened

SEVERITY = Severity.WARNING
WHAT = "A question has one answer only, calls every answer good, or asks for a plain yes."
WHY = "A question whose answer is always the same protects nobody; after a week it is answered unread."
WRONG = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "no leak seen", one_of = ["yes"] }]
"""
RIGHT = """
[[step]]
id = "leak"
phase = "test"
act = "test"
ask = [{ what = "drops at the drain in five minutes", one_of = ["none", "one or more"], good = ["none"] }]
"""

_COMFORT = {"yes", "no", "ok", "not ok", "okay", "done", "not done", "good", "bad", "n/a"}
"""Answers that say nothing of what was seen."""


def check(subject: Subject) -> Iterator[Finding]:
    for step in subject.file.step:
        for question in step.ask:
            answers = {each.casefold().strip() for each in question.one_of}
            if not answers:
                continue
            if len(answers) == 1:
                what = f'can only be answered with "{question.one_of[0]}"'
            elif question.good and answers <= {each.casefold().strip() for each in question.good}:
                what = "has no answer that is not good"
            elif answers <= _COMFORT:
                what = "asks for comfort, not for a fact"
            else:
                continue
            yield subject.finding(
                "question-without-a-no",
                SEVERITY,
                question,
                ("one_of",),
                f"`{shortened(question.what)}` {what}.",
                "Let the answers be what one sees: the good one, and what it looks like when it is not.",
            )
