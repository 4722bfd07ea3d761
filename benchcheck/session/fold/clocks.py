"""The clocks that an event sets running. Whether one is over is told in `session.clocks`."""

from __future__ import annotations

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.changed import changed
from benchcheck.assembly.clocks import clock_rules
from benchcheck.session.events import Event
from benchcheck.session.state import Running, State, moment


def with_clocks(state: State, event: Event, *, group: str = "", act: Act | None = None) -> State:
    """With those running that a group which is tight, or an act that ends its step, starts now."""
    started = {
        rule.id: Running(moment(event.at), event.number)
        for rule in clock_rules(state.pump)
        if (rule.group and rule.group == group and rule.id not in state.clocks)
        or (act is not None and rule.step == act.step.id and _ends_its_step(state, act))
    }
    return changed(state, clocks={**state.clocks, **started}) if started else state


def clocks_started(state: State, act: Act, event: Event) -> State:
    """With those running that an act which is done starts."""
    tight = act.verb is Verb.TIGHTEN and state.assembly.held[act.target].passed
    return with_clocks(state, event, group=act.target if tight else "", act=act)


def _ends_its_step(state: State, act: Act) -> bool:
    return [each for each in state.acts if each.step.id == act.step.id][-1].id == act.id
