"""Parts and where they sit, grooves with their glands, and what the drawing says of the finished pump."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.model.values import ByVariant, Identifier, Length, Pressure, Text
from benchcheck.procedure.model.words import Fit, SingleUse
from benchcheck.procedure.table import Table


class Part(Table):
    """`[[part]]`: anything that is handled, and where it sits."""

    id: Identifier = Field(description="its one name in this file")
    name: Text | None = Field(default=None, description="what a person calls it; the id if left out")
    item: Text | None = Field(
        default=None, description="what it is in the stores; like items can be exchanged"
    )
    ends: tuple[Text, Text] | None = Field(default=None, description="its two ends along the axis")
    seen: dict[str, Text] = Field(default={}, description="for each end, what one sees when it faces you")
    shape: Text | None = Field(default=None, description="how to draw it; its first end is the telling one")
    marks: dict[str, int] = Field(
        default={}, description="places round it, degrees clockwise from its first end"
    )
    into: Identifier | None = Field(default=None, description="the part it goes in or on; only main has none")
    from_: Text | tuple[Text, Text] | None = Field(
        default=None, alias="from", description='end of that part it goes in from, "side", or two ends'
    )
    hole: Text | None = Field(default=None, description="its own hole there: it covers only what shares it")
    shows: ByVariant | None = Field(default=None, description="the end the fitter sees as it goes in")
    lines_up: dict[str, ByVariant] = Field(default={}, description='its mark over another: "body: P cast"')
    ways: Annotated[int, Field(ge=1, le=360)] = Field(default=1, description="turned ways that go together")
    fit: Fit = Field(strict=False, default=Fit.SLIDE, description="slide, press or heat")
    through: bool = Field(default=False, description="its leading end comes out and is built on there")
    under: Identifier | None = Field(
        default=None, description="temporary tool it goes in and comes out under"
    )
    holds: tuple[Identifier, ...] = Field(default=(), description="parts that cannot come out while it is in")
    never_loose: bool = Field(default=False, description="must be held by something from its fitting on")
    set: Text | None = Field(default=None, description="matched set: one dies, all die")
    single_use: SingleUse | None = Field(
        strict=False, default=None, description="when it may not be used again"
    )
    temporary: bool = Field(default=False, description="a tool that is inside for a time and must come out")
    count: Annotated[int, Field(ge=1, le=999)] = Field(default=1, description="number handled as one")
    lubricate: Text | None = Field(default=None, description="grease, oil, paste, or keep dry; where")
    bears: Pressure | None = Field(default=None, description="the most pressure it may be tested with")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants that have it; none: all")

    @property
    def called(self) -> str:
        return self.name or self.id

    @property
    def ends_it_goes_in_from(self) -> tuple[str, ...]:
        if self.from_ is None:
            return ()
        return (self.from_,) if isinstance(self.from_, str) else self.from_


class Gland(Table):
    """`gland` of a groove: the one measure the ring seals on, with the depth that leaves the squeeze."""

    bore: Length | None = Field(default=None, description="bore round a ring in an outer groove")
    shaft: Length | None = Field(default=None, description="shaft through a ring in an inner groove")
    outside: Length | None = Field(default=None, description="outside diameter of a groove in a face")
    centre_line: Length | None = Field(
        default=None, description="length of the centre line of a groove of any outline in a face"
    )
    boss: Text | None = Field(default=None, description="thread of a boss whose ring sits in its chamfer")
    depth: Length | None = Field(default=None, description="depth left for the ring's section")
    width: Length | None = Field(default=None, description="width of the groove")

    @property
    def seals_on(self) -> tuple[Quantity | str, ...]:
        """The measures it gives that a ring seals on; a whole gland gives one."""
        told = (self.bore, self.shaft, self.outside, self.centre_line, self.boss)
        return tuple(each for each in told if each is not None)


class Groove(Table):
    """`[[groove]]`: a place that must hold exactly one named ring before the act that closes it."""

    id: Identifier = Field(description="its one name in this file")
    in_: Identifier = Field(alias="in", description="part that carries the ring as it closes")
    where: Text = Field(description="where on that part")
    against: Identifier | tuple[Identifier, ...] = Field(description="part or parts that close it")
    closed_by: Identifier | None = Field(
        default=None, description="group, where only tightening makes contact"
    )
    face: Text | None = Field(default=None, description="end on which it lies open, so the ring can fall out")
    touches: tuple[Text, ...] = Field(
        default=(), description="sides of `fluids` that come to the ring; none: the only one there is"
    )
    takes: ByVariant = Field(description="size of the ring")
    material: Text = Field(description="rubber of the ring")
    gland: Gland | None = Field(default=None, description="geometry that proves the size")
    single_use: SingleUse = Field(
        strict=False, default=SingleUse.DISTURBED, description="when the ring may not be used again"
    )
    lubricate: Text | None = Field(default=None, description="what it is fitted with")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants that have it; none: all")

    @property
    def closed_against(self) -> tuple[str, ...]:
        return (self.against,) if isinstance(self.against, str) else self.against


class MustFace(Table):
    """`must_face`: which way an end points in the finished pump, from the drawing."""

    part: Identifier = Field(description="the part")
    end: Text = Field(description="one of its ends")
    toward: ByVariant = Field(description="end of `of` it must point to")
    of: Identifier | None = Field(default=None, description="the part looked at; main if left out")
    because: Text = Field(description="shown with every refusal")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants it holds for; none: all")


class MustLineUp(Table):
    """`must_line_up`: which mark stands over which in the finished pump, from the drawing."""

    part: Identifier = Field(description="the part")
    mark: Text = Field(description="one of its marks")
    toward: ByVariant = Field(description="mark of `of` it must stand over")
    of: Identifier | None = Field(default=None, description="the part looked at; main if left out")
    because: Text = Field(description="shown with every refusal")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants it holds for; none: all")


class Stack(Table):
    """`[[stack]]`: parts as one meets them from an open end, outermost first, across bodies."""

    on: Identifier = Field(description="the part whose end it is seen from")
    from_: Text = Field(alias="from", description="that end")
    order: tuple[Identifier, ...] = Field(description="parts, outermost first")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants it holds for; none: all")
