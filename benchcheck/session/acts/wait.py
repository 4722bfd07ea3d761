"""Wait: a clock that must be over before the work goes on. It is never cut short."""

from __future__ import annotations

import math
from datetime import datetime

from benchcheck.assembly.acts import Act
from benchcheck.assembly.clocks import clock_rule
from benchcheck.assembly.refusal import Refusal
from benchcheck.session.clocks import ends
from benchcheck.session.events import WaitOver
from benchcheck.session.prompt import ClockPicture, Form, Outcome, Prompt, refused
from benchcheck.session.state import State, local, local_end


def ask(state: State, act: Act, now: datetime) -> Prompt:
    rule = clock_rule(state.pump, act.target)
    end = ends(state, rule) if rule is not None else None
    running = state.clocks.get(act.target)
    called = rule.called if rule is not None else act.target
    if end is None or running is None:
        until = "its clock has not started"
    elif end > now:
        until = f"not over before {local_end(state, end)}"
    else:
        until = f"over since {local(state, end)}"
    return Prompt(
        question="over",
        form=Form.WAIT,
        verb="WAIT",
        ask=f"{called}: {until}",
        enter="goes on, if the time is over",
        target=act.target,
        until=end,
        picture=ClockPicture(running.at, end, called) if running is not None and end is not None else None,
        empty="",
    )


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    rule = clock_rule(state.pump, act.target)
    running = state.clocks.get(act.target)
    if rule is None or running is None or rule.least is None:
        return refused(
            "clock-not-started", f"the clock {act.target} has not started", mend="do what starts it"
        )
    end = running.at + rule.least
    if now < end:
        left = math.ceil((end - now).total_seconds() / 60)
        return Outcome(
            refusals=(
                Refusal(
                    "clock-still-runs",
                    f"{left // 60} h {left % 60:02d} min are left: {rule.called}",
                    mend=f"wait until {local_end(state, end)}",
                    passable=False,
                    chain=(rule.because,) if rule.because else (),
                ),
            )
        )
    event = WaitOver(
        act=act.id,
        done=True,
        clock=act.target,
        started=running.at.isoformat(timespec="seconds"),
        ended=end.isoformat(timespec="seconds"),
    )
    return Outcome((event,))


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    return ""
