"""A file of departures as an author writes it: its tables, and what keeps a file from being one.

What is done with them is for `session.rehearsal` and `session.deeds`.
"""

from __future__ import annotations

import re
from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field, model_validator

from benchcheck.mechanics.units import QuantityError
from benchcheck.procedure.model import Duration, Identifier, Text
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import nearest
from benchcheck.session.closing import WITHOUT_RELEASE
from benchcheck.session.events import KINDS
from benchcheck.session.going_back import BACK

Came = Literal["refused", "recorded", "voided", "asked again", "passed"]

ON_ARRIVAL = "on arrival"
"""Where a departure is made from what is asked before any step."""
IN_NO_STEP = (ON_ARRIVAL, BACK)
RELEASED, OPEN = "released", "open"
ENDS = (RELEASED, *WITHOUT_RELEASE, OPEN)
What = Literal[
    "trouble", "another wrench", "wrench dropped", "insert", "kit", "remark", "stop", "cut off", "left alone",
    "sign the card", "sign on", "correct", "decide", "decide on position", "close", "clock set on",
    "clock set back", "stop notice", "withdrawn", "may go on", "new text",
]  # fmt: skip


def _a_moment(text: str) -> str:
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.tzinfo is None:
        raise QuantityError(
            f'"{text[:40]}" is no time with its offset; write one as in "2026-11-02T07:00:00Z"'
        )
    return text


def _an_end(text: str) -> str:
    if text not in ENDS:
        raise QuantityError(f'"{text[:40]}" is no end; it is one of: {", ".join(ENDS)}')
    return text


def _a_step(text: str) -> str:
    if text not in IN_NO_STEP and not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]*", text):
        raise QuantityError(
            f'"{text[:40]}" is the id of no step; write one, or one of: {", ".join(IN_NO_STEP)}'
        )
    return text


def _a_kind(text: str) -> str:
    if text not in KINDS:
        like = nearest(text, list(KINDS))
        meant = f'; the nearest is "{like}"' if like else "; the manual of records has them all"
        raise QuantityError(f'"{text[:40]}" is no kind of event{meant}')
    return text


class RehearsalHead(Table):
    """`[rehearsal]`: which procedure, and what it is to show."""

    procedure: Identifier = Field(description="id of the procedure")
    title: Text = Field(description="what it shows")
    variant: Text | None = Field(default=None, description="variant it is for; none: each")
    begins: Annotated[str, AfterValidator(_a_moment)] | None = Field(
        default=None, description="RFC 3339 time it begins at"
    )
    situation: tuple[Text, ...] = Field(default=(), description="what of a bad day it shows")
    until: Identifier | None = Field(
        default=None, description="step at which the pump is left as it is, once all departures were due"
    )
    ends: Annotated[str, AfterValidator(_an_end)] | None = Field(
        default=None, description="how it has to end; released, or open with `until`"
    )

    @model_validator(mode="after")
    def _left_open(self) -> RehearsalHead:
        if self.until is not None and self.ends not in (None, OPEN):
            raise QuantityError(
                f"a pump that is left at {self.until} is open then; leave out `until`, or `ends`"
            )
        return self


class Deed(Table):
    """`do` of a departure: what is done instead of answering, or befalls the bench."""

    what: What = Field(description="which of the commands, or what befalls the bench")
    position: int = Field(default=1, description="position in the group in hand")
    felt: Text | None = Field(default=None, description="of a trouble: what was felt")
    wrench: Text | None = Field(
        default=None, description="which one was dropped; the one in hand if left out"
    )
    torque: Text | None = Field(default=None, description="of an insert: the torque that holds there")
    tolerance: Text | None = Field(default=None, description="of an insert: its tolerance")
    decision: Text | None = Field(
        default=None, description="what is decided on the last open departure, or how the work is closed"
    )
    limit: Text | None = Field(default=None, description="of a concession: for what it holds")
    expires: Text | None = Field(default=None, description="of a concession: its last day")
    name: Text | None = Field(default=None, description="who decides, gives the limits, or goes on")
    pause: Duration | None = Field(
        default=None, description="how long the work lies, or by how much the clock is set"
    )
    of: Text | None = Field(default=None, description="of a new text: the table that differs, as step gap")
    key_: Text | None = Field(
        alias="key", default=None, description="of a new text: the key that differs; none: the table is gone"
    )
    to: Any = Field(default=None, description="of a new text: the value of that key; none: it is left out")
    revision: Identifier | None = Field(
        default=None, description="of a new text: its revision; the same if left out"
    )


class Departure(Table):
    """`[[departure]]`: one answer that is not the careful one, and what must come of it."""

    step: Annotated[str, AfterValidator(_a_step)] = Field(
        description='the step it is given in; "on arrival" or "going back" for what is asked in none'
    )
    question: Text | None = Field(
        default=None, description="the question, by name; the step's first if left out"
    )
    target: Text | None = Field(default=None, description="part, groove or group it is about")
    answer: str | None = Field(default=None, description="what is answered")
    leave_out: Text | None = Field(default=None, description="reason for which the act is left out instead")
    go_back: Identifier | None = Field(
        default=None, description="part, groove or group that is gone back to instead; wants a reason"
    )
    do: Deed | None = Field(default=None, description="what is done instead of answering; wants a reason")
    early: Duration | None = Field(
        default=None, description="how long before its clock is over it is answered, or done"
    )
    reason: Text | None = Field(
        default=None, description="reason with which the refusal is taken over, or for going back"
    )
    mend: bool = Field(default=False, description="the way the refusal offers is taken")
    came: Came = Field(description="refused, recorded, voided, asked again or passed")
    rule: Text | None = Field(default=None, description="the rule that refuses it")
    says: Text | None = Field(default=None, description="words that have to stand in what is said of it")
    events: tuple[Annotated[str, AfterValidator(_a_kind)], ...] = Field(
        default=(), description="kinds of events that have to come of it"
    )
    void: tuple[Identifier, ...] = Field(
        default=(), description="steps of which something that stood no longer counts"
    )


class RehearsalFile(Table):
    """A whole rehearsal file."""

    format: Literal[1] = Field(description="version of this format")
    rehearsal: RehearsalHead
    departure: tuple[Departure, ...] = ()
