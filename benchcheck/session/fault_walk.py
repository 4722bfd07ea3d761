"""The careful technician's way through one variant, moment by moment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.bars import in_the_way_of
from benchcheck.assembly.planned import BUILDS
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase
from benchcheck.session import engine
from benchcheck.session.careful import careful_step
from benchcheck.session.fold import folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.rehearsal import Stage
from benchcheck.session.state import State


class NotReleased(Exception):
    """The careful technician does not reach release, so that no fault can be judged; one sentence."""


@dataclass(frozen=True, slots=True)
class Moment:
    """One prompt of the way, with its answer."""

    place: int
    state: State
    act: Act | None
    prompt: Prompt
    answer: str
    now: datetime


@dataclass(frozen=True)
class Walk:
    """A whole way, with the verdicts of one branch."""

    variant: str | None
    moments: tuple[Moment, ...]
    first: Mapping[str, int]
    """Where each act begins."""
    last: Mapping[str, int]
    """Where each step ends."""
    _hidden: dict[str, int] = field(default_factory=dict, compare=False)

    @property
    def pump(self) -> Pump:
        return self.moments[-1].state.pump

    def begins(self, act: str) -> int:
        """The first moment of the step an act is in: what it needs is taken in hand there."""
        step = self.moments[self.first[act]].prompt.step
        return next(moment.place for moment in self.moments if moment.prompt.step == step)

    def hidden(self, thing: str) -> int:
        """The last moment of the step that covers a part or group or hides a groove; the end if none does."""
        if thing not in self._hidden:
            self._hidden[thing] = self._found_hidden(thing)
        return self._hidden[thing]

    def _found_hidden(self, thing: str) -> int:
        before = None
        for moment in self.moments:
            now = moment.state.assembly
            if moment.act is None or moment.act.phase not in (*BUILDS, Phase.RELEASE) or now is before:
                continue
            before = now
            if _is_in(now, thing) and _is_covered(now, thing):
                return self.last[self.moments[moment.place - 1].prompt.step]
        return len(self.moments) - 1


def _is_in(now: Assembly, thing: str) -> bool:
    return thing in now.seated or thing in now.held or bool(now.living_rings(thing))


def _is_covered(now: Assembly, thing: str) -> bool:
    if thing in now.pump.grooves:
        return now.closed(thing)
    return any(each in now.seated for each in in_the_way_of(now, thing))


def walks(stage: Stage) -> tuple[Walk, ...]:
    """The careful way, and one more for each verdict that it does not come to. Raises NotReleased."""
    found = [_walk(stage, {})]
    came = found[0].moments[-1].state.verdicts
    for step in found[0].pump.steps:
        for name, value in step.if_.items():
            if came.get(name) != value:
                found.append(_walk(stage, {name: value}))
    return tuple(found)


def _walk(stage: Stage, verdicts: Mapping[str, str]) -> Walk:
    state, now = stage.start, stage.begins
    moments: list[Moment] = []
    while (step := careful_step(state, now)) is not None:
        if step.refused:
            raise NotReleased(f"The careful technician does not reach release: {step.refused}.")
        act = engine.next_act(state) if step.prompt.act else None
        moment = Moment(len(moments), state, act, step.prompt, step.answer, step.asked)
        state, now = step.state, step.now
        if act is not None and act.verb is Verb.ASK and act.question.sets in verdicts:
            moment = replace(moment, answer=verdicts[act.question.sets or ""])
            events = engine.answer(moment.state, moment.prompt.id, moment.answer, now)
            assert not isinstance(events, Outcome), "a verdict is one of the answers"
            state = folded(moment.state, events)
        moments.append(moment)
    if state.outcome != "released":
        raise NotReleased(f"The careful technician does not reach release: the pump is {state.outcome}.")
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    for moment in moments:
        first.setdefault(moment.prompt.act, moment.place)
        last[moment.prompt.step] = moment.place
    return Walk(stage.variant, tuple(moments), first, last)
