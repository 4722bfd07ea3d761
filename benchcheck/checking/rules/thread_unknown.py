"""A thread that does not exist, or not here."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.thread import OtherThreadError, ThreadError, parse_thread
from benchcheck.procedure.finding import Finding, Severity

SEVERITY = Severity.WARNING
WHAT = "A group's thread is no standard thread."
WHY = "A designation with a slip in it is searched for in the stores, and no torque can be proved against it."
WRONG = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6x1.25"      # M6, or M8
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""
RIGHT = """
[[fasteners]]
id = "F1"
into = "body"
from = "drive end"
holds = ["cover"]
torque = { target = "7 N·m", tolerance = "10 %" }
thread = "M6"
strength = "8.8"
friction = { condition = "oiled", nut_factor = 0.15 }
"""


def check(subject: Subject) -> Iterator[Finding]:
    for group in subject.file.fasteners:
        if group.thread is None:
            continue
        try:
            parse_thread(group.thread)
        except ThreadError as error:
            if isinstance(error, OtherThreadError) and group.low_because is not None:
                continue  # a pipe thread whose preload is not to be judged anyway
            wrong, _, meant = str(error).rstrip("?.").partition("; did you mean ")
            remedy = f"Write {meant}, as the drawing has it." if meant else "Write it as the drawing has it."
            if isinstance(error, OtherThreadError):
                remedy = "Write in `low_because` that its preload is not judged."
            yield subject.finding(
                "thread-unknown",
                SEVERITY,
                group,
                ("thread",),
                f"The thread of `{group.id}`: {wrong}.",
                remedy,
            )
