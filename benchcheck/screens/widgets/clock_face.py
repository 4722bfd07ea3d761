"""A clock that runs: the time left in large type, until when, and how much of it has passed.

Times are handed in; nothing here reads a clock.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import datetime, timedelta

from benchcheck.screens.widgets.big_type import NUMBER_ROWS, draw_number, number_width
from benchcheck.screens.widgets.cells import Canvas, Drawing, width_of

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_QUARTERS = 4


@dataclass(frozen=True)
class ClockFace:
    """When a clock was started, when it is over, and what time it is, all by the clock on this bench."""

    started: datetime
    ends: datetime
    now: datetime

    @property
    def left(self) -> timedelta:
        """Time left, never below nothing and never more than the whole."""
        return min(max(self.ends - self.now, timedelta(0)), self.ends - self.started)

    @property
    def share_passed(self) -> float:
        """Share of the whole that has passed, from 0 to 1."""
        whole = self.ends - self.started
        return 1.0 if whole <= timedelta(0) else 1.0 - self.left / whole


def figure_of(left: timedelta) -> str:
    """Hours and minutes from an hour on, else minutes and seconds; one that is begun counts as whole."""
    seconds = math.ceil(left.total_seconds())
    if seconds >= 3600:
        minutes = -(-seconds // 60)
        return f"{minutes // 60}:{minutes % 60:02}"
    return f"{seconds // 60}:{seconds % 60:02}"


def words_of(left: timedelta) -> str:
    """What the figure counts."""
    if math.ceil(left.total_seconds()) >= 3600:
        return "hours and minutes left"
    return "minutes and seconds left"


def draw_clock(face: ClockFace, width: int) -> Drawing:
    """The figure with its words beside it, five rows."""
    figure = figure_of(face.left)
    canvas = Canvas(width, NUMBER_ROWS)
    canvas.put_drawing(0, 0, draw_number(figure))
    column = number_width(figure) + 4
    canvas.put(1, column, words_of(face.left))
    day = f"{_DAYS[face.ends.weekday()]} {face.ends.day} {_MONTHS[face.ends.month - 1]}"
    if face.ends.date() == face.now.date():
        canvas.put(3, column, f"until {face.ends:%H:%M} by this clock")
    else:
        canvas.put(3, column, f"until {day},")
        canvas.put(4, column, f"{face.ends:%H:%M} by this clock")
    return canvas.lines()


def draw_passage(face: ClockFace, width: int) -> Drawing:
    """Two rows: the time of day at each quarter, and a line of what has passed and what is to come."""
    canvas = Canvas(width, 2)
    whole = face.ends - face.started
    day_before = None
    free_from = 0
    for quarter in range(_QUARTERS + 1):
        moment = face.started + whole * quarter / _QUARTERS
        text = f"{moment:%H:%M}"
        if moment.date() != day_before:
            text += f" {_DAYS[moment.weekday()][:3]}"
        column = min(max((width - 1) * quarter // _QUARTERS, free_from), width - width_of(text))
        if column >= free_from:
            canvas.put(0, column, text)
            free_from = column + width_of(text) + 2
            day_before = moment.date()
    passed = min(math.floor(face.share_passed * width), width)
    line = "═" * passed + "─" * (width - passed)
    canvas.put(1, 0, line if passed == width else "═" * passed + "►" + "─" * (width - passed - 1))
    return canvas.lines()
