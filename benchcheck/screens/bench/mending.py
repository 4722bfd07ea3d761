"""What the way that mends a refusal does, in words for the row of Enter."""

from __future__ import annotations

from benchcheck.screens.bench.sentences import step_number
from benchcheck.session.events import Corrected, Event, GrooveFound, GroupLoosened, WentBack
from benchcheck.session.prompt import Outcome
from benchcheck.session.state import State


def mend_words(state: State, outcome: Outcome) -> str:
    """What Enter will do about a refusal; empty where there is no way to take."""
    if not outcome.mend:
        return ""
    words = _event_words(state, outcome.mend[0])
    step = next((refusal.step for refusal in outcome.refusals if refusal.step), "")
    number = step_number(state, step) if step else None
    return f"{words} (step {number})" if number else words


def _event_words(state: State, event: Event) -> str:
    pump = state.pump
    match event:
        case GroupLoosened(group=group):
            return f"records that {pump.the(group)} were loosened, and begins them again"
        case GrooveFound(groove=groove):
            return f"records what lies in {groove}, and goes to fit its ring"
        case Corrected(thing=thing) if thing:
            return f"takes back that {pump.the(thing)} is in, and goes to fit it"
        case WentBack(targets=targets):
            return (
                f"goes back to {', '.join(pump.the(each) for each in targets)}; what is in the way comes off"
            )
        case Corrected():
            return "takes that answer back, and asks it again"
    return "takes the way that mends it"
