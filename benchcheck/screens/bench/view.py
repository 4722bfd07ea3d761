"""What a sheet of the bench is made from: the engine's state and prompt, with what the hand has done so far.

Functions from a view to a sheet are in `sheets`; none of them knows Textual.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from benchcheck.screens.layout import Hand
from benchcheck.session.prompt import Prompt
from benchcheck.session.state import State


@dataclass(frozen=True, kw_only=True)
class View(Hand):
    """One prompt as it is to be drawn."""

    state: State
    prompt: Prompt
    now: datetime
    quarter_turns: int = 0
    arrived: tuple[tuple[str, str], ...] = ()
    """What was found when the record was opened, as labelled lines."""

    def local(self, moment: datetime) -> datetime:
        """A time as the shop's clock shows it."""
        return moment.astimezone(ZoneInfo(self.state.job.registers.shop.time_zone))
