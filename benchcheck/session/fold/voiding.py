"""What goes void with what it leaned on. What leans on what is told in `session.leaning`."""

from __future__ import annotations

from dataclasses import replace

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.changed import changed
from benchcheck.assembly.clocks import clock_rules
from benchcheck.session.events import ActEvent, Event
from benchcheck.session.leaning import gone, group_token, serves, step_of, step_token
from benchcheck.session.state import State


def without_lost(state: State, before: State, event: Event) -> State:
    """What leaned on something that is gone is void, and what came after it; clocks that it ran stop."""
    lost = gone(before.assembly, state.assembly, only_pieces=_undone_as_planned(state, event))
    corrected = _corrected(state, before)
    lost |= {step_token(step_of(name)) for name in corrected}
    if not lost:
        return state
    facts, clocks = dict(state.facts), dict(state.clocks)
    on_still = _tools_not_needed(state)
    voided: set[str] = set()
    while lost:
        newly = {name for name, fact in facts.items() if not fact.void and fact.leans & lost} - on_still
        facts.update((name, replace(facts[name], void=True)) for name in newly)
        steps = {step_of(name) for name in newly | corrected}
        for rule in clock_rules(state.pump):
            if (rule.group and group_token(rule.group) in lost) or rule.step in steps:
                clocks.pop(rule.id, None)
        voided |= newly
        lost = frozenset(step_token(step_of(name)) for name in newly)
    if not voided and len(clocks) == len(state.clocks):
        return state
    return changed(state, facts=facts, clocks=clocks, voided=state.voided + len(voided))


def _corrected(state: State, before: State) -> set[str]:
    """The facts that the event itself made void."""
    if state.facts is before.facts:
        return set()
    return {name for name, fact in state.facts.items() if fact.void and before.fact(name) is not None}


def _undone_as_planned(state: State, event: Event) -> bool:
    """Whether a step of the procedure itself takes something off: what was done before stays done."""
    if not isinstance(event, ActEvent) or not event.done:
        return False
    act = state.act(event.act)
    return act is not None and act.verb in (Verb.REMOVE, Verb.LOOSEN, Verb.LIFT)


def _tools_not_needed(state: State) -> set[str]:
    """The acts that put on a temporary tool and need not be done again: it is on, or all it is for is in."""
    seated, pump = state.assembly.seated, state.pump
    return {
        act.id
        for act in state.acts
        if act.verb is Verb.INSTALL and pump.parts[act.target].temporary
        if act.target in seated or serves(pump, act.target) <= seated.keys()
    }
