"""What is asked: one prompt at a time, the same for a screen, a line, a rehearsal and a test.

A prompt says what to do, what is asked, which answers there are, and what may be drawn. Answers are text:
the value of a choice, a number as typed, or words. What a prompt looks like is the business of whoever
shows it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum
from typing import TypeAlias

from benchcheck.assembly.refusal import Refusal
from benchcheck.procedure.model import Caution
from benchcheck.session.events import Event


class Form(StrEnum):
    CHOICE = "choice"
    NUMBER = "number"
    WORDS = "words"
    CONFIRM = "confirm"
    WAIT = "wait"


@dataclass(frozen=True, slots=True)
class Choice:
    value: str
    words: str
    """What one sees, or what it means; of one that does not serve, why."""
    serves: bool = True
    """Whether it can be chosen at all."""


@dataclass(frozen=True, slots=True)
class FacingPicture:
    """A part as it may lie now: one picture for each choice of its end toward the viewer."""

    part: str
    ends: tuple[str, ...]
    """The end toward the viewer, for each choice in order."""


@dataclass(frozen=True, slots=True)
class RingPicture:
    """A fastener group with the state of each position."""

    group: str
    count: int
    circle: int
    rows: int
    columns: int
    points: tuple[tuple[float, float], ...]
    seen_from: str
    datum: str
    at_datum: bool
    order: tuple[int, ...]
    done: tuple[int, ...]
    now: int
    next: int
    round: int
    rounds: tuple[str, ...]
    figures: tuple[str, ...]
    """What goes on the wrench in each round."""
    check_pass: bool
    screws: tuple[tuple[int, str], ...] = ()
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class StackPicture:
    """What lies on what, as met from an end, outermost first; the part about to go on stands first."""

    end: str
    order: tuple[str, ...]
    coming: str


@dataclass(frozen=True, slots=True)
class GroovePicture:
    """Grooves about to be hidden, each with what the record has in it ("" for nothing)."""

    part: str
    grooves: tuple[tuple[str, str, str], ...]
    """Name, place, what is in it."""
    asked: str


@dataclass(frozen=True, slots=True)
class GaugePicture:
    """A scale with its limits."""

    low: float | None
    high: float | None
    as_new: tuple[float, float] | None
    unit: str
    value: float | None = None


@dataclass(frozen=True, slots=True)
class ClockPicture:
    """A time that runs."""

    started: datetime
    until: datetime
    what: str


Picture: TypeAlias = FacingPicture | RingPicture | StackPicture | GroovePicture | GaugePicture | ClockPicture


@dataclass(frozen=True, slots=True)
class Figure:
    """The one number the hand acts on."""

    text: str
    unit: str
    how: str
    """"set it to this, pull once to the click", or "pull until it shows this"."""
    good: str
    """The guarded limits in the marks of that scale."""
    why: str
    """Where the figure comes from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prompt:
    id: str = ""
    """Which asking this is; put on by the engine."""
    question: str
    """Name of the question within its act."""
    form: Form
    verb: str
    """The large word: PRESS IN, TIGHTEN, MEASURE."""
    ask: str
    enter: str
    """What Enter will do, in full."""
    act: str = ""
    step: str = ""
    target: str = ""
    do: tuple[str, ...] = ()
    choices: tuple[Choice, ...] = ()
    unit: str = ""
    good: str = ""
    """The limits, in words."""
    figure: Figure | None = None
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    picture: Picture | None = None
    standing: Refusal | None = None
    """What stands against going on, until it is mended or taken over."""
    until: datetime | None = None
    empty: str | None = None
    """What an empty answer means; None: an empty answer is refused."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of an answer: events if nothing was refused."""

    events: tuple[Event, ...] = ()
    refusals: tuple[Refusal, ...] = ()
    mend: tuple[Event, ...] = field(default=())
    """Events that lead to the mending, if the person takes that way."""

    @property
    def refused(self) -> bool:
        return bool(self.refusals)

    @property
    def passable(self) -> bool:
        return all(refusal.passable for refusal in self.refusals)


def refused(rule: str, wrong: str, *, mend: str = "", where: str = "") -> Outcome:
    """An answer that is not taken, for a reason of form: there is nothing to take over."""
    return Outcome(refusals=(Refusal(rule, wrong, where, mend, passable=False, of_form=True),))


def changed_about(choices: Sequence[Choice], seed: str) -> tuple[Choice, ...]:
    """The choices in an order that varies with the seed, the same for the same seed."""
    return tuple(sorted(choices, key=lambda each: hashlib.sha256(f"{seed}|{each.value}".encode()).digest()))
