"""Steps, what they ask, what they wait for, and the kit they work from."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, model_validator

from benchcheck.mechanics.units import QuantityError
from benchcheck.procedure.model.values import AnyQuantity, Duration, Identifier, Text
from benchcheck.procedure.model.words import Phase, StepAct
from benchcheck.procedure.table import Table


class Clock(Table):
    """`[[clock]]`: a time that must pass, or must not."""

    id: Identifier = Field(description="its one name in this file")
    name: Text | None = Field(default=None, description="what is waited for")
    starts: Identifier = Field(description="step whose end starts it")
    least: Duration | None = Field(default=None, description="not before")
    most: Duration | None = Field(default=None, description="not after")
    bars: tuple[Text, ...] | Text = Field(description="phases or steps it bars")
    because: Text | None = Field(default=None, description="shown with every refusal")


class KitLine(Table):
    """One line on the bag of a kit."""

    ring: Text | None = Field(default=None, description="size of a ring")
    material: Text | None = Field(default=None, description="its rubber")
    part: Identifier | None = Field(default=None, description="a part")
    count: Annotated[int, Field(ge=1)] = Field(default=1, description="how many")


class Kit(Table):
    """`[kit]`: what the bag says; compared with what grooves and single-use parts need."""

    holds: tuple[KitLine, ...] = Field(description="lines on the bag")


class Ask(Table):
    """`ask` of a step: one fact that is asked."""

    what: Text = Field(description="the thing asked, as a noun")
    unit: Text | None = Field(default=None, description="unit of the answer, where no limit gives it")
    min: AnyQuantity | None = Field(default=None, description="least that is good")
    max: AnyQuantity | None = Field(default=None, description="most that is good")
    as_new: tuple[AnyQuantity, AnyQuantity] | None = Field(default=None, description="range of a new part")
    places: Annotated[int, Field(ge=1, le=12)] = Field(default=1, description="readings, one at each place")
    equal_within: AnyQuantity | None = Field(default=None, description="the readings may differ by this")
    one_of: tuple[Text, ...] = Field(default=(), description="the answers there are")
    good: tuple[Text, ...] = Field(default=(), description="the answers that go on; none: all")
    sets: Identifier | None = Field(default=None, description='verdict this answer sets, or "variant"')
    proves: dict[str, tuple[AnyQuantity, AnyQuantity]] = Field(
        default={}, description="for each variant, least and most that prove it"
    )
    kind: Literal["serial", "kit", "instruments", "scrap", "mat", "tools", "lot", "words", "count"] | None = (
        Field(default=None, description="a question with a form of its own")
    )
    hold: Duration | None = Field(default=None, description="the value must stand this long")
    runs: bool = Field(default=False, description="the pump runs for this answer")
    presses: tuple[Identifier, ...] = Field(
        default=(), description="parts that this pressure reaches; none: all"
    )
    with_: Text | None = Field(default=None, alias="with", description="measuring tool")
    gauge: Text | None = Field(
        default=None, description="kind of gauge; the record says which one of the register it was read on"
    )
    guarded: bool = Field(
        default=False, description="a reading nearer to a limit than its gauge may be off is marked for QA"
    )
    of: tuple[Identifier, ...] = Field(default=(), description="parts it is about; the step's if left out")
    keep: Identifier | None = Field(default=None, description="name to keep an as-found value under")
    as_: Identifier | None = Field(default=None, alias="as", description="kept value this must equal")
    outside: Text | None = Field(default=None, description="again, back to <part>, replace or stop")
    before: Identifier | None = Field(
        default=None, description="part or group of this step it is asked before"
    )

    @model_validator(mode="after")
    def _guarded_by_a_gauge(self) -> Ask:
        if self.guarded and (self.gauge is None or (self.min is None and self.max is None)):
            raise QuantityError("what is guarded has a limit, and a gauge whose error counts against it")
        return self

    @property
    def read_in(self) -> str:
        """The unit of the answer; empty for a question that has no number."""
        for limit in (self.min, self.max, *(low for low, _ in self.proves.values())):
            if limit is not None:
                return limit.unit
        return self.unit or ""

    @property
    def tool(self) -> str | None:
        """What it is measured with, in words."""
        return self.with_ or self.gauge


class Step(Table):
    """`[[step]]`: what people count; one or more acts under one heading."""

    id: Identifier = Field(description="its one name among the steps")
    phase: Phase = Field(strict=False, default=Phase.REASSEMBLY, description="part of the work")
    act: StepAct = Field(strict=False, default=StepAct.INSTALL, description="what it does to the pump")
    name: Text | None = Field(default=None, description="heading; worked out if left out")
    part: Identifier | None = Field(default=None, description="the one part")
    parts: tuple[Identifier, ...] = Field(default=(), description="parts, in order")
    rings: tuple[Identifier, ...] = Field(default=(), description="grooves whose rings are fitted, in order")
    off: tuple[Identifier, ...] = Field(
        default=(), description="of a remove step: groups, parts and grooves, in the order they come off"
    )
    group: Identifier | None = Field(default=None, description="fastener group")
    round: Annotated[int, Field(ge=1)] | None = Field(default=None, description="one round; none: all")
    clock: Text | None = Field(default=None, description="of a wait step: the clock")
    of: tuple[Identifier, ...] = Field(default=(), description="what a reading or look is about")
    between: bool = Field(default=True, description="false: each by itself, before it is fitted")
    ask: tuple[Ask, ...] = Field(default=(), description="facts asked")
    outside: Text = Field(default="stop", description="out of limits: again, back to <part>, replace or stop")
    after: tuple[Identifier, ...] = Field(default=(), description="steps that must stand before this")
    if_: dict[str, Text] = Field(default={}, alias="if", description="verdicts under which it is done")
    for_: tuple[Text, ...] = Field(default=(), alias="for", description="variants it is for; none: all")
    witness: bool = Field(default=False, description="hold point: a second person confirms")
    cannot_pass: bool = Field(default=False, description="no deviation passes it")
    text: Text | None = Field(default=None, description="extra words where the model does not say it")

    @property
    def all_parts(self) -> tuple[str, ...]:
        return ((self.part,) if self.part else ()) + self.parts
