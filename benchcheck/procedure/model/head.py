"""What the document is: its head, its cautions, and what it lets stand against the check."""

from __future__ import annotations

from datetime import date

from pydantic import Field

from benchcheck.mechanics.units import parse
from benchcheck.procedure.model.values import Duration, Identifier, Text
from benchcheck.procedure.model.words import Signal, Status
from benchcheck.procedure.table import Table


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


class Silence(Table):
    """`[[silence]]`: a finding that stands for a reason."""

    rule: Text = Field(description="name of the rule")
    at: Identifier | None = Field(default=None, description="id the finding is about; none: all of this rule")
    reason: Text = Field(description="why it may stand; shown by check and kept in the record")

    @property
    def words(self) -> str:
        """The finding and the reason, as a record keeps them."""
        return f"{self.rule}{f' at {self.at}' if self.at else ''}: {self.reason}"
