"""Times that must pass, or must not, at the bench: which clocks run, and what they forbid now.

A clock's rule comes from the file; when it was started is in the state. Time of day is handed in; what has
passed is counted between two such times, so a clock goes on while the program does not run.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.clocks import ClockRule, clock_rules
from benchcheck.session.state import State


def ends(state: State, rule: ClockRule) -> datetime | None:
    """When the clock is over; None while it is not started or has no least time."""
    running = state.clocks.get(rule.id)
    if running is None or rule.least is None:
        return None
    return running.at + rule.least


def running(state: State, now: datetime) -> tuple[tuple[ClockRule, datetime], ...]:
    """The clocks that are not over yet, each with its end."""
    found = []
    for rule in clock_rules(state.pump):
        end = ends(state, rule)
        if end is not None and end > now:
            found.append((rule, end))
    return tuple(found)


def barring(state: State, act: Act, now: datetime) -> tuple[ClockRule, datetime] | None:
    """The clock that forbids an act now, with the time at which it no longer does."""
    if act.verb is Verb.WAIT:
        return None
    for rule, end in running(state, now):
        # A group that is tight waits for its second pass, whether or not a step of its own says so.
        second_pass = act.verb is Verb.TIGHTEN and rule.group == act.target and rule.second_pass
        if second_pass or act.phase.value in rule.bars or act.step.id in rule.bars:
            return rule, end
    return None


def no_earlier(state: State, now: datetime) -> datetime:
    """The time, or that of the last event, if the clock of the machine was set back since."""
    return now if state.at is None else max(now, state.at)


def too_late(state: State, act: Act, now: datetime) -> ClockRule | None:
    """The clock whose most time has passed before this act."""
    now = no_earlier(state, now)
    for rule in clock_rules(state.pump):
        begun = state.clocks.get(rule.id)
        if begun is None or rule.most is None:
            continue
        if (
            act.phase.value in rule.bars or act.step.id in rule.bars
        ) and now > begun.at - begun.set_back + rule.most:
            return rule
    return None
