"""Decisions on what departed from the procedure, by an entitled person who did not depart."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeAlias

from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.session import commands
from benchcheck.session.events import Deviation
from benchcheck.session.prompt import Outcome

Lines: TypeAlias = tuple[tuple[str, str], ...]
Holds: TypeAlias = dict[str, str]
"""Of a concession: its limit, and its last day."""


def decisions(work: Work) -> BenchFlow:
    """Choose an open deviation, then decide on it."""
    waiting = work.state.open_deviations
    if not waiting:
        yield Item("decide", "No deviation waits for a decision.", "goes back to the work")
        return ""
    return (yield from decide(work, (yield from which(waiting))))


def which(waiting: Sequence[Deviation]) -> Flow[Deviation]:
    """The one, or the one that is chosen."""
    if len(waiting) == 1:
        return waiting[0]
    chosen = yield Item(
        "decide",
        "On which deviation?",
        "shows it, for an entitled person to decide on",
        choices=tuple(f"{each.deviation}: {each.wrong}" for each in waiting),
    )
    return waiting[chosen.index]


def decide(work: Work, about: Deviation) -> BenchFlow:
    """What becomes of a deviation, by whom, and why."""

    def write(disposition: str, name: str, reason: str, holds: Holds) -> Outcome | None:
        return work.command(commands.dispose, about.deviation, disposition, name, reason, **holds)

    return (yield from decided(f"deviation {about.deviation}", deviation_lines(about), write))


def deviation_lines(about: Deviation) -> Lines:
    """What there is to know of a deviation while one decides."""
    lines: Lines = (("wrong", about.wrong), ("why", about.reason), ("by", about.by))
    if about.again:
        lines = (*lines, ("again", f"it repeats deviation {', '.join(map(str, about.again))}"))
    return lines


def decide_position(work: Work, group: str, position: int, reason: str) -> BenchFlow:
    """What becomes of a position that will not reach its torque."""
    lines = (("position", f"{position} of {work.state.pump.the(group)}"), ("why", reason))

    def write(disposition: str, name: str, why: str, holds: Holds) -> Outcome | None:
        both = f"{reason}; {why}"
        return work.command(commands.dispose_position, group, position, disposition, name, both, **holds)

    return (yield from decided(f"position {position}", lines, write))


def decided(
    about: str,
    lines: Lines,
    write: Callable[[str, str, str, Holds], Outcome | None],
    offered: str = "",
) -> BenchFlow:
    """Ask for a disposition, its limits, a name and a reason, until what `write` says of it is None.

    `offered` is the name that stands in its field at first.
    """
    what = yield Item(
        "decide",
        f"What becomes of it? An entitled person decides, never the one who works here: {about}.",
        "goes on",
        choices=commands.DISPOSITIONS,
        lines=lines,
    )
    disposition = commands.DISPOSITIONS[what.index]
    conceded = disposition in commands.CONCESSIONS
    holds: Holds = {}
    message = ""
    while True:
        if conceded:
            holds = yield from _concession(lines, holds, message)
        name = yield Item(
            "decide",
            f"{about[:1].upper()}{about[1:]}: {disposition}. Who decides?",
            "goes on to the reason",
            field="name",
            most_cells=60,
            lines=lines,
            text="" if message else offered,
            said="" if conceded else message,
        )
        why = yield Item(
            "decide",
            f"{disposition[:1].upper()}{disposition[1:]}, says {name.text}. Why? One line.",
            f"records the decision of {name.text}: {disposition}",
            field="why",
            lines=lines,
        )
        outcome = write(disposition, name.text, why.text, holds)
        if outcome is None:
            return f"Decided on {about}: {disposition}."
        message = said(outcome)


def _concession(lines: Lines, before: Holds, message: str) -> Flow[Holds]:
    """For what, and until which day, a decision holds; where nothing is typed it holds for good."""
    limit = yield Item(
        "decide",
        "For what does it hold? One line, as: up to 10 bar. Nothing: without a limit.",
        "goes on to its last day",
        field="limit",
        may_be_empty=True,
        text=before.get("limit", ""),
        lines=lines,
        said=message,
    )
    expires = yield Item(
        "decide",
        "Until which day, that day included? As 2027-03-31. Nothing: for good.",
        "goes on to the name",
        field="day",
        may_be_empty=True,
        text=before.get("expires", ""),
        lines=lines,
    )
    return {"limit": limit.text.strip(), "expires": expires.text.strip()}
