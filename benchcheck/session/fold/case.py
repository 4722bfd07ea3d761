"""What an event makes of the state, by its kind; and the small changes that several kinds share.

The cases themselves stand in the modules beside this one: `@case.register`, with the kind as the type of the
event.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import singledispatch

from benchcheck.assembly.changed import changed
from benchcheck.session.events import Event
from benchcheck.session.state import State


@singledispatch
def case(event: Event, state: State) -> State:
    """The state with what the event says; of a kind that has no case, the state as it was."""
    return state


def in_hand(state: State, **answers: str) -> State:
    """With answers to questions of the act in hand."""
    return changed(state, hand={**state.hand, **answers})


def with_person(state: State, name: str) -> State:
    """With one more person who took part in the work."""
    return state if not name or name in state.people else changed(state, people=(*state.people, name))


def with_lot(state: State, lot: str) -> tuple[str, ...]:
    """The lots that were used, with one more."""
    return state.lots if not lot or lot in state.lots else (*state.lots, lot)


def without_gauge(state: State, gauge: str) -> Mapping[str, str]:
    """The gauges in hand without one: another is asked for at the next reading of its kind."""
    return {kind: chosen for kind, chosen in state.gauges.items() if chosen != gauge}


def cleared(state: State, *things: str) -> tuple[str, ...]:
    """What is doubted still, once these things are fitted anew or looked at again."""
    return tuple(each for each in state.suspects if each not in things)


def one_more(used: Mapping[str, int], piece: str) -> Mapping[str, int]:
    """The pieces taken so far, with one more."""
    return {**used, piece: used.get(piece, 0) + 1}
