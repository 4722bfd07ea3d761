"""Which confirmations hold under another text of the same procedure, and what has no place in it.

A confirmation holds when its act is in both texts and all that it is about says the same in both. What a
thing is called, and why something is so, are words that change no pump; what was seen as the pump came in
stays seen.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import Phase
from benchcheck.procedure.table import Table

AS_IT_CAME_IN = (Phase.INTAKE, Phase.TEARDOWN)
"""Facts of these phases are about the pump as it came in: nothing that happens later can change them."""
_WORDS = frozenset({"name", "because", "low_because", "seen", "shape"})


def confirmations(old: Pump, new: Pump) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The acts of the new text whose confirmations by the old one hold, and those to be confirmed by it."""
    was = {act.id: act for act in all_acts(old)}
    kept: list[str] = []
    again: list[str] = []
    for act in all_acts(new):
        before = was.get(act.id)
        same = before is not None and (act.phase in AS_IT_CAME_IN or _about(old, before) == _about(new, act))
        (kept if same else again).append(act.id)
    return tuple(kept), tuple(again)


def without_place(now: Assembly, new: Pump) -> Iterator[tuple[str, str]]:
    """What stands in the pump and could not stand there by the new text, each with the reason."""
    old = now.pump
    if old.main != new.main:
        yield old.main, "another part is the one that everything is on there"
    for part, seat in now.seated.items():
        told = new.parts.get(part)
        if told is None:
            yield part, "it is not in that text"
        elif told.into != seat.body:
            yield part, "it sits elsewhere there"
        elif seat.end not in told.ends_it_goes_in_from or told.ends != old.parts[part].ends:
            yield part, "it goes in another way there"
    for group in now.held:
        if group not in new.groups:
            yield group, "it is not in that text"
        elif _place(old, group) != _place(new, group):
            yield group, "it sits elsewhere there"
    for groove, rings in now.sealed.items():
        if rings and (groove not in new.grooves or new.grooves[groove].in_ != old.grooves[groove].in_):
            yield groove, "that groove is not in that text"


def _place(pump: Pump, group: str) -> tuple[str, str]:
    return pump.groups[group].into, pump.groups[group].from_


def _about(pump: Pump, act: Act) -> tuple[Any, ...]:
    """All that an act's confirmation rests on, without mere words."""
    target = act.target
    if target in pump.parts:
        faces = tuple(_matter(face) for face in pump.faces if face.part == target)
        lines = tuple(_matter(line) for line in pump.lines if line.part == target)
        return (_matter(pump.parts[target]), faces, lines)
    if target in pump.grooves:
        return (_matter(pump.grooves[target]),)
    if target in pump.groups:
        return (_matter(pump.groups[target]),)
    if act.verb is Verb.ASK:
        parts = (pump.parts.get(each) for each in act.question.of or act.step.of)
        return (_matter(act.question), *(part and _matter(part) for part in parts))
    return (_matter(act.step),)


def _matter(table: Table) -> dict[str, Any]:
    """What a table says, without its words."""
    return {name: value for name, value in table if name not in _WORDS}
