"""What a variant names and does not have: a part, groove or group that is `for` others only.

Without it the pump of that variant cannot be thought through, so the walk leaves it out until that is mended.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import MustFace, MustLineUp
from benchcheck.procedure.table import Table

Lacking = tuple[Table, tuple[str | int, ...], str]
"""The table that names it, the keys under which, and the name."""


def is_sound(pump: Pump) -> bool:
    return next(lacking(pump), None) is None


def lacking(pump: Pump) -> Iterator[Lacking]:
    """All that the tables of a variant cannot do without, and that is not there in this variant."""
    if pump.main not in pump.parts:
        yield pump.procedure.procedure, ("main",), pump.main
    for part in pump.parts.values():
        if part.into is not None and part.into not in pump.parts:
            yield part, ("into",), part.into
        if part.under is not None and part.under not in pump.parts:
            yield part, ("under",), part.under
        for mark, over in pump.lines_up(part.id).items():
            other = over.partition(":")[0].strip()
            if other not in pump.parts:
                yield part, ("lines_up", mark), other
    for groove in pump.grooves.values():
        if groove.in_ not in pump.parts:
            yield groove, ("in",), groove.in_
        for number, other in enumerate(groove.closed_against):
            if other not in pump.parts:
                yield groove, ("against",) if isinstance(groove.against, str) else ("against", number), other
        if groove.closed_by is not None and groove.closed_by not in pump.groups:
            yield groove, ("closed_by",), groove.closed_by
    for group in pump.groups.values():
        if group.into not in pump.parts:
            yield group, ("into",), group.into
        for number, part_name in enumerate(group.parts):
            if part_name not in pump.parts:
                yield group, ("parts", number), part_name
    musts: tuple[MustFace | MustLineUp, ...] = (*pump.faces, *pump.lines)
    for must in musts:
        if must.of is not None and must.of not in pump.parts:
            yield must, ("of",), must.of
    for stack in pump.stacks:
        if stack.on not in pump.parts:
            yield stack, ("on",), stack.on
