"""The registers of a workspace: the shop, its instruments, its people.

Frozen tables as in `model`; each file is told by its first table. What an instrument can do is worked
out in `mechanics.wrench` and `mechanics.gauge`; what a person may do when is asked of `Person.may`.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Annotated, Literal
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import AfterValidator, Field, model_validator

from benchcheck.mechanics.gauge import Gauge
from benchcheck.mechanics.units import QuantityError, parse
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.line_format import LineFormat
from benchcheck.procedure.model import AnyQuantity, Duration, Identifier, Length, Share, Text, Torque
from benchcheck.procedure.people_names import alike, same_name
from benchcheck.procedure.table import Table

Right = Literal["work", "witness", "dispose", "release", "review"]


def _known_zone(name: str) -> str:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise QuantityError(
            f'"{name}" is no time zone known here; write one such as "Europe/Berlin" or "UTC"'
        ) from None
    return name


class Shop(Table):
    """`[shop]`: the place of work."""

    name: Text = Field(description="name of the shop")
    bench: Text = Field(description="which bench this program stands at")
    time_zone: Annotated[str, AfterValidator(_known_zone)] = Field(description="zone of the times on screens")
    idle: Duration = Field(
        default_factory=lambda: parse("20 min", "time"), description="then names are asked again"
    )
    print_command: Text | None = Field(
        default=None, description="command that is given the printed file's path"
    )


class StopNotice(Table):
    """`[[stop]]`: no work by a procedure, or by one revision of it, until the notice is taken out."""

    procedure: Identifier = Field(description="id of the procedure")
    revision: Identifier | None = Field(default=None, description="the revision; none: every one")
    because: Text = Field(description="why, and whom to ask")
    since: date | None = Field(default=None, description="first day of it; none: at once")

    def holds(self, procedure: str, revision: str, on: date) -> bool:
        return (
            self.procedure == procedure
            and self.revision in (None, revision)
            and (self.since is None or self.since <= on)
        )


class ShopRegister(Table):
    format: Literal[1] = Field(description="version of this format")
    shop: Shop
    stop: tuple[StopNotice, ...] = ()


SPEEDS = (1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)
"""Bits a second that serial lines are run at."""


class LineEntry(Table):
    """`line` of a wrench: it writes its readings on a serial line (eight bits, no parity, one stop bit)."""

    device: Text = Field(description="path of the device")
    speed: int = Field(default=9600, description="bits a second")
    pattern: Text = Field(description="a line, with {value}, {unit}, and {} for what does not matter")
    unit: Text | None = Field(default=None, description="unit of its readings, where the line names none")
    units: dict[str, Text] = Field(default={}, description="words of the line, each with the unit it means")

    @model_validator(mode="after")
    def _is_a_line(self) -> LineEntry:
        if self.speed not in SPEEDS:
            raise QuantityError(f"{self.speed} is no speed; write one of {', '.join(map(str, SPEEDS))}")
        self.format()
        return self

    def format(self) -> LineFormat:
        """How a reading stands on the line. Raises QuantityError where that cannot be."""
        return LineFormat(self.pattern, self.unit or "", self.units)


class WrenchEntry(Table):
    """`[[wrench]]`: a torque wrench."""

    id: Identifier = Field(description="what is engraved on it")
    kind: Literal["setting", "dial", "electronic"] = Field(
        description="a setting one clicks, the others indicate"
    )
    range: tuple[Torque, Torque] = Field(description="least and most it may be used for")
    graduation: Torque = Field(description="step of its scale")
    accuracy: Share = Field(description="it shows at most this much more or less than there is")
    units: tuple[Text, ...] = Field(default=(), description="units it can show; the range's if left out")
    directions: tuple[Literal["right", "left"], ...] = Field(
        default=("right",), description="calibrated turning"
    )
    length: Length | None = Field(default=None, description="drive to the middle of the grip")
    calibration_due: date = Field(description="last day of its calibration")
    line: LineEntry | None = Field(default=None, description="serial line on which it writes its readings")


class GaugeEntry(Table):
    """`[[gauge]]`: any other measuring instrument."""

    id: Identifier = Field(description="what is engraved on it")
    kind: Text = Field(description="pressure gauge, micrometer, feelers ...")
    range: tuple[AnyQuantity, AnyQuantity] | None = Field(default=None, description="least and most")
    graduation: AnyQuantity | None = Field(default=None, description="step of its scale")
    accuracy: AnyQuantity | None = Field(default=None, description="a share of full scale, or a value")
    calibration_due: date | None = Field(
        default=None, description="last day of its calibration; none: not calibrated"
    )

    @model_validator(mode="after")
    def _is_a_gauge(self) -> GaugeEntry:
        self.gauge()
        return self

    def gauge(self) -> Gauge:
        """What it can tell. Raises QuantityError where its numbers make no sense."""
        low, high = self.range or (None, None)
        return Gauge(self.id, self.kind, low, high, self.graduation, self.accuracy, self.calibration_due)


class InstrumentRegister(Table):
    format: Literal[1] = Field(description="version of this format")
    wrench: tuple[WrenchEntry, ...] = ()
    gauge: tuple[GaugeEntry, ...] = ()

    def lines(self) -> dict[str, LineEntry]:
        """The serial lines, by the wrench that writes on each."""
        return {entry.id: entry.line for entry in self.wrench if entry.line is not None}

    def gauges(self) -> tuple[Gauge, ...]:
        return tuple(entry.gauge() for entry in self.gauge)

    def wrenches(self) -> tuple[Wrench, ...]:
        return tuple(
            Wrench(
                id=entry.id,
                kind=entry.kind,
                low=entry.range[0],
                high=entry.range[1],
                graduation=entry.graduation,
                accuracy=entry.accuracy.value / Decimal(100),
                units=entry.units or (entry.graduation.unit,),
                directions=entry.directions,
                length_millimetre=entry.length.to("mm") if entry.length else None,
                calibration_due=entry.calibration_due,
            )
            for entry in self.wrench
        )


class Person(Table):
    """`[[person]]`: who may do what, until when."""

    name: Text = Field(description="as it goes into records")
    may: tuple[Right, ...] = Field(description="work, witness, dispose, release, review")
    until: date | None = Field(default=None, description="last day of that; none: no end")
    public_key: Text | None = Field(default=None, description="SSH public key signatures are checked with")
    other_than: tuple[Text, ...] = Field(default=(), description="names like this one that are other people")

    def entitled(self, right: Right, on: date) -> bool:
        return right in self.may and (self.until is None or on <= self.until)


class PeopleRegister(Table):
    format: Literal[1] = Field(description="version of this format")
    person: tuple[Person, ...] = ()

    def find(self, name: str) -> Person | None:
        return next((person for person in self.person if same_name(person.name, name)), None)

    def perhaps_one(self, one: str, other: str) -> bool:
        """Whether two names may be one person's, and the register does not say that they are two."""
        told = ((each.name, name) for each in self.person for name in each.other_than)
        two = any(
            (same_name(one, this) and same_name(other, that))
            or (same_name(one, that) and same_name(other, this))
            for this, that in told
        )
        return not two and alike(one, other)

    def like(self, name: str) -> str:
        """The entry that was perhaps meant by a name that is in no entry; empty if there is none."""
        return next((person.name for person in self.person if alike(person.name, name)), "")
