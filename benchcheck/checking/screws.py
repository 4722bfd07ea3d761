"""Loose screws as the rules look at them: which goes where, and what the words of the stores say of it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache

from benchcheck.mechanics.engagement import Bottoming, EngagementError, reach
from benchcheck.mechanics.thread import Thread, ThreadError, parse_thread
from benchcheck.mechanics.units import QuantityError, parse
from benchcheck.procedure.model import Fasteners, Screws

_THREAD = re.compile(
    r"(?<![\w.])(?:M ?\d{1,2}(?:\.\d)?(?: ?[x×] ?[0-6](?:\.\d{1,2})?(?![\d.]))?"
    r"|(?:\d-)?\d{1,2}(?:/\d{1,2})?-\d{1,2}(?: UN[A-Z]*)?)(?![^\Wx]|/)"
)
"""A thread among other words, or before a length: "M8", "M40x1.5", "5/16-18 UNC", the M6 of "M6x20"."""

_LENGTH = re.compile(r" ?[x×] ?((?:\d{1,2}[- ])?\d{1,2}/\d{1,2}|\d{1,3}(?:\.\d{1,3})?)(?![\w/.])")
"""What follows it: "x 60", "x 2-3/4"."""


def screws_at(group: Fasteners, variant: str | None) -> Iterator[tuple[int, Screws]]:
    """Each position, with each line of `screws` that goes there."""
    for screws in group.screws:
        if not screws.for_ or variant in screws.for_:
            for place in screws.at or range(1, group.count + 1):
                yield place, screws


def thread_in(text: str) -> Thread | None:
    """The first thread among the words of a text."""
    found = _found(text)
    return found[0] if found is not None else None


def length_in(text: str) -> float | None:
    """The length of a screw [mm], as told behind its thread: in inches behind an inch thread."""
    found = _found(text)
    return found[1] if found is not None else None


@lru_cache(maxsize=256)
def _found(text: str) -> tuple[Thread, float | None] | None:
    for match in _THREAD.finditer(text):
        with suppress(ThreadError):
            thread = parse_thread(match[0])
            return thread, _length(text[match.end() :], "mm" if match[0].startswith("M") else "in")
    return None


def _length(rest: str, unit: str) -> float | None:
    match = _LENGTH.match(rest)
    if match is None:
        return None
    try:
        return parse(f"{match[1]} {unit}", "length").to("mm")
    except QuantityError:
        return None


@dataclass(frozen=True, slots=True)
class Reach:
    """How a screw of one line meets its hole."""

    screws: Screws
    length_millimetre: float
    grip_millimetre: float
    into_millimetre: float
    """How far it goes in; below zero: so much too short."""
    ends: Bottoming | None
    """None: it does not reach the thread."""


def reaches(group: Fasteners) -> Iterator[Reach]:
    """Each line of screws of which length, grip and hole are told."""
    if group.tapped is None:
        return
    depth = group.tapped.depth.to("mm")
    for screws in group.screws:
        length = length_in(screws.item)
        if screws.grip is None or length is None:
            continue
        grip = screws.grip.to("mm")
        try:
            into, ends = reach(length, grip, depth)
        except EngagementError:
            yield Reach(screws, length, grip, length - grip, None)
        else:
            yield Reach(screws, length, grip, into, ends)
