"""What each wrench and gauge did on this pump: what stands of it, and what falls with one that is in doubt.

What was done or read anew with another one, or came loose, stands no more.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.changed import changed
from benchcheck.procedure.model import Fasteners
from benchcheck.session.state import State

PASS = "pass"
"""Stands for the number of the round in the check pass."""


def name_of(group: str, round_: int | str, position: int) -> str:
    """How records name what a wrench did: "group round/position"."""
    return f"{group} {round_}/{position}"


def name_of_reading(act: str, place: int) -> str:
    """How records name what was read on a gauge: "step/act place"."""
    return f"{act} {place}"


def done_with(state: State, instrument: str, what: str) -> State:
    """An instrument did this; what another did in its place counts no more."""
    if not instrument:
        return state
    done = {
        each: tuple(did for did in all_ if did != what) if what in all_ else all_
        for each, all_ in state.done_with.items()
    }
    return changed(state, done_with={**done, instrument: (*done.get(instrument, ()), what)})


def standing(state: State, instrument: str) -> tuple[str, ...]:
    """What an instrument did and still counts: of readings, those whose act is confirmed or in hand."""
    in_hand = state.recent[-1].act if state.hand and state.recent else ""

    def stands(what: str) -> bool:
        act = what.rpartition(" ")[0]
        known = act == in_hand or act in state.kept or state.fact(act) is not None
        return known or not _is_reading(what)

    return tuple(what for what in state.done_with.get(instrument, ()) if stands(what))


def _is_reading(what: str) -> bool:
    return "/" in what.partition(" ")[0]


def came_loose(state: State, group: str) -> State:
    """What was done to a group stands no more."""
    done = {
        instrument: tuple(each for each in did if not each.startswith(f"{group} "))
        for instrument, did in state.done_with.items()
    }
    return changed(state, done_with=done)


def under_way_with(state: State, wrench: str) -> Iterator[str]:
    """The groups whose round or check pass under way was done in part with a wrench."""
    did = state.done_with.get(wrench, ())
    for group, hold in state.assembly.held.items():
        now = [name_of(group, hold.rounds + 1, position) for position in hold.done]
        if state.pump.groups[group].angle is None:  # an angle is read off the head, not off the wrench
            now += [name_of(group, PASS, position) for position in hold.checked]
        if any(each in did for each in now):
            yield group


def in_words(state: State, readings: Sequence[str]) -> str:
    """What an instrument did, for a person: groups with rounds and positions, readings by what was read."""
    found: dict[tuple[str, str], list[str]] = {}
    read: list[str] = []
    for reading in readings:
        thing, _, place = reading.partition(" ")
        if _is_reading(reading):
            read.append(_reading_in_words(state, thing))
            continue
        round_, _, position = place.partition("/")
        found.setdefault((thing, round_), []).append(position)
    turned = (
        _round_in_words(state.pump.groups[group], round_, positions)
        for (group, round_), positions in found.items()
    )
    return "; ".join((*turned, *dict.fromkeys(read)))


def _reading_in_words(state: State, name: str) -> str:
    act = state.act(name)
    if act is None:
        return name
    if act.verb is Verb.ASK:
        return act.question.what
    return f"running torque of {state.pump.the(act.target)}"


def _round_in_words(group: Fasteners, round_: str, positions: list[str]) -> str:
    told = "check pass" if round_ == PASS else f"round {round_}"
    if group.count == 1:
        return f"{group.called}, {told}"
    which = "position" if len(positions) == 1 else "positions"
    return f"{group.called}, {told}, {which} {', '.join(positions)}"
