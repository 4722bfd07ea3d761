"""Which loose screw goes where, in one variant of a group."""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.procedure.model import Fasteners, Screws


def screws_at(group: Fasteners, variant: str | None) -> Iterator[tuple[int, Screws]]:
    """Each position, with each line of `screws` that goes there."""
    for screws in group.screws:
        if not screws.for_ or variant in screws.for_:
            for place in screws.at or range(1, group.count + 1):
                yield place, screws
