"""What departs from the procedure or from what was said before: deviations, corrections, ways back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import ActEvent, Event


@dataclass(frozen=True, kw_only=True)
class Deviation(Event):
    """A refusal was taken over, or an act left out, by a person with a reason."""

    kind: ClassVar[str] = "deviation"
    deviation: int
    act: str
    rules: tuple[str, ...]
    wrong: str
    reason: str
    again: tuple[int, ...] = ()
    """Earlier deviations of this session from the same rule, or at the same step."""


@dataclass(frozen=True, kw_only=True)
class LeftOut(ActEvent):
    """The act stands undone under a deviation."""

    kind: ClassVar[str] = "left out"
    deviation: int


@dataclass(frozen=True, kw_only=True)
class Disposed(Event):
    """What an entitled person decided on a deviation."""

    kind: ClassVar[str] = "disposed"
    deviation: int
    disposition: str
    name: str
    reason: str
    limit: str = ""
    """Of a concession: for what it holds."""
    expires: str = ""
    """Of a concession: its last day."""


@dataclass(frozen=True, kw_only=True)
class Corrected(Event):
    """An answer was wrong; it is void and asked again."""

    kind: ClassVar[str] = "corrected"
    event: int
    act: str
    was: str
    """Kind of that event."""
    thing: str = ""
    """The part, groove or group it was about."""
    reason: str


@dataclass(frozen=True, kw_only=True)
class WentBack(Event):
    """Something is to be reached again: what comes off, in order."""

    kind: ClassVar[str] = "went back"
    targets: tuple[str, ...]
    off: tuple[str, ...]
    reason: str


@dataclass(frozen=True, kw_only=True)
class Remark(Event):
    """A word for the record; it changes nothing."""

    kind: ClassVar[str] = "remark"
    text: str
