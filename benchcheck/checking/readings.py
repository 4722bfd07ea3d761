"""The questions that are asked while the pump is built, and the pump as it stands then."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.planned import BUILDS
from benchcheck.assembly.state import Assembly
from benchcheck.checking.subject import Subject
from benchcheck.procedure.model import Ask, Step


def readings(subject: Subject) -> Iterator[tuple[Ask, Step, Assembly]]:
    """Each question once, on the first way on which it is asked."""
    told: set[str] = set()
    for walk in subject.walks:
        for moment in walk.moments:
            act = moment.act
            if act.verb is Verb.ASK and act.phase in BUILDS and act.id not in told:
                told.add(act.id)
                yield act.question, act.step, moment.before
