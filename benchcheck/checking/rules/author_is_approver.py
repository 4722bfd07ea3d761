"""A procedure that its own author approves."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.ERROR
WHAT = "Author and approver are one person."
WHY = "Nobody finds his own slips; the second pair of eyes is what a release is for."
WRONG = """
[procedure]
author = "A. Template"
approver = "A. Template"
"""
RIGHT = """
[procedure]
author = "A. Template"
approver = "Q. Example"
"""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    if head.approver is not None and _folded(head.approver) == _folded(head.author):
        yield subject.finding(
            "author-is-approver",
            SEVERITY,
            head,
            ("approver",),
            f"{head.approver} is author and approver.",
            "Let another person approve it.",
        )


def _folded(name: str) -> str:
    return " ".join(name.casefold().replace(".", " ").split())
