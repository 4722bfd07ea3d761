"""The careful technician's way through one variant, moment by moment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.bars import in_the_way_of
from benchcheck.assembly.planned import BUILDS
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase
from benchcheck.session import engine
from benchcheck.session.fold import beginning, folded
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.rehearsal import BEGINS, ONE_ANSWER, careful_answer, header_for
from benchcheck.session.state import Job, State


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


def walks(job: Job, variant: str | None) -> tuple[Walk, ...]:
    """The careful way, and one more for each verdict that it does not come to. Raises NotReleased."""
    found = [_walk(job, variant, {})]
    came = found[0].moments[-1].state.verdicts
    for step in found[0].pump.steps:
        for name, value in step.if_.items():
            if came.get(name) != value:
                found.append(_walk(job, variant, {name: value}))
    return tuple(found)


def _walk(job: Job, variant: str | None, verdicts: Mapping[str, str]) -> Walk:
    state, now = beginning(job, header_for(job, variant, BEGINS)), BEGINS
    moments: list[Moment] = []
    while (prompt := engine.ask(state, now)) is not None:
        if prompt.until is not None and prompt.until > now:
            now = prompt.until
            continue
        act = engine.next_act(state) if prompt.act else None
        answer = careful_answer(state, prompt, now)
        if act is not None and act.verb is Verb.ASK and act.question.sets in verdicts:
            answer = verdicts[act.question.sets or ""]
        moments.append(Moment(len(moments), state, act, prompt, answer, now))
        now += ONE_ANSWER
        events = engine.answer(state, prompt.id, answer, now)
        if isinstance(events, Outcome):
            refusal = events.refusals[0]
            raise NotReleased(
                f"The careful technician does not reach release: in {prompt.step or 'arrival'}, "
                f"{answer!r} to {prompt.question} is refused by {refusal.rule}: {refusal.wrong}."
            )
        state = folded(state, events)
    if state.outcome != "released":
        raise NotReleased(f"The careful technician does not reach release: the pump is {state.outcome}.")
    first: dict[str, int] = {}
    last: dict[str, int] = {}
    for moment in moments:
        first.setdefault(moment.prompt.act, moment.place)
        last[moment.prompt.step] = moment.place
    return Walk(variant, tuple(moments), first, last)
