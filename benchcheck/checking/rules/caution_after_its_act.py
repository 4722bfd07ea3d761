"""A caution that comes after the act it is for."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.checking.subject import Subject
from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.model import Fasteners, Fit, Part, Step

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
    for caution in subject.file.caution:
        steps = [step for step in subject.file.step if step.id in caution.before]
        for about in _subjects(subject, caution.text.casefold()):
            handled = [step for step in subject.file.step if any(step in each for each in about.values())]
            if not steps or not handled or handled[0] in steps or not any(each in handled for each in steps):
                continue
            thing = next(name for name, its_steps in about.items() if handled[0] in its_steps)
            yield subject.finding(
                "caution-after-its-act",
                SEVERITY,
                caution,
                ("before",),
                f"{subject.where_is(handled[0])} handles `{thing}`, which this caution is about, "
                "before any step that shows it.",
                f'Write "{handled[0].id}" into `before` as well.',
            )
            break


def _subjects(subject: Subject, text: str) -> Iterator[dict[str, tuple[Step, ...]]]:
    """What a caution is about: each thing that it names, and all press fits if it is about a press.

    Each with the steps that handle it.
    """
    things: tuple[Part | Fasteners, ...] = (*subject.file.part, *subject.file.fasteners)
    for thing in things:
        names = {thing.called.casefold(), thing.id.casefold()}
        if any(name in text and re.search(rf"\b{re.escape(name)}\b", text) for name in names):
            yield {thing.id: subject.steps_with(thing.id, *_HANDLED)}
    if re.search(r"\ba press\b", text):
        # What is used once only is not pressed out again, but destroyed.
        pressed = [part.id for part in subject.file.part if part.fit is Fit.PRESS and part.single_use is None]
        yield {part: subject.steps_with(part, *_HANDLED) for part in pressed}
