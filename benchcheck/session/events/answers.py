"""What was asked and answered: readings, facts, counts, waits, and the word of a second person."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import ActEvent, Event


@dataclass(frozen=True, kw_only=True)
class Answered(ActEvent):
    """One question of the act in hand was answered."""

    kind: ClassVar[str] = "answered"
    question: str
    value: str


@dataclass(frozen=True, kw_only=True)
class GaugeTaken(ActEvent):
    """A gauge was chosen for readings of its kind, until another is."""

    kind: ClassVar[str] = "gauge taken"
    of_kind: str
    gauge: str


@dataclass(frozen=True, kw_only=True)
class GaugeChanged(Event):
    """The gauge in hand is laid down: another is chosen for what is still to be read."""

    kind: ClassVar[str] = "gauge changed"
    of_kind: str
    gauge: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class Measured(ActEvent):
    """A number was read."""

    kind: ClassVar[str] = "measured"
    what: str
    place: int = 1
    value: float
    unit: str
    si: float
    verdict: str
    """`inside`, `outside`, or the variant it proves."""
    instrument: str = ""
    """What it was read on; empty where the procedure does not ask which."""
    marked: str = ""
    """Why QA should look: inside the limits by less than the instrument may be off."""


@dataclass(frozen=True, kw_only=True)
class Told(ActEvent):
    """A fact in words, or one of a few."""

    kind: ClassVar[str] = "told"
    what: str
    value: str
    verdict: str = "inside"


@dataclass(frozen=True, kw_only=True)
class Counted(ActEvent):
    """Kit by size, scrap, mat, tools."""

    kind: ClassVar[str] = "counted"
    what: str
    count: int
    expected: int


@dataclass(frozen=True, kw_only=True)
class Done(ActEvent):
    """A thing without a number was done."""

    kind: ClassVar[str] = "done"


@dataclass(frozen=True, kw_only=True)
class Witnessed(ActEvent):
    """A second person looked, at a hold point, and said what was seen."""

    kind: ClassVar[str] = "witnessed"
    name: str
    saw: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class WaitOver(ActEvent):
    """A clock that had to run out has run out."""

    kind: ClassVar[str] = "wait over"
    clock: str
    started: str
    ended: str


@dataclass(frozen=True, kw_only=True)
class Signed(ActEvent):
    """A second person signed."""

    kind: ClassVar[str] = "signed"
    second: str
    """The other person."""
