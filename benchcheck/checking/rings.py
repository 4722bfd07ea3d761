"""Rings and their grooves as the rules look at them: sizes by variant, glands, lubricants in words.

What fits and what rubber bears is worked out in `mechanics`; what is wrong with it is for the rules to say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from benchcheck.mechanics.gland import Dimension, Form, Gland
from benchcheck.mechanics.gland import gland as read_gland
from benchcheck.mechanics.o_ring import Size, UnknownSize, size
from benchcheck.mechanics.rubber import RubberError, family, fluid_name
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure import model

_PIECES = re.compile(r"[,;:.()]|\b(?:on|in|into|and|or|with|of|at|for|over)\b")
_NONE = re.compile(r"\s*(?:no|not|never|without|free|keep|dry)\b")
_LONGEST_NAME = 3
"""Words in the longest name of a fluid that is looked for at the end of a piece of text."""


def sizes_of(groove: model.Groove) -> Iterator[tuple[tuple[str, ...], str]]:
    """The sizes that a groove takes, by variant if told so, each with its keys."""
    if isinstance(groove.takes, str):
        yield ("takes",), groove.takes
    else:
        for variant, taken in groove.takes.items():
            yield ("takes", variant), taken


@lru_cache(maxsize=256)
def size_of(text: str) -> Size | None:
    """The size a text means; None if it is none of AS568."""
    try:
        return size(text)
    except UnknownSize:
        return None


@lru_cache(maxsize=256)
def family_of(material: str) -> str | None:
    """The family of a rubber; None if it is not known."""
    try:
        return family(material)
    except RubberError:
        return None


def gland_of(told: model.Gland) -> Gland:
    """The gland that a table describes. Raises GlandError."""
    if told.boss is not None:
        return read_gland(f"{told.boss} boss")
    form, across = next(
        (form, value)
        for form, value in (
            (Form.BORE, told.bore),
            (Form.SHAFT, told.shaft),
            (Form.GROOVE_OUTSIDE, told.outside),
            (Form.CENTRE_LINE, told.centre_line),
        )
        if value is not None
    )
    return Gland(form, _dimension(across), _dimension(told.depth), _dimension(told.width))


def _dimension(length: Quantity | None) -> Dimension | None:
    return Dimension(length.to("in")) if length is not None and length.value > 0 else None


def fluids_at(groove: model.Groove, head: model.Head) -> tuple[str, ...]:
    """The sides whose fluids come to a ring: as told, or the only one there is."""
    sides = groove.touches or (tuple(head.fluids) if len(head.fluids) == 1 else ())
    return tuple(side for side in sides if side in head.fluids)


def fluids_in(text: str) -> list[str]:
    """The fluids that a text on lubrication means: of "oil, a film on the thread" it is mineral oil."""
    found: list[str] = []
    for piece in _PIECES.split(text.casefold()):
        words = piece.split()
        if not words or _NONE.match(piece):
            continue
        ends = (" ".join(words[-count:]) for count in range(min(_LONGEST_NAME, len(words)), 0, -1))
        fluid = next((name for name in map(fluid_name, ends) if name is not None), None)
        if fluid is not None:
            found.append(fluid)
    return found
