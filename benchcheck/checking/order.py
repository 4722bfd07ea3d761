"""Parts that the steps fit in another order than a stack has them, for the rules on order."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Act, Verb
from benchcheck.checking.subject import Subject
from benchcheck.checking.walk import Stop
from benchcheck.procedure.model import Step


def in_the_wrong_order(subject: Subject) -> Iterator[tuple[Stop, Act]]:
    """Where a step fits a part whose place is covered by one that was fitted before it.

    What covers it because no step has taken it off is in the way of the teardown, not in the wrong order.
    """
    for stop, act in subject.acts_stopped_by("place-is-covered"):
        if any(
            _comes_before(subject, step, stop, act) for step in subject.steps_with(_above(stop), Verb.INSTALL)
        ):
            yield stop, act


def _above(stop: Stop) -> str:
    return stop.refusal.off


def _comes_before(subject: Subject, step: Step, stop: Stop, act: Act) -> bool:
    """Whether the step fits what is above before the act that was stopped."""
    if step != act.step:
        return subject.before(step, act.step)
    return step.all_parts.index(_above(stop)) < step.all_parts.index(act.target)
