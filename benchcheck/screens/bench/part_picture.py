"""A part of the pump as its picture needs it: which shape, which end is the telling one, what is in it.

A shape that nothing here knows gives a plain block with the names of its ends.
"""

from __future__ import annotations

from collections.abc import Mapping

from benchcheck.procedure.model import Part as PartTold
from benchcheck.screens.content import literal
from benchcheck.screens.widgets.section import Part, PocketSeal, RingGroove
from benchcheck.screens.widgets.shapes import Kind
from benchcheck.session.state import State

_KINDS: Mapping[str, Kind] = {
    "cartridge": Kind.CARTRIDGE,
    "lip seal": Kind.LIP_SEAL,
    "washer": Kind.WASHER,
    "internal ring": Kind.RETAINING_RING,
    "external ring": Kind.RETAINING_RING,
    "sleeve": Kind.SLEEVE,
    "plate": Kind.PLATE,
    "shaft": Kind.SHAFT,
    "rotor": Kind.ROTOR,
    "inner rotor": Kind.ROTOR,
    "outer rotor": Kind.ROTOR,
    "ring housing": Kind.HOUSING_RING,
    "impeller": Kind.IMPELLER,
    "nut": Kind.NUT,
    "seal head": Kind.SEAL_HEAD,
    "face seat": Kind.SEAL_SEAT,
    "body": Kind.BODY,
    "casing": Kind.BODY,
}

_TELLING: Mapping[Kind, tuple[str, ...]] = {
    Kind.NUT: ("chamfer",),
    Kind.BODY: ("open", "frame", "plate", "cover"),
    Kind.PLATE: ("ring", "register", "inner"),
}
"""Words in the name of the end that the shape shows first, where that need not be the part's first end."""


def kind_of(told: PartTold) -> Kind:
    return _KINDS.get(told.shape or "", Kind.OTHER)


def first_end(told: PartTold) -> str:
    """The end that the shape shows first."""
    assert told.ends is not None
    for word in _TELLING.get(kind_of(told), ()):
        for end in told.ends:
            if word in end.casefold():
                return end
    return told.ends[0]


def picture_of(state: State, part: str) -> Part:
    """The part with the seals in its pockets and the rings in its outer grooves, as the record has them."""
    told = state.pump.parts[part]
    assert told.ends is not None
    first = first_end(told)
    second = told.ends[1] if first == told.ends[0] else told.ends[0]
    return Part(
        kind_of(told),
        literal(told.called),
        (literal(first), literal(second)),
        grooves=_grooves(state, part, first, second),
        seals=tuple(_seal(state, part, end) for end in (first, second)),
    )


def _grooves(state: State, part: str, first: str, second: str) -> tuple[RingGroove, ...]:
    """Grooves round the outside of a part, in their order from its first end."""
    outer = [
        groove
        for groove in state.pump.grooves.values()
        if groove.in_ == part and groove.face is None and groove.gland is not None and groove.gland.bore
    ]

    def place(where: str) -> int:
        return -1 if _names(where, first) else 1 if _names(where, second) else 0

    outer.sort(key=lambda groove: place(groove.where))
    shares = {1: (0.5,), 2: (3 / 7, 5 / 7)}.get(
        len(outer), tuple((index + 1) / (len(outer) + 1) for index in range(len(outer)))
    )
    return tuple(
        RingGroove(share, filled=bool(state.assembly.sealed.get(groove.id)))
        for share, groove in zip(shares, outer, strict=True)
    )


def _names(where: str, end: str) -> bool:
    """Whether a place is told by an end's name, with or without the word "end"."""
    return end.casefold().removesuffix(" end") in where.casefold()


def _seal(state: State, part: str, end: str) -> PocketSeal | None:
    """The lip seal in the pocket at an end, if there is one."""
    told = state.pump.parts[part]
    for other, seat in state.assembly.seated.items():
        seal = state.pump.parts[other]
        if seat.body != part or seat.end != end or kind_of(seal) is not Kind.LIP_SEAL or not seat.turn:
            continue
        toward_first = seat.turn > 0
        return PocketSeal(lip_points_out=toward_first == (told.ends is not None and end == told.ends[0]))
    return None
