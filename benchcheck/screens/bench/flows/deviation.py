"""A deviation: what is not as written, why, and what now. Then another person has to decide on it."""

from __future__ import annotations

from collections.abc import Callable, Generator
from functools import partial

from benchcheck.screens.bench.flows.decisions import decide_position
from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item, Reply
from benchcheck.session import commands
from benchcheck.session.engine import NEVER_LEFT_OUT, Takeover, next_act
from benchcheck.session.prompt import Outcome, RingPicture

KINDS = (
    ("the part", "another size, lot, material, or used"),
    ("the place", "a screw seized, a thread damaged, an insert fitted"),
    ("the tool", "another wrench, gauge, or method"),
    ("the number", "outside its limits, or could not be taken"),
    ("the order", "done earlier, later, or left out"),
    ("the paper", "the procedure itself is wrong or unclear"),
)
Way = Callable[[], "str | Outcome | Generator[Item, Reply, str]"]
"""Does it: says what was done, hands back the outcome that refuses it, or goes on asking."""

_PROMISE = "Nothing is passed by writing this: another, entitled person decides on it before release."


def deviation(work: Work) -> BenchFlow:
    """Ask for the deviation, and write it."""
    standing = _standing(work)
    cells = max(len(name) for name, _ in KINDS)
    kind = yield Item(
        "deviation",
        "What is not as the procedure says?",
        "goes on to the second question, why",
        choices=tuple(f"{name:<{cells}}   {examples}" for name, examples in KINDS),
        beside=("question 1 of 3", _PROMISE),
        lines=standing,
    )
    name = KINDS[kind.index][0]
    why = yield Item(
        "deviation",
        "Why? One line in your own words.",
        "goes on to the third question, what now",
        field="why",
        beside=("question 2 of 3", f"Not as written: {name}."),
        lines=standing,
    )
    ways = _ways(work, name, why.text)
    message = ""
    while True:
        now = yield Item(
            "deviation",
            "What now?",
            "does it, and writes it down",
            choices=tuple(words for words, _ in ways),
            beside=("question 3 of 3", f"Not as written: {name}."),
            lines=(("why", why.text), *standing),
            said=message,
        )
        done = ways[now.index][1]()
        if isinstance(done, Generator):
            return (yield from done)
        if isinstance(done, str):
            return done
        message = said(done)


def _standing(work: Work) -> tuple[tuple[str, str], ...]:
    """What stands refused at this moment."""
    if work.refused is None:
        return ()
    return tuple(("refused", refusal.wrong) for refusal in work.refused.outcome.refusals[:2])


def _ways(work: Work, name: str, why: str) -> list[tuple[str, Way]]:
    """What can be done now, the way that takes the refusal over first."""
    found: list[tuple[str, Way]] = []
    reason = f"{name}: {why}"
    prompt, act = work.prompt, next_act(work.state)
    if work.refused is not None and work.refused.can_be_taken_over:
        found.append(("go on as you answered: the refusal is taken over", partial(_take_over, work, reason)))
    if prompt is not None and isinstance(prompt.picture, RingPicture) and not prompt.picture.check_pass:
        position = prompt.picture.now
        found.append(
            (
                f"position {position} stays as it is: an entitled person decides on it now",
                partial(decide_position, work, prompt.target, position, reason),
            )
        )
    in_hand = prompt is not None and prompt.act and act is not None
    if in_hand and act is not None and not act.step.cannot_pass and act.verb not in NEVER_LEFT_OUT:
        found.append(("leave this out and go on", partial(_leave_out, work, reason)))
    found.append(("stay at this question: only write it down", partial(_write_down, work, name, why)))
    return found


def _take_over(work: Work, reason: str) -> str | Outcome:
    assert work.prompt is not None and work.refused is not None
    outcome = work.sitting.answer(work.prompt.id, work.refused.answer, work.clock(), Takeover(reason))
    return _written(work, outcome)


def _leave_out(work: Work, reason: str) -> str | Outcome:
    outcome = work.sitting.leave_out(reason, work.clock())
    return _written(work, outcome)


def _write_down(work: Work, name: str, why: str) -> str | Outcome:
    return _written(work, work.command(commands.depart, name, why))


def _written(work: Work, outcome: Outcome | None) -> str | Outcome:
    if outcome is not None:
        return outcome
    return f"Deviation {len(work.state.deviations)} is in the record; another person decides on it."
