"""Parts and rings: put in, taken out, found, replaced, and the work turned over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import ActEvent


@dataclass(frozen=True, kw_only=True)
class WorkTurned(ActEvent):
    """A work on the bench lies with this end up (or toward the technician)."""

    kind: ClassVar[str] = "work turned"
    work: str
    up: str


@dataclass(frozen=True, kw_only=True)
class RingFitted(ActEvent):
    """A ring lies in its groove, by the size and rubber on its bag."""

    kind: ClassVar[str] = "ring fitted"
    groove: str
    size: str
    material: str
    lot: str = ""
    cured: str = ""
    """Of a ring from stock: when it was cured, as its bag says."""


@dataclass(frozen=True, kw_only=True)
class RingLifted(ActEvent):
    """The ring is out of its groove."""

    kind: ClassVar[str] = "ring lifted"
    groove: str


@dataclass(frozen=True, kw_only=True)
class GrooveFound(ActEvent):
    """A groove was found otherwise than the record had it; what it holds is taken as nothing."""

    kind: ClassVar[str] = "groove found"
    groove: str
    found: str


@dataclass(frozen=True, kw_only=True)
class PartInstalled(ActEvent):
    """A part is home, as it was seen to go in."""

    kind: ClassVar[str] = "part installed"
    part: str
    instance: int
    end: str
    """End of the body it went in from."""
    seen: str = ""
    """The end of the part that was seen."""
    turn: int
    angle: int = -1
    """Degrees; -1: no marks."""
    lot: str = ""
    witness: str = ""


@dataclass(frozen=True, kw_only=True)
class PartRemoved(ActEvent):
    """A part is out."""

    kind: ClassVar[str] = "part removed"
    part: str
    seen: str = ""
    """The end that was seen as it came out."""


@dataclass(frozen=True, kw_only=True)
class PartReplaced(ActEvent):
    """A part (its whole set) is rejected; a new one takes its place."""

    kind: ClassVar[str] = "part replaced"
    part: str
    reason: str
