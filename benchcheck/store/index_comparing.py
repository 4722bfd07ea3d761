"""Readings of one record held against those of the records before it, from what the index keeps of them.

How likely it is that honest readings are so alike is worked out in `session.standing_out.readings_copied`.
"""

from __future__ import annotations

import json
from collections.abc import Iterable

from benchcheck.session.course import Shown
from benchcheck.session.remarks import Remark
from benchcheck.session.standing_out.readings_copied import Scaled, likest
from benchcheck.store.index_rows import Said


def said(remark: Remark) -> Said:
    """A remark as it is kept."""
    return Said(remark.kind, int(remark.weight), remark.sentence, remark.event)


def packed(row: Scaled) -> tuple[str | int | float | tuple[float, ...], ...]:
    """A row of readings as it is kept."""
    shown = row.shown
    return (
        shown.group,
        shown.round,
        shown.unit,
        shown.values,
        row.target,
        row.graduation,
        row.deviation,
        row.event,
    )


def likeness(readings: str, before: Iterable[tuple[str, str, str]]) -> list[Said]:
    """What is to be said of a record's readings, given serial, opening and readings of those before."""
    here = [
        Scaled(Shown("", group, number, unit, tuple(values)), target, graduation, deviation, event)
        for group, number, unit, values, target, graduation, deviation, event in json.loads(readings)
    ]
    earlier = [
        Shown(f"pump {serial} of {opened[:10]}", group, number, unit, tuple(values))
        for serial, opened, theirs in before
        for group, number, unit, values, *_ in json.loads(theirs)
    ]
    return [said(remark) for remark in likest(here, earlier)]
