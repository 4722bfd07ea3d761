"""What each wrench did on this pump: the readings that stand, and what falls with a wrench in doubt.

What was done anew with another wrench, or came loose, stands no more.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from benchcheck.procedure.model import Fasteners
from benchcheck.session.state import State

PASS = "pass"
"""Stands for the number of the round in the check pass."""


def name_of(group: str, round_: int | str, position: int) -> str:
    """How records name what a wrench did: "group round/position"."""
    return f"{group} {round_}/{position}"


def done_with(state: State, wrench: str, what: str) -> State:
    """A wrench did this; what another did in its place counts no more."""
    if not wrench:
        return state
    turned = {each: tuple(did for did in all_ if did != what) for each, all_ in state.turned_with.items()}
    return replace(state, turned_with={**turned, wrench: (*turned.get(wrench, ()), what)})


def came_loose(state: State, group: str) -> State:
    """What was done to a group stands no more."""
    turned = {
        wrench: tuple(each for each in did if not each.startswith(f"{group} "))
        for wrench, did in state.turned_with.items()
    }
    return replace(state, turned_with=turned)


def under_way_with(state: State, wrench: str) -> Iterator[str]:
    """The groups whose round or check pass under way was done in part with a wrench."""
    did = state.turned_with.get(wrench, ())
    for group, hold in state.assembly.held.items():
        now = [name_of(group, hold.rounds + 1, position) for position in hold.done]
        if state.pump.groups[group].angle is None:  # an angle is read off the head, not off the wrench
            now += [name_of(group, PASS, position) for position in hold.checked]
        if any(each in did for each in now):
            yield group


def in_words(state: State, readings: Sequence[str]) -> str:
    """What a wrench did, for a person: each group with its rounds, each round with its positions."""
    found: dict[tuple[str, str], list[str]] = {}
    for reading in readings:
        group, _, place = reading.partition(" ")
        round_, _, position = place.partition("/")
        found.setdefault((group, round_), []).append(position)
    return "; ".join(
        _round_in_words(state.pump.groups[group], round_, positions)
        for (group, round_), positions in found.items()
    )


def _round_in_words(group: Fasteners, round_: str, positions: list[str]) -> str:
    told = "check pass" if round_ == PASS else f"round {round_}"
    if group.count == 1:
        return f"{group.called}, {told}"
    which = "position" if len(positions) == 1 else "positions"
    return f"{group.called}, {told}, {which} {', '.join(positions)}"
