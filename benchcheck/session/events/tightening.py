"""Fasteners and wrenches: run in, tightened, turned on, checked, loosened, and what goes wrong meanwhile."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.session.events.event import ActEvent, Event


@dataclass(frozen=True, kw_only=True)
class GroupLoosened(ActEvent):
    """All fasteners of a group are loose."""

    kind: ClassVar[str] = "group loosened"
    group: str


@dataclass(frozen=True, kw_only=True)
class GroupStarted(ActEvent):
    """The fasteners of a group are run in by hand."""

    kind: ClassVar[str] = "group started"
    group: str


@dataclass(frozen=True, kw_only=True)
class WrenchTaken(ActEvent):
    """A wrench was chosen for a group, with the unit it is used in."""

    kind: ClassVar[str] = "wrench taken"
    group: str
    round: int
    """0: for all rounds."""
    wrench: str
    unit: str


@dataclass(frozen=True, kw_only=True)
class PositionTightened(ActEvent):
    """One position in one round: set and clicked, or shown by the wrench."""

    kind: ClassVar[str] = "position tightened"
    group: str
    round: int
    position: int
    wrench: str
    how: str
    """`set` (clicked once) or `showed`."""
    value: float
    unit: str
    newton_metre: float
    marked: str = ""
    """Why QA should look: outside the guarded part of the tolerance, or outside the tolerance."""


@dataclass(frozen=True, kw_only=True)
class PositionTurned(ActEvent):
    """One position turned on by an angle."""

    kind: ClassVar[str] = "position turned"
    group: str
    position: int
    degree: float
    marked: str = ""


@dataclass(frozen=True, kw_only=True)
class PositionChecked(ActEvent):
    """One position in the check pass."""

    kind: ClassVar[str] = "position checked"
    group: str
    position: int
    moved: bool
    wrench: str = ""
    value: float = 0.0
    """What the wrench showed; without a unit it shows nothing."""
    unit: str = ""
    newton_metre: float = 0.0
    marked: str = ""
    """As for a position that is tightened."""


@dataclass(frozen=True, kw_only=True)
class PositionDisposed(Event):
    """A position that will not reach its torque was disposed of by name."""

    kind: ClassVar[str] = "position disposed"
    group: str
    position: int
    disposition: str
    name: str
    reason: str
    limit: str = ""
    """Of a concession: for what it holds."""
    expires: str = ""
    """Of a concession: its last day."""


@dataclass(frozen=True, kw_only=True)
class PositionRepaired(Event):
    """A stripped thread got an insert: an entitled person gives the limits that hold there from now on."""

    kind: ClassVar[str] = "position repaired"
    group: str
    position: int
    target: str
    tolerance: str
    name: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class TighteningTrouble(Event):
    """A position that went wrong under the wrench, in the words of what was felt."""

    kind: ClassVar[str] = "tightening trouble"
    group: str
    position: int
    what: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class WrenchChanged(Event):
    """The wrench in use is laid down: another is chosen for what is left of the group."""

    kind: ClassVar[str] = "wrench changed"
    group: str
    wrench: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class InstrumentDoubted(Event):
    """An instrument was dropped or damaged: it rests, and what it showed on this pump is in doubt.

    A round, a check pass or a set of readings that was under way with it begins again.
    """

    kind: ClassVar[str] = "instrument doubted"
    instrument: str
    readings: tuple[str, ...]
    """What it did here and stands: "group round/position", with "pass" for the check pass; of a gauge
    "step/act place"."""
    reason: str
