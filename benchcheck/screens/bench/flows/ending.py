"""Leaving the pump: stopped for now, or the session closed without a release."""

from __future__ import annotations

from benchcheck.procedure.model import Phase
from benchcheck.screens.bench.printing import print_paper, tag_papers
from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.session import commands
from benchcheck.session.clocks import running
from benchcheck.session.closing import WITHOUT_RELEASE
from benchcheck.session.state import State, local

STOPPED = "Left as it is; all that was confirmed is saved."
"""What a flow begins to say when the pump is left."""


def stopping(work: Work) -> BenchFlow:
    """Why it is left, with what is half done."""
    why = yield Item(
        "stop here",
        "Why is it left? One line, or nothing.",
        "leaves the pump as it is, and goes to the open pumps",
        field="why",
        may_be_empty=True,
        lines=half_done(work.state, work),
        escape="back to the work",
    )
    return leave(work, why.text)


def leave(work: Work, reason: str) -> str:
    """Leave the pump as it is, free its record, and print the tags that it has to wear."""
    work.sitting.stop(reason, work.clock())
    printed = [print_paper(work, paper) for paper in tag_papers(work)] if is_begun(work.state) else []
    return "  ".join((STOPPED, *printed))


def is_begun(state: State) -> bool:
    """Whether the pump on the bench is not what it was when it came in: then it needs a tag."""
    return any(act.phase is not Phase.INTAKE and state.fact(act.id) for act in state.acts)


def half_done(state: State, work: Work) -> tuple[tuple[str, str], ...]:
    """What whoever takes the pump up again has to expect."""
    lines = [("saved", f"all {state.number} events; the power may go")]
    now = state.assembly
    for group, hold in now.held.items():
        if hold.done or (hold.checked and not hold.passed):
            called = state.pump.the(group)
            lines.append(("again", f"{called}, round {hold.rounds + 1}, from its first position"))
    open_grooves = [each for each in now.sealed if now.sealed[each] and not now.closed(each)]
    if open_grooves:
        lines.append(("grooves", f"{', '.join(open_grooves)}: filled and open, looked at again"))
    for rule, end in running(state, work.clock()):
        lines.append(("clock", f"{rule.called}: goes on, until {local(state, end)}"))
    tools = [part.called for part in state.pump.parts.values() if part.temporary and part.id in now.seated]
    if tools:
        lines.append(("inside", f"{', '.join(tools)}: still in the pump"))
    return tuple(lines)


def closing(work: Work) -> BenchFlow:
    """End the session without a released pump."""
    message = ""
    while True:
        how = yield Item(
            "end here",
            "The session ends without a released pump. How?",
            "asks why",
            choices=WITHOUT_RELEASE,
            said=message,
        )
        outcome_word = WITHOUT_RELEASE[how.index]
        why = yield Item(
            "end here",
            f"{outcome_word[:1].upper()}{outcome_word[1:]}. Why? One line.",
            f"ends the session for good: {outcome_word}",
            field="why",
        )
        outcome = work.command(commands.close, outcome_word, why.text)
        if outcome is None:
            return ""
        message = said(outcome)
