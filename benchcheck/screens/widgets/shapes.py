"""Shapes of parts in section, by kind: half of a part beside the shaft axis, with its first end up.

A shape is made of boxes of metal in cells of the smaller window: distance from the axis, and depth from the
first end. The end that carries what one sees (a lip, a flange, a deep pocket) is always the first. These are
likenesses that tell two ends apart; no part is drawn to scale.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    """What a part looks like in section; in brackets, what its first end is."""

    CARTRIDGE = "cartridge"  # two pockets (the deep one)
    LIP_SEAL = "lip seal"  # (the lip)
    WASHER = "washer"  # (the grooved face)
    RETAINING_RING = "retaining ring"  # (the sharp edge)
    SLEEVE = "sleeve"  # (the flange)
    PLATE = "plate"  # (the side with the register)
    SHAFT = "shaft"  # (the threaded end)
    ROTOR = "rotor"  # (the face with the dot)
    HOUSING_RING = "housing ring"  # (the face with the dot)
    IMPELLER = "impeller"  # (the eye)
    NUT = "nut"  # (the chamfer)
    SEAL_HEAD = "seal head"  # (the carbon face)
    SEAL_SEAT = "seal seat"  # (the lapped face)
    BODY = "body"  # (the open side)
    OTHER = "other"  # drawn as a block with its ends written on it


@dataclass(frozen=True)
class Box:
    """Metal between two distances from the axis and two depths from the first end."""

    inner: int
    outer: int
    start: int
    stop: int


@dataclass(frozen=True)
class Pocket:
    """Room for a seal in a carrier: between two depths, closed at the end that is its floor."""

    start: int
    stop: int
    opens_at_first_end: bool
    inner: int
    wall: int


@dataclass(frozen=True)
class Slant:
    """A lip: a stroke that begins at a distance and a depth and nears the axis toward one end."""

    distance: int
    depth: int
    rows: int
    toward_first_end: bool


@dataclass(frozen=True)
class Shape:
    """Half a part in section: how far out and how long it is, its metal, and what tells its ends apart."""

    radius: int
    length: int
    metal: tuple[Box, ...]
    pockets: tuple[Pocket, ...] = ()
    slants: tuple[Slant, ...] = ()
    named_first_face: bool = False
    thread: int = 0
    coil: Box | None = None
    rounded_second_end: bool = False
    chamfered_first_end: bool = False


SHAPES: Mapping[Kind, Shape] = {
    Kind.CARTRIDGE: Shape(
        radius=13,
        length=8,
        metal=(Box(9, 13, 0, 8), Box(6, 13, 3, 6)),
        pockets=(
            Pocket(0, 3, opens_at_first_end=True, inner=6, wall=9),
            Pocket(6, 8, opens_at_first_end=False, inner=6, wall=9),
        ),
    ),
    Kind.LIP_SEAL: Shape(
        radius=12,
        length=6,
        metal=(Box(10, 12, 0, 6), Box(6, 12, 4, 6)),
        slants=(Slant(distance=5, depth=3, rows=4, toward_first_end=True),),
    ),
    Kind.WASHER: Shape(
        radius=13,
        length=4,
        metal=(Box(5, 13, 1, 4), Box(5, 7, 0, 1), Box(8, 10, 0, 1), Box(11, 13, 0, 1)),
    ),
    Kind.RETAINING_RING: Shape(radius=13, length=4, metal=(Box(8, 13, 0, 4),), rounded_second_end=True),
    Kind.SLEEVE: Shape(radius=12, length=8, metal=(Box(6, 9, 0, 8), Box(6, 12, 0, 2))),
    Kind.PLATE: Shape(radius=13, length=7, metal=(Box(3, 13, 2, 5), Box(5, 10, 0, 3), Box(9, 12, 4, 7))),
    Kind.SHAFT: Shape(
        radius=5, length=8, metal=(Box(0, 2, 0, 3), Box(0, 5, 3, 6), Box(0, 4, 5, 8)), thread=3
    ),
    Kind.ROTOR: Shape(radius=12, length=5, metal=(Box(4, 12, 0, 5),), named_first_face=True),
    Kind.HOUSING_RING: Shape(radius=13, length=5, metal=(Box(8, 13, 0, 5),), named_first_face=True),
    Kind.IMPELLER: Shape(
        radius=13,
        length=8,
        metal=(Box(7, 9, 0, 3), Box(7, 13, 1, 3), Box(2, 13, 4, 6), Box(2, 5, 3, 8)),
    ),
    Kind.NUT: Shape(radius=9, length=6, metal=(Box(3, 9, 0, 6),), chamfered_first_end=True),
    Kind.SEAL_HEAD: Shape(
        radius=11, length=8, metal=(Box(4, 7, 0, 3), Box(4, 11, 2, 5)), coil=Box(7, 10, 5, 8)
    ),
    Kind.SEAL_SEAT: Shape(radius=12, length=6, metal=(Box(5, 8, 0, 3), Box(5, 12, 2, 6))),
    Kind.BODY: Shape(radius=13, length=8, metal=(Box(10, 13, 0, 8), Box(3, 13, 5, 7), Box(3, 6, 5, 8))),
}
