"""How each clock of a procedure runs its course along the steps: started, waited for, heeded.

For the rules on clocks. Only the order of the steps counts here; at the bench the time itself bars.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.clocks import ClockRule, clock_rules
from benchcheck.checking.subject import Subject
from benchcheck.checking.walk import Walk
from benchcheck.procedure.model import Step


@dataclass(frozen=True)
class Course:
    """One clock on one way through the steps: the places of acts on that way."""

    clock: ClockRule
    acts: tuple[Act, ...]
    starts: int
    waits: tuple[int, ...]
    barred: tuple[int, ...]
    tightened: tuple[int, ...]
    """Of a second pass: where the group is tightened again after the start."""

    @property
    def bars_something(self) -> bool:
        return any(place > self.starts for place in self.barred)

    @property
    def barred_before_wait(self) -> Step | None:
        """The first step after the start that has to wait for the clock, with no wait before it."""
        first = next((place for place in self.barred if place > self.starts), None)
        if (
            first is None
            or self.clock.least is None
            or any(self.starts < wait < first for wait in self.waits)
        ):
            return None
        return self.acts[first].step

    @property
    def wait_before_start(self) -> Step | None:
        return next((self.acts[wait].step for wait in self.waits if wait < self.starts), None)

    @property
    def second_pass_missing(self) -> bool:
        if not self.clock.group or not self.clock.id.endswith(" again"):
            return False
        first = next((place for place in self.barred if place > self.starts), len(self.acts))
        return not any(place < first for place in self.tightened)


def courses(subject: Subject) -> Iterator[Course]:
    """Each clock on each way on which it starts."""
    for walk in subject.walks:
        for clock in clock_rules(walk.pump):
            if course := _course(walk, clock):
                yield course


def _course(walk: Walk, clock: ClockRule) -> Course | None:
    acts = tuple(moment.act for moment in walk.moments)
    if clock.group:
        tight = [
            place
            for place, moment in enumerate(walk.moments)
            if moment.act.verb is Verb.TIGHTEN
            and moment.act.target == clock.group
            and not moment.passed_over
            and moment.after.held[clock.group].passed
        ]
        starts, tightened = tight[:1], tuple(tight[1:])
    else:
        starts = [place for place, act in enumerate(acts) if act.step.id == clock.step][-1:]
        tightened = ()
    if not starts:
        return None
    own_steps = {acts[place].step.id for place in (*starts, *tightened)}
    return Course(
        clock,
        acts,
        starts[0],
        tuple(at for at, act in enumerate(acts) if act.verb is Verb.WAIT and act.target == clock.id),
        tuple(
            at
            for at, act in enumerate(acts)
            if act.verb is not Verb.WAIT
            and act.step.id not in own_steps
            and (act.phase.value in clock.bars or act.step.id in clock.bars)
        ),
        tightened,
    )
