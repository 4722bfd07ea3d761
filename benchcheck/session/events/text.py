"""The procedure's text under the work: stopped by a notice, changed in the workspace, taken or left."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import Event


@dataclass(frozen=True, kw_only=True)
class WorkHalted(Event):
    """No work goes on: the revision in use was withdrawn, or the shop's register has a stop notice on it."""

    kind: ClassVar[str] = "work halted"
    why: str


@dataclass(frozen=True, kw_only=True)
class HaltLifted(Event):
    """What had stopped the work stops it no longer."""

    kind: ClassVar[str] = "halt lifted"
    why: str
    """What it had been."""


@dataclass(frozen=True, kw_only=True)
class ProcedureDiffers(Event):
    """The workspace holds another text of the procedure than the work follows; that alone changes nothing."""

    kind: ClassVar[str] = "procedure differs"
    revision: str
    procedure_sha256: str
    """Of the other text; a copy of it is kept too."""
    differences: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class StayedOn(Event):
    """The technician stays on the text that the work follows."""

    kind: ClassVar[str] = "stayed on"
    revision: str
    """The revision that is followed still."""
    procedure_sha256: str
    """Of the text that was not taken."""


@dataclass(frozen=True, kw_only=True)
class MovedOn(Event):
    """From here the work follows another text of its procedure."""

    kind: ClassVar[str] = "moved on"
    revision: str
    procedure_sha256: str
    kept: int
    """How many confirmations still count."""
    void: tuple[str, ...] = ()
    """The acts whose confirmations no longer count, or that stand unconfirmed by the new text."""
    silenced: tuple[str, ...] = ()
    """Findings of the check that the new text lets stand, each with its reason."""
