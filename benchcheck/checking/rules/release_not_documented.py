"""A released procedure without its papers."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Status
from benchcheck.procedure.wording import listed

SEVERITY = Severity.ERROR
WHAT = "A procedure is released without the day, without an approver, or without saying what changed."
WHY = "Years later nobody can tell which of two revisions a pump was built by, or why they differ."
WRONG = """
[procedure]
revision = "B"
status = "released"     # when, by whom, and what is new?
"""
RIGHT = """
[procedure]
revision = "B"
status = "released"
issued = 2026-03-02
approver = "Q. Example"
changes = ["Cover screws: 7 N·m instead of 6 N·m."]
"""

_FIRST = ("A", "1", "")
"""Revisions before which there was none; "" is what is left of zeros."""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    if head.status is not Status.RELEASED:
        return
    lacks = []
    if head.issued is None:
        lacks.append("the day of release (`issued`)")
    if head.approver is None:
        lacks.append("who released it (`approver`)")
    if not head.changes and head.revision.upper().lstrip("0") not in _FIRST:
        lacks.append("what changed since the last revision (`changes`)")
    if lacks:
        yield subject.finding(
            "release-not-documented",
            SEVERITY,
            head,
            ("status",),
            f"Revision {head.revision} is released, and the file does not say {listed(lacks, 'and')}.",
            'Write them, or status = "draft".',
        )
