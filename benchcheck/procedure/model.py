"""What a procedure says, as frozen tables: the format of `procedures/*.toml`, version 1.

One class a table, one docstring a field: the same words become the manual's and the schema's. Only shapes
live here (which keys, which types, which words are known); whether names refer to something is
`references.py`, and whether the pump can be built this way is `checking`. A quantity is a string with its
unit.
"""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field, PlainSerializer, WithJsonSchema, model_validator

from benchcheck.mechanics.units import Quantity, QuantityError, parse, room
from benchcheck.procedure.table import Table

SIDE = "side"  # a place reached across the axis: nothing along the axis stands in its way


def _reads(kind: str | None) -> BeforeValidator:
    """Reads a string with its unit into a `Quantity` of one kind (of any, for `kind` None)."""

    def read(value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        if not isinstance(value, str):
            raise QuantityError(f'{value!r} has no unit; write a string with its unit, as in "16 lbf·ft"')
        return parse(value, kind)

    return BeforeValidator(read)


_AS_TEXT = PlainSerializer(str, return_type=str)


def _described(words: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": words})


Torque = Annotated[Quantity, _reads("torque"), _AS_TEXT, _described("a torque with its unit")]
Length = Annotated[Quantity, _reads("length"), _AS_TEXT, _described("a length with its unit")]
Angle = Annotated[Quantity, _reads("angle"), _AS_TEXT, _described("an angle with its unit")]
Pressure = Annotated[Quantity, _reads("pressure"), _AS_TEXT, _described("a pressure with its unit")]
Duration = Annotated[Quantity, _reads("time"), _AS_TEXT, _described("a time with its unit")]
Share = Annotated[Quantity, _reads("share"), _AS_TEXT, _described("a share in %")]
AnyQuantity = Annotated[Quantity, _reads(None), _AS_TEXT, _described("a number with its unit")]


def _not_blank(text: str) -> str:
    if not text.strip():
        raise QuantityError("an empty text says nothing; write the words or leave the key out")
    return text


Text = Annotated[str, AfterValidator(_not_blank)]
Identifier = Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]*$", max_length=40)]
ByVariant = Text | dict[str, Text]


class Status(StrEnum):
    DRAFT = "draft"
    RELEASED = "released"
    WITHDRAWN = "withdrawn"


class Phase(StrEnum):
    INTAKE = "intake"
    TEARDOWN = "teardown"
    INSPECTION = "inspection"
    REASSEMBLY = "reassembly"
    TEST = "test"
    RELEASE = "release"


class Signal(StrEnum):
    """Signal words, in the order ANSI Z535 ranks them."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


class SingleUse(StrEnum):
    FITTED = "once fitted"
    DISTURBED = "once disturbed"
    RUN = "once run"


class Fit(StrEnum):
    SLIDE = "slide"
    PRESS = "press"
    HEAT = "heat"


class StepAct(StrEnum):
    """What a step does to the model of the pump."""

    INSTALL = "install"
    REMOVE = "remove"
    START = "start"
    TIGHTEN = "tighten"
    MEASURE = "measure"
    CHECK = "check"
    DO = "do"
    WAIT = "wait"
    TEST = "test"
    SIGN = "sign"


class Head(Table):
    """`[procedure]`: which document this is and what it is for."""

    id: Identifier = Field(description="short name of the procedure, the same in every revision")
    title: Text = Field(description="one line a person would say")
    revision: Identifier = Field(description="the issue of the document")
    status: Status = Field(strict=False, description="draft (practice only), released or withdrawn")
    issued: date | None = Field(default=None, description="date of release")
    author: Text = Field(description="who wrote it")
    approver: Text | None = Field(default=None, description="who released it; another person than the author")
    changes: tuple[Text, ...] = Field(default=(), description="what changed since the last revision")
    models: tuple[Text, ...] = Field(description="the pump models it is for, as their plates say")
    scope: Text | None = Field(default=None, description="what it covers, and what it does not")
    variants: tuple[Text, ...] = Field(default=(), description="values that `for` may take")
    main: Identifier = Field(description="the part everything is finally in or on")
    fluids: dict[str, Text] = Field(default={}, description="what touches rings in service, by its side")
    lies: bool = Field(default=False, description="the work stays with its axis level")
    long_pause: Duration = Field(
        default_factory=lambda: parse("15 min", "time"), description="from when a pause asks things again"
    )
    unconfirmed: tuple[Text, ...] = Field(
        default=(), description='numbers not yet confirmed for this pump, as "F1: torque"; they bar release'
    )

    @property
    def practice_only(self) -> str | None:
        """What the document is that keeps it from work on a real pump; None if nothing does."""
        if self.status is not Status.RELEASED:
            return self.status.value
        return "released with numbers not yet confirmed" if self.unconfirmed else None


class Caution(Table):
    """`[[caution]]`: what can hurt, shown before the steps it names."""

    signal: Signal = Field(strict=False, description="DANGER, WARNING, CAUTION or NOTICE")
    text: Text = Field(description="what can happen and what to do about it")
    before: tuple[Identifier, ...] = Field(default=(), description="steps that show it; none: at the start")


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
    one_loosened: Literal["restart", "last round"] = Field(
        default="restart", description="when one is loosened"
    )
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
    of: tuple[Identifier, ...] = Field(default=(), description="parts it is about; the step's if left out")
    keep: Identifier | None = Field(default=None, description="name to keep an as-found value under")
    as_: Identifier | None = Field(default=None, alias="as", description="kept value this must equal")
    outside: Text | None = Field(default=None, description="again, back to <part>, replace or stop")
    before: Identifier | None = Field(
        default=None, description="part or group of this step it is asked before"
    )


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


class Silence(Table):
    """`[[silence]]`: a finding that stands for a reason."""

    rule: Text = Field(description="name of the rule")
    at: Identifier | None = Field(default=None, description="id the finding is about; none: all of this rule")
    reason: Text = Field(description="why it may stand; shown by check and kept in the record")

    @property
    def words(self) -> str:
        """The finding and the reason, as a record keeps them."""
        return f"{self.rule}{f' at {self.at}' if self.at else ''}: {self.reason}"


class Procedure(Table):
    """A whole procedure file."""

    format: Literal[1] = Field(description="version of this format")
    procedure: Head
    caution: tuple[Caution, ...] = ()
    part: tuple[Part, ...]
    groove: tuple[Groove, ...] = ()
    must_face: tuple[MustFace, ...] = ()
    must_line_up: tuple[MustLineUp, ...] = ()
    stack: tuple[Stack, ...] = ()
    fasteners: tuple[Fasteners, ...] = ()
    clock: tuple[Clock, ...] = ()
    kit: Kit | None = None
    step: tuple[Step, ...]
    silence: tuple[Silence, ...] = ()
