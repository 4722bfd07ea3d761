"""Tags that hang on a pump which must not run: while something cures, and while the work is not over."""

from __future__ import annotations

from datetime import datetime

from benchcheck.procedure.characters import clean
from benchcheck.report.ascii_text import in_ascii
from benchcheck.report.columns import printed, wrapped
from benchcheck.report.journal import Journal
from benchcheck.report.sections.verdict import NOT_TO_RUN
from benchcheck.report.standing_work import half_done, tools_inside
from benchcheck.report.words import capital, count, listed, step_words
from benchcheck.session.clocks import running
from benchcheck.session.engine import next_act

COLUMNS = 48


def tags(journal: Journal, now: datetime, *, plain: bool = False) -> tuple[str, ...]:
    """The tags that are due when a pump is left; none once its record is closed."""
    found = (curing(journal, now, plain=plain), incomplete(journal, plain=plain))
    return tuple(each for each in found if each)


def curing(journal: Journal, now: datetime, *, plain: bool = False) -> str:
    """What cures, until when; empty if nothing does."""
    clocks = running(journal.state, now)
    if not clocks:
        return ""
    last = max(end for _, end in clocks)
    lines = [f"CURING UNTIL {journal.until(last)}, DO NOT RUN"]
    for rule, end in clocks:
        because = f": {rule.because}" if rule.because else ""
        lines.append(f"{capital(rule.called)}, until {journal.until(end)}{because}.")
    return _tag(lines, journal, plain)


def incomplete(journal: Journal, *, plain: bool = False) -> str:
    """That the work is not over, and what comes next; empty once the record is closed."""
    state = journal.state
    if state.closed is not None:
        return ""
    lines = [NOT_TO_RUN]
    act = next_act(state)
    if act is not None:
        lines.append(f"Next: {step_words(state.pump, act.step)} ({act.step.id}).")
    if inside := tools_inside(journal):
        lines.append(f"Tools inside: {listed(inside)}.")
    if number := len(half_done(journal)):
        lines.append(f"{capital(count(number, 'thing'))} half done: see the handover card.")
    if state.open_deviations:
        lines.append(f"{count(len(state.open_deviations), 'deviation')} not decided.")
    return _tag(lines, journal, plain)


def _tag(lines: list[str], journal: Journal, plain: bool) -> str:
    state = journal.state
    left = f"Left by {state.technician}" if state.technician else "Left"
    if state.at is not None:
        left += f", {journal.day(state.at)}"
    said = [
        lines[0],
        f"Pump {state.header.serial}, {journal.model}",
        *lines[1:],
        f"{left}.",
        f"check {journal.proof.check}",
    ]
    spelled = in_ascii if plain else str
    return printed("".join(f"{line}\n" for text in said for line in wrapped(spelled(clean(text)), COLUMNS)))
