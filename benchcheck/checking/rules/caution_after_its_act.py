"""A caution that comes after the act it is for."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners, Part

SEVERITY = Severity.WARNING
WHAT = "A caution names what its steps handle, and an earlier step handles the same without it."
WHY = "The first time the spring jumps out nobody was warned."
WRONG = """
[[caution]]
signal = "CAUTION"
text = "The cover stands under the load of a spring. Keep the face away."
before = ["cover-on"]       # and when it comes off?
"""
RIGHT = """
[[caution]]
signal = "CAUTION"
text = "The cover stands under the load of a spring. Keep the face away."
before = ["open", "cover-on"]
"""

_HANDLED = (Verb.INSTALL, Verb.REMOVE, Verb.START, Verb.TIGHTEN, Verb.LOOSEN)


def check(subject: Subject) -> Iterator[Finding]:
    things: tuple[Part | Fasteners, ...] = (*subject.file.part, *subject.file.fasteners)
    for caution in subject.file.caution:
        steps = [step for step in subject.file.step if step.id in caution.before]
        if not steps:
            continue
        for thing in things:
            handled = subject.steps_with(thing.id, *_HANDLED)
            named = {thing.called.casefold(), thing.id.casefold()}
            if not handled or handled[0] in steps or not any(each in handled for each in steps):
                continue
            if any(re.search(rf"\b{re.escape(name)}\b", caution.text.casefold()) for name in named):
                yield subject.finding(
                    "caution-after-its-act",
                    SEVERITY,
                    caution,
                    ("before",),
                    f"{subject.where_is(handled[0])} handles `{thing.id}`, which this caution is about, "
                    f"before any step that shows it.",
                    f'Write "{handled[0].id}" into `before` as well.',
                )
                break
