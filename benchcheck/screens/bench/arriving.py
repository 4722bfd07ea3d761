"""What was found when a record was opened again, for whoever has to take the pump up: as labelled lines."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from benchcheck.assembly.planned import rounds_of
from benchcheck.session.clocks import running
from benchcheck.session.engine import CLOCK_SLACK
from benchcheck.session.events import Stopped, from_table
from benchcheck.session.fold import beginning, folded
from benchcheck.session.state import State, local
from benchcheck.store.sitting import Sitting


def arrived(sitting: Sitting) -> tuple[tuple[str, str], ...]:
    """How it was left, what was lost, what starts again, what runs; empty where nobody worked yet."""
    state = sitting.state
    events = [from_table(table) for table in sitting.record.record.events]
    left = folded(beginning(state.job, state.header), events)
    if not left.people:
        return ()
    last = events[-1]
    why = f': "{last.reason}"' if isinstance(last, Stopped) and last.reason else ""
    by = f" by {left.technician}" if left.technician else ""
    how = f"left in order{by}{why}" if left.stopped else f"cut off{by}, not left in order"
    return (
        ("kept", f"{len(events)} events, all agree with their seals"),
        ("left", how),
        *_gap(left, state),
        *_lost(sitting),
        *_again(left, state),
        *_clocks(state),
    )


def _gap(left: State, state: State) -> Iterator[tuple[str, str]]:
    if left.at is None or state.at is None:
        return
    if state.at < left.at - CLOCK_SLACK:
        yield "clock", f"shows {in_words(left.at - state.at)} less than before; the record says so"
    else:
        yield "gap", f"{in_words(state.at - left.at)}, since {local(state, left.at)}"


def in_words(time: timedelta) -> str:
    """A length of time as one would say it."""
    minutes = round(time.total_seconds() / 60)
    if minutes < 1:
        return "less than a minute"
    if minutes < 120:
        return f"{minutes} minute{'s' if minutes != 1 else ''}"
    return f"{minutes // 60} hours" if minutes < 48 * 60 else f"{minutes // 1440} days"


def _lost(sitting: Sitting) -> Iterator[tuple[str, str]]:
    torn = sitting.record.set_aside
    if torn is None:
        yield "lost", "nothing"
    else:
        yield "lost", f"an answer that was being written; its {torn.size} bytes lie in {torn.file}"


def _again(left: State, state: State) -> Iterator[tuple[str, str]]:
    for group, hold in left.assembly.held.items():
        if state.assembly.held.get(group) == hold:
            continue
        called, rounds = state.pump.the(group), rounds_of(state.pump, group)
        if hold.rounds < rounds:
            yield "again", f"round {hold.rounds + 1} of {called}: it was left inside the round"
        else:
            yield "again", f"the check pass of {called}: it was left inside the pass"


def _clocks(state: State) -> Iterator[tuple[str, str]]:
    if state.at is None:
        return
    for rule, end in running(state, state.at):
        yield "runs", f"{rule.called}, until {local(state, end)}"
