"""Everything that can happen to a pump on the bench, one class a kind.

Events are flat: scalars and tuples of scalars, so that each is one sealed `[[event]]` table. They say
what was done and seen, in the words of the act it belongs to; what follows from them is worked out by the
fold. A new kind is a class here, a case in `fold.py`, and a row in the manual of records.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, TypeVar

Flat = str | int | float | bool | tuple[str, ...] | tuple[int, ...]
KINDS: dict[str, type[Event]] = {}


class UnknownEvent(ValueError):
    """A record holds an event this program does not know, or one with the wrong fields."""


@dataclass(frozen=True, kw_only=True)
class Event:
    """What every event holds. Number, time and person are put on as it is written."""

    kind: ClassVar[str] = ""
    number: int = 0
    at: str = ""
    """RFC 3339 with offset."""
    by: str = ""
    """The person signed on."""

    def __init_subclass__(cls, **keywords: object) -> None:
        super().__init_subclass__(**keywords)
        if cls.kind:
            assert cls.kind not in KINDS, cls.kind
            KINDS[cls.kind] = cls

    def as_table(self) -> dict[str, Any]:
        """The event as it goes into the record."""
        table: dict[str, Any] = {"number": self.number, "kind": self.kind, "at": self.at, "by": self.by}
        for field in dataclasses.fields(self):
            if field.name not in table:
                value = getattr(self, field.name)
                table[field.name] = list(value) if isinstance(value, tuple) else value
        return table


E = TypeVar("E", bound=Event)


def from_table(table: Mapping[str, Any]) -> Event:
    """An event out of a record. Raises UnknownEvent."""
    kind = KINDS.get(str(table.get("kind")))
    if kind is None:
        raise UnknownEvent(
            f"event {table.get('number')} is of the kind {table.get('kind')!r}, which is not known here"
        )
    values: dict[str, Any] = {
        key: tuple(value) if isinstance(value, list) else value
        for key, value in table.items()
        if key != "kind"
    }
    known = {field.name for field in dataclasses.fields(kind)}
    if unknown := set(values) - known:
        raise UnknownEvent(
            f"event {table.get('number')} has the key {min(unknown)!r}, which is not known here"
        )
    try:
        return kind(**values)
    except TypeError:
        raise UnknownEvent(f"event {table.get('number')} ({kind.kind}) lacks one of its keys") from None


@dataclass(frozen=True, kw_only=True)
class ActEvent(Event):
    """An event that belongs to an act; `done` says that it completes the act."""

    act: str
    done: bool = False


# ---------------------------------------------------------------------- coming and going


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


# ---------------------------------------------------------------------- acts


@dataclass(frozen=True, kw_only=True)
class Answered(ActEvent):
    """One question of the act in hand was answered."""

    kind: ClassVar[str] = "answered"
    question: str
    value: str


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


# ---------------------------------------------------------------------- departures


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

    A round or check pass that was under way with it begins again.
    """

    kind: ClassVar[str] = "instrument doubted"
    instrument: str
    readings: tuple[str, ...]
    """What it did here and stands, as "group round/position", with "pass" for the check pass."""
    reason: str


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


# ---------------------------------------------------------------------- the end


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
    lots: tuple[str, ...] = ()
    people: tuple[str, ...] = ()
    keys: tuple[str, ...] = ()
    """The reviewer, if a registered key is there to sign this event with."""


def stamped(events: tuple[Event, ...], *, after: int, at: str, by: str) -> tuple[Event, ...]:
    """The events with number, time and person put on."""
    return tuple(
        dataclasses.replace(event, number=after + place, at=at, by=event.by or by)
        for place, event in enumerate(events, 1)
    )
