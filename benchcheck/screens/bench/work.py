"""The work on one pump as the bench screen and its flows hold it: a sitting and a clock."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any, TypeAlias

from benchcheck.screens.bench.sheets.refused import Refused
from benchcheck.screens.inquiry import Flow
from benchcheck.session import commands
from benchcheck.session.prompt import Outcome, Prompt
from benchcheck.session.state import State
from benchcheck.store.sitting import Sitting

Clock: TypeAlias = Callable[[], datetime]


class Work:
    """What flows act on. Every method that writes raises StoreFault where it cannot."""

    def __init__(self, sitting: Sitting, clock: Clock) -> None:
        self.sitting = sitting
        self.clock = clock
        self.prompt: Prompt | None = None
        self.refused: Refused | None = None
        """The refusal that stands in the place of the prompt."""
        self.ask()

    @property
    def state(self) -> State:
        return self.sitting.state

    def ask(self, now: datetime | None = None) -> Prompt | None:
        """Look what is asked now."""
        self.prompt = self.sitting.ask(now or self.clock())
        return self.prompt

    def command(self, do: Callable[..., commands.Result], *arguments: Any, **named: Any) -> Outcome | None:
        """Carry out one of the commands; the outcome that refuses it, or None."""
        return self.sitting.command(do, *arguments, now=self.clock(), **named)


BenchFlow: TypeAlias = Flow[str]
"""A flow on the bench; it returns what there is to say at its end, empty if nothing."""


def said(outcome: Outcome) -> str:
    """A refusal in one sentence, for the place of the field."""
    refusal = outcome.refusals[0]
    sentence = refusal.wrong[:1].upper() + refusal.wrong[1:]
    return f"{sentence}; {refusal.mend}." if refusal.mend else f"{sentence}."
