"""Who is at the bench: the record opened, people coming, leaving, going on, and what they find.

Also what only time does to the work: a long pause, and a clock that shows an earlier hour. What they
do to the pump is in the other groups.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import Event


@dataclass(frozen=True, kw_only=True)
class Opened(Event):
    """The serial was read twice and the record was opened."""

    kind: ClassVar[str] = "opened"
    serial_again: str
    silenced: tuple[str, ...] = ()
    """Findings of the check that the procedure lets stand, each with its reason."""


@dataclass(frozen=True, kw_only=True)
class SignedOn(Event):
    """A person says who works now."""

    kind: ClassVar[str] = "signed on"
    name: str
    typed: str = ""
    """As it was typed, where the register spells it otherwise."""
    may: tuple[str, ...] = ()
    """What the register gives the person a right to, on this day; older records do not say."""
    until: str = ""
    """The last day of these rights; empty if they have no end."""


@dataclass(frozen=True, kw_only=True)
class SignedOff(Event):
    """Nothing was done for so long that the name of who works is asked again."""

    kind: ClassVar[str] = "signed off"
    name: str
    idle_seconds: int


@dataclass(frozen=True, kw_only=True)
class Stopped(Event):
    """The technician leaves the pump as it is."""

    kind: ClassVar[str] = "stopped"
    reason: str


@dataclass(frozen=True, kw_only=True)
class TakenUp(Event):
    """The work was interrupted and goes on: the record was opened again, or a pause was long.

    What was torn off the record's end is named.
    """

    kind: ClassVar[str] = "taken up"
    stopped: bool
    """Whether it was left in an orderly way."""
    pause_seconds: int = 0
    """How long nothing was answered."""
    torn_bytes: int = 0
    torn_file: str = ""


@dataclass(frozen=True, kw_only=True)
class ReadAgain(Event):
    """After a pause, a fact was read anew: serial, pose, groove."""

    kind: ClassVar[str] = "read again"
    what: str
    value: str


@dataclass(frozen=True, kw_only=True)
class ClockWentBack(Event):
    """The clock of this machine shows an earlier time than the last event."""

    kind: ClassVar[str] = "clock went back"
    seconds: int


@dataclass(frozen=True, kw_only=True)
class CardLeft(Event):
    """The handover card of a pump that is left half done: signed by who leaves it, or why it was not."""

    kind: ClassVar[str] = "card left"
    name: str
    """Who leaves."""
    signed: bool
    words: str = ""
    """A word for whoever goes on; of a card that was not signed, why."""


@dataclass(frozen=True, kw_only=True)
class TakenOver(Event):
    """Another technician has read the handover card, signed it, and goes on."""

    kind: ClassVar[str] = "taken over"
    name: str
    left_by: str
