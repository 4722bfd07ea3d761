"""Groups of fasteners: where they sit, their torque and angle, what holds and locks them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from benchcheck.mechanics.units import QuantityError, parse, room
from benchcheck.procedure.model.values import (
    Angle,
    AnyQuantity,
    Duration,
    Identifier,
    Length,
    Pressure,
    Share,
    Text,
    Torque,
)
from benchcheck.procedure.model.words import SingleUse
from benchcheck.procedure.table import Table


class Layout(Table):
    """`layout` of a group: where its positions sit, seen from a stated side."""

    circle: Annotated[int, Field(ge=1, le=200)] | None = Field(default=None, description="count on a circle")
    rectangle: tuple[Annotated[int, Field(ge=1)], Annotated[int, Field(ge=1)]] | None = Field(
        default=None, description="rows and columns"
    )
    points: tuple[tuple[float, float], ...] | None = Field(default=None, description="x right, y up")
    seen_from: Text | None = Field(
        default=None, description="end of `into` one looks at; numbers run clockwise"
    )
    datum: Text | None = Field(default=None, description="what is at the top; position 1 is counted from it")
    at_datum: bool = Field(default=False, description="position 1 stands at the datum, not after it")

    @model_validator(mode="after")
    def _one_kind(self) -> Layout:
        if sum(each is not None for each in (self.circle, self.rectangle, self.points)) != 1:
            raise QuantityError("a layout is exactly one of circle, rectangle or points")
        return self

    @property
    def count(self) -> int:
        if self.circle is not None:
            return self.circle
        if self.rectangle is not None:
            rows, columns = self.rectangle
            return rows * columns
        return len(self.points or ())


class TargetTorque(Table):
    """`torque` of a group."""

    target: Torque = Field(description="what the procedure wants")
    tolerance: AnyQuantity = Field(description='a share ("10 %") or a torque ("2 lbf·ft"), to both sides')

    @model_validator(mode="after")
    def _tolerance_fits(self) -> TargetTorque:
        if self.tolerance.kind not in ("share", "torque"):
            raise QuantityError(f'a tolerance is a share or a torque, as in "10 %"; found "{self.tolerance}"')
        if not self.target.value:
            raise QuantityError(f'a target torque of "{self.target}" tightens nothing; write more than 0')
        room(self.target, self.tolerance)
        return self


class Friction(Table):
    """`friction` of a group: what stands between torque and preload."""

    condition: Text = Field(description="oiled, dry, anti-seize film ...")
    nut_factor: Annotated[float, Field(gt=0, lt=1)] | None = Field(default=None, description="K of T = K·d·F")


class TurnOn(Table):
    """`angle` of a group: turned on after its snug torque."""

    add: Angle = Field(description="how far")
    tolerance: Angle = Field(description="to both sides")
    stiffness_ratio: Annotated[float, Field(gt=0, le=100)] | None = Field(
        default=None, description="how many times as stiff as a screw the parts under it are"
    )
    once: bool = Field(default=True, description="a screw turned twice is scrap")


class Prevailing(Table):
    """`prevailing` of a group: the running torque of a locking nut, measured before it seats."""

    min: Torque = Field(description="least running torque")
    max: Torque = Field(description="most running torque")
    add: Literal["always", "from one third of the target", "never"] = Field(description="when it is added")


class Crowfoot(Table):
    """`crowfoot` of a group: positions reached with an extension on the wrench."""

    at: tuple[int, ...] = Field(description="positions")
    extension: Length = Field(description="drive to fastener")
    angle: Angle = Field(
        default_factory=lambda: parse("0 °", "angle"), description="0 in line, 180 pointing back"
    )


class ThreadLocker(Table):
    """`threadlocker` of a group; makes the clock "<id> cure"."""

    strength: Literal["low", "medium", "high"] = Field(description="strength class")
    amount: Text = Field(description="how much")
    where: Text = Field(description="on which threads")
    handling: Duration = Field(description="after that it may not be moved")
    cure: Duration = Field(description="until full strength")
    temperature: AnyQuantity | None = Field(default=None, description="temperature the cure time is for")
    bars: tuple[Text, ...] | Text = Field(default="test", description="phases or steps barred until cured")


class Again(Table):
    """`again` of a group: a second pass later; makes the clock "<id> again"."""

    after: Duration = Field(description="not before")
    before: Text = Field(description="phase or step that needs it")


class Tapped(Table):
    """`tapped` of a group: the holes its screws go into."""

    depth: Length = Field(description="depth of full thread")
    tensile_strength: Pressure | None = Field(default=None, description="of the metal round the hole")


class Screws(Table):
    """`screws` of a group: the loose fasteners and where each kind goes."""

    item: Text = Field(description="thread and length")
    at: tuple[int, ...] = Field(default=(), description="positions; none: all")
    grip: Length | None = Field(default=None, description="what it clamps, from under its head to the thread")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants; none: all")
    single_use: SingleUse | None = Field(
        strict=False, default=None, description="when it may not be used again"
    )


class Fasteners(Table):
    """`[[fasteners]]`: like fasteners tightened together."""

    id: Identifier = Field(description="its one name in this file")
    name: Text | None = Field(default=None, description="what a person calls the group")
    into: Identifier = Field(description="the part it goes into")
    from_: Text = Field(alias="from", description="end of that part it is reached from")
    hole: Text | None = Field(default=None, description="its own hole there")
    holds: tuple[Identifier, ...] = Field(default=(), description="parts it keeps in")
    parts: tuple[Identifier, ...] = Field(default=(), description="parts that are the fastener")
    screws: tuple[Screws, ...] = Field(default=(), description="loose fasteners")
    tapped: Tapped | None = Field(default=None, description="the holes they go into")
    each: bool = Field(default=False, description="each position its own joint")
    layout: Layout | None = Field(default=None, description="where they sit; none: one position")
    order: tuple[int, ...] = Field(
        default=(), description="positions in tightening order; by layout if left out"
    )
    rounds: tuple[Share, ...] = Field(default=(), description='shares of the target; ["100 %"] if left out')
    without_wrench: tuple[Annotated[int, Field(ge=1)], ...] = Field(
        default=(), description="rounds done by hand until the screws touch, below what a wrench reaches"
    )
    pass_: bool | None = Field(default=None, alias="pass", description="after the last round: did any move")
    torque: TargetTorque | None = Field(default=None, description="target and tolerance")
    thread: Text | None = Field(default=None, description="designation")
    strength: Text | None = Field(default=None, description="property class or grade")
    friction: Friction | None = Field(default=None, description="condition and nut factor")
    low_because: Text | None = Field(default=None, description="why its preload is low or not judged")
    hand: Literal["right", "left"] = Field(default="right", description="left: tightens counter-clockwise")
    angle: TurnOn | None = Field(default=None, description="turned on after the torque")
    prevailing: Prevailing | None = Field(default=None, description="running torque of a locking nut")
    crowfoot: Crowfoot | None = Field(default=None, description="positions reached with an extension")
    threadlocker: ThreadLocker | None = Field(default=None, description="strength class, amount, cure")
    lubricate: Text | None = Field(default=None, description="oil or paste on the threads")
    again: Again | None = Field(default=None, description="second pass")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants that have it; none: all")

    @property
    def called(self) -> str:
        return self.name or self.id

    @property
    def count(self) -> int:
        return self.layout.count if self.layout else max(1, len(self.parts))

    @property
    def rounds_with_wrench(self) -> tuple[int, ...]:
        """The rounds (from 1) that a torque wrench is used for."""
        rounds = range(1, max(1, len(self.rounds)) + 1)
        return tuple(each for each in rounds if each not in self.without_wrench)

    @property
    def has_pass(self) -> bool:
        return self.pass_ if self.pass_ is not None else self.count > 1 and not self.each

    @property
    def goes_on(self) -> bool:
        """Whether something follows its last round: the check pass, or the angle in its place."""
        return self.has_pass or self.angle is not None
