"""Two released revisions of one procedure."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Status

SEVERITY = Severity.ERROR
WHAT = "Another revision of the same procedure in this workspace is released as well."
WHY = "Nobody can say by which of them the next pump is to be built."
WRONG = """
[procedure]
revision = "A"
status = "released"         # and so is revision 0, in the file beside it
issued = 2026-03-02
approver = "Q. Example"
"""
RIGHT = """
[procedure]
revision = "A"
status = "withdrawn"        # for revision 0 is used again
"""


def check(subject: Subject) -> Iterator[Finding]:
    head = subject.file.procedure
    for other in subject.others:
        its = other.model.procedure
        if head.status is its.status is Status.RELEASED and its.id == head.id:
            yield subject.finding(
                "two-released-revisions",
                SEVERITY,
                head,
                ("status",),
                f"Revision {its.revision} of `{its.id}` is released too: {other.source.file}.",
                'Write status = "withdrawn" in the older of the two.',
            )
