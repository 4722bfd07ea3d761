"""The end of the work at the bench, and a reviewer's word on it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import Event


@dataclass(frozen=True, kw_only=True)
class Closed(Event):
    """The end of the work on the bench, with its summary: a claim, worked out anew on reading."""

    kind: ClassVar[str] = "closed"
    outcome: str
    """released, scrapped, returned unrepaired, opened by mistake, wrong serial."""
    reason: str = ""
    second: str = ""
    serial: str
    variant: str
    steps_done: int
    readings: int
    deviations: int
    voided: int
    wrenches: tuple[str, ...] = ()
    gauges: tuple[str, ...] = ()
    lots: tuple[str, ...] = ()
    people: tuple[str, ...] = ()
    keys: tuple[str, ...] = ()
    """Who of those that closed it has a registered key to sign this event with; none: no signature is due."""


@dataclass(frozen=True, kw_only=True)
class Judged(Event):
    """A reviewer's word after the end, with the summary again: the last event tells where the pump stands.

    It takes the place of an earlier reviewer's word, which stays in the record.
    """

    kind: ClassVar[str] = "judged"
    outcome: str
    """accepted, accepted under concession, returned, rejected."""
    name: str
    reason: str
    limit: str = ""
    """Of a concession: for what it holds."""
    expires: str = ""
    """Of a concession: its last day."""
    torn_bytes: int = 0
    torn_file: str = ""
    """What was torn off the record's end before this was written."""
    serial: str = ""
    variant: str = ""
    steps_done: int = 0
    readings: int = 0
    deviations: int = 0
    voided: int = 0
    wrenches: tuple[str, ...] = ()
    gauges: tuple[str, ...] = ()
    lots: tuple[str, ...] = ()
    people: tuple[str, ...] = ()
    keys: tuple[str, ...] = ()
    """The reviewer, if a registered key is there to sign this event with."""
