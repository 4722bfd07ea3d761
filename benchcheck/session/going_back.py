"""What has to come off before the work goes on, and what a way back would cost, shown before it is gone.

Three things are owed: what somebody wants to reach, what is used up and still in, and what stands although
a step it has to come after is void. Each is worked out from the state, so a way that was stopped half done,
or a part that died unnoticed, is asked for again until it is dealt with.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from benchcheck.assembly.way_back import Move, died, is_free, may_move, next_move, owed
from benchcheck.procedure.model import Phase, Step, StepAct
from benchcheck.session.events import (
    Event,
    GroupLoosened,
    PartInstalled,
    PartRemoved,
    RingLifted,
    WentBack,
    stamped,
)
from benchcheck.session.kit import Shortage, shortages
from benchcheck.session.state import State

BACK = "going back"
"""The step that the acts of going back belong to: with its blank it can be the name of no real one."""
BUILDING = (Phase.REASSEMBLY, Phase.TEST, Phase.RELEASE)


@dataclass(frozen=True, slots=True)
class Way:
    """A way back, gone ahead on a copy: what is done, and what it costs."""

    targets: tuple[str, ...]
    moves: tuple[Move, ...]
    dies: tuple[str, ...]
    """Parts and grooves whose living piece dies by it."""
    restarts: tuple[str, ...]
    """Groups that start again from their first round."""
    again: tuple[str, ...]
    """Acts that were done and are to be done again, in file order."""
    clocks: tuple[str, ...]
    """Clocks that run or are over, and have to be started again."""
    short: tuple[Shortage, ...]
    """What the kit no longer holds for the way forward."""
    refusals: tuple[Refusal, ...]
    """Why the way cannot be gone; empty if it can."""

    @property
    def off(self) -> tuple[str, ...]:
        """Groups, parts and grooves (their rings), in the order they come off."""
        return tuple(move.thing for move in self.moves if move.verb is not Verb.INSTALL)

    @property
    def tools(self) -> tuple[str, ...]:
        """Temporary tools that go on in between."""
        return tuple(move.thing for move in self.moves if move.verb is Verb.INSTALL)


def due(state: State) -> tuple[str, ...]:
    """What has to come off before anything else is done; latest wishes first."""
    if not _building(state):  # teardown reaches it by its own steps
        return state.reaching
    return (*state.reaching, *owed(state.assembly), *_stands_too_early(state))


def next_back(state: State) -> Act | None:
    """The act with which the way back goes on; None if nothing has to come off."""
    targets = due(state)
    move = next_move(state.assembly, targets) if targets else None
    return back_act(move) if move is not None else None


def back_act(move: Move) -> Act:
    """A move of a way back as an act, of a step of its own."""
    if move.verb is Verb.INSTALL:
        return Act(Step.model_construct(id=BACK, part=move.thing), move.verb, move.thing)
    step = Step.model_construct(id=BACK, act=StepAct.REMOVE, off=(move.thing,))
    return Act(step, move.verb, move.thing)


def way(state: State, targets: tuple[str, ...]) -> Way:
    """The way to the targets from here, with all that is owed besides."""
    from benchcheck.session.fold import fold

    def then(state: State, event: Event) -> State:
        at = state.at.isoformat() if state.at is not None else state.header.opened
        return fold(state, stamped((event,), after=state.number, at=at, by="")[0])

    ahead = then(state, WentBack(targets=targets, off=(), reason=""))
    moves: list[Move] = []
    refusals: list[Refusal] = []
    while (move := next_move(ahead.assembly, due(ahead))) and not refusals:
        refusals += may_move(ahead.assembly, move)
        moves.append(move)
        ahead = then(ahead, _event(ahead, move))
    return Way(
        targets,
        tuple(moves),
        died(state.assembly, ahead.assembly),
        tuple(each for each in state.assembly.held if each not in ahead.assembly.held),
        tuple(act.id for act in state.acts if state.fact(act.id) and not ahead.fact(act.id)),
        tuple(each for each in state.clocks if each not in ahead.clocks),
        shortages(ahead),
        tuple(refusals),
    )


def went_back(state: State, targets: tuple[str, ...], reason: str) -> WentBack:
    """The event that begins the way to the targets."""
    return WentBack(targets=targets, off=way(state, targets).off, reason=reason)


def _event(state: State, move: Move) -> Event:
    act, thing, pump = back_act(move).id, move.thing, state.pump
    match move.verb:
        case Verb.INSTALL:
            end = pump.planned_end(thing)
            turn = pump.turn(thing, end, pump.planned_seen.get(thing, ""))
            instance = state.assembly.instance(thing)
            return PartInstalled(act=act, done=True, part=thing, instance=instance, end=end, turn=turn)
        case Verb.REMOVE:
            return PartRemoved(act=act, done=True, part=thing)
        case Verb.LOOSEN:
            return GroupLoosened(act=act, done=True, group=thing)
    return RingLifted(act=act, done=True, groove=thing)


def _building(state: State) -> bool:
    """Whether anything was done towards the finished pump."""
    return any(act.id in state.facts and act.phase in BUILDING for act in state.acts)


def _stands_too_early(state: State) -> tuple[str, ...]:
    """What stands while what was done for it is void: a step it has to come after has to be done again."""
    now = state.assembly
    void = {
        act.target
        for act in state.acts
        if stands(now, act) and (fact := state.facts.get(act.id)) is not None and fact.void
    }
    return tuple(
        thing
        for thing in void
        if not any(act.target == thing and stands(now, act) and state.fact(act.id) for act in state.acts)
    )


def stands(now: Assembly, act: Act) -> bool:
    """Whether what an act brings about stands: the part is in, the ring in its groove, the group run in."""
    match act.verb:
        case Verb.INSTALL | Verb.FIT:
            tool = act.target in now.pump.parts and now.pump.parts[act.target].temporary
            return not tool and not is_free(now, act.target)
        case Verb.START | Verb.TIGHTEN:
            return act.target in now.held
    return False
