"""A reviewer's judgement on one session: which, under what limit, by whom, and why.

Whether it may be written is the engine's to say; its sentence is shown where the question stood.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.report.words import count
from benchcheck.screens.bench.work import said
from benchcheck.screens.inquiry import Flow, Item
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.one_session import OneSession
from benchcheck.session import commands
from benchcheck.session.commands import JUDGEMENTS, UNDER_CONCESSION
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import NewerFormat
from benchcheck.store.disk import StoreFault
from benchcheck.store.library import Unreadable
from benchcheck.store.lock import Held
from benchcheck.store.records import DamagedRecord, NeverBegun
from benchcheck.store.sitting import CannotOpen

CANNOT = (CannotOpen, DamagedRecord, Held, NeverBegun, NewerFormat, StoreFault, Unreadable)
"""What a record may have against being added to."""
ESCAPE = "back, nothing is written"
_DEEDS = {
    "accepted": "accept it",
    UNDER_CONCESSION: "accept it under concession, with a limit and a last day",
    "returned": "return it for rework",
    "rejected": "reject it",
}
_ABOUT_THE_PERSON = frozenset({"person-not-known", "person-not-entitled", "own-work", "perhaps-one-person"})
_ABOUT_THE_LIMIT = frozenset({"no-limit", "not-a-day", "concession-expired"})
_MOST_REMARKS = 3


def judged(desk: Desk, session: OneSession) -> Flow[str]:
    """Ask all of it and write it; ends with what there is to say of it."""
    if (never := _never(desk, session)) is not None:
        yield not_written(never)
        return ""
    lines = tuple(_against(session))
    chosen = yield Item(
        "judge",
        f"What becomes of pump {session.name}?",
        "goes on",
        choices=tuple(_DEEDS[each] for each in JUDGEMENTS),
        lines=lines,
        escape=ESCAPE,
    )
    outcome = JUDGEMENTS[chosen.index]
    limit = expires = reason = message = ""
    if outcome == UNDER_CONCESSION:
        limit, expires = yield from _concession("", "", "")
    while True:
        name = yield who(f"Pump {session.name}: {outcome}. Who judges?", desk.reviewer, message)
        why = yield Item(
            "judge",
            f"{outcome[:1].upper()}{outcome[1:]}, says {name.text}. Why? One line.",
            f"writes it into the record: {outcome}, says {name.text}",
            field="why",
            lines=lines,
            text=reason,
            escape=ESCAPE,
        )
        reason = why.text
        try:
            refusal = desk.judge(session.path, outcome, name.text, reason, limit, expires)
        except CANNOT as fault:
            yield not_written(str(fault))
            return ""
        if refusal is None:
            desk.reviewer = name.text
            return "  ".join((f"It is in the record: {outcome}, says {name.text}.", *desk.signed))
        rule, message = refusal.refusals[0].rule, said(refusal)
        if rule in _ABOUT_THE_LIMIT:
            limit, expires = yield from _concession(limit, expires, message)
            message = ""
        elif rule not in _ABOUT_THE_PERSON:
            yield not_written(message)
            return ""


def who(ask: str, offered: str, message: str = "") -> Item:
    """Who judges, as in the register; whoever did last is offered, but for a name that was refused."""
    return Item(
        "judge",
        ask,
        "goes on to the reason",
        field="name",
        most_cells=60,
        text="" if message else offered,
        said=message,
        escape=ESCAPE,
    )


def _never(desk: Desk, session: OneSession) -> str | None:
    """Why nobody can judge this session now, whatever the word; None if someone may."""
    if session.journal is None:
        return session.cannot
    if not session.recorded.verdict.intact:
        return "The record contradicts its seals, or what is known of them: nothing is added to it."
    if session.journal.state.closed is None:
        state = session.journal.state
        outcome = commands.judge(state, JUDGEMENTS[0], "nobody", "asked before anything else", desk.now)
        assert isinstance(outcome, Outcome)
        return said(outcome)
    return None


def _against(session: OneSession) -> Iterator[tuple[str, str]]:
    """What is to be weighed, while one weighs it."""
    if not session.remarks:
        yield "look", "nothing stands out"
    for remark in session.remarks[:_MOST_REMARKS]:
        yield "look", remark.sentence
    if len(session.remarks) > _MOST_REMARKS:
        yield "", f"and {count(len(session.remarks) - _MOST_REMARKS, 'more remark')}"
    for word in session.judged[-1:]:
        yield "before", f"{word.outcome} by {word.name}, because {word.reason}; that stays in the record"


def _concession(limit: str, expires: str, message: str) -> Flow[tuple[str, str]]:
    held = yield Item(
        "judge",
        "Under which limit may it run? What it is good for, as it is to be read on the pump.",
        "goes on to the last day",
        field="limit",
        text=limit,
        said=message,
        escape=ESCAPE,
    )
    until = yield Item(
        "judge",
        "Up to which day, that day included?",
        "goes on to the name",
        field="until",
        most_cells=10,
        lines=(("such as", "2027-03-31"),),
        text=expires,
        escape=ESCAPE,
    )
    return held.text, until.text


def not_written(why: str) -> Item:
    """Why nothing could be written."""
    return Item(
        "not yet",
        "",
        "goes back, nothing is written",
        lines=tuple(("wrong", line) for line in why.splitlines() if line.strip()),
        escape=ESCAPE,
    )
