"""Decisions on what departed from the procedure, by an entitled person who did not depart."""

from __future__ import annotations

from collections.abc import Callable

from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.session import commands
from benchcheck.session.events import Deviation
from benchcheck.session.prompt import Outcome


def decisions(work: Work) -> BenchFlow:
    """Choose an open deviation, then decide on it."""
    waiting = work.state.open_deviations
    if not waiting:
        yield Item("decide", "No deviation waits for a decision.", "goes back to the work")
        return ""
    if len(waiting) == 1:
        return (yield from decide(work, waiting[0]))
    chosen = yield Item(
        "decide",
        "On which deviation?",
        "shows it, for an entitled person to decide on",
        choices=tuple(f"{each.deviation}: {each.wrong}" for each in waiting),
    )
    return (yield from decide(work, waiting[chosen.index]))


def decide(work: Work, about: Deviation) -> BenchFlow:
    """What becomes of a deviation, by whom, and why."""
    lines = (("wrong", about.wrong), ("why", about.reason), ("by", about.by))

    def write(disposition: str, name: str, reason: str) -> Outcome | None:
        return work.command(commands.dispose, about.deviation, disposition, name, reason)

    return (yield from _decided(f"deviation {about.deviation}", lines, write))


def decide_position(work: Work, group: str, position: int, reason: str) -> BenchFlow:
    """What becomes of a position that will not reach its torque."""
    lines = (("position", f"{position} of {work.state.pump.the(group)}"), ("why", reason))

    def write(disposition: str, name: str, why: str) -> Outcome | None:
        return work.command(commands.dispose_position, group, position, disposition, name, f"{reason}; {why}")

    return (yield from _decided(f"position {position}", lines, write))


def _decided(
    about: str, lines: tuple[tuple[str, str], ...], write: Callable[[str, str, str], Outcome | None]
) -> BenchFlow:
    what = yield Item(
        "decide",
        f"What becomes of it? An entitled person decides, never the one who works here: {about}.",
        "goes on to the name",
        choices=commands.DISPOSITIONS,
        lines=lines,
    )
    disposition = commands.DISPOSITIONS[what.index]
    message = ""
    while True:
        name = yield Item(
            "decide",
            f"{about[:1].upper()}{about[1:]}: {disposition}. Who decides?",
            "goes on to the reason",
            field="name",
            most_cells=60,
            lines=lines,
            said=message,
        )
        why = yield Item(
            "decide",
            f"{disposition[:1].upper()}{disposition[1:]}, says {name.text}. Why? One line.",
            f"records the decision of {name.text}: {disposition}",
            field="why",
            lines=lines,
        )
        outcome = write(disposition, name.text, why.text)
        if outcome is None:
            return f"Decided on {about}: {disposition}."
        message = said(outcome)
