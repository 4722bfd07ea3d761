"""What a person may do besides answering: decide on a departure, correct an answer, go back, stop, close.

Each gives events ready to be written, or the outcome that refuses it. Who may do what is the register's word.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from benchcheck.assembly.way_back import is_free
from benchcheck.procedure.registers import Person
from benchcheck.session import arrival, handing_over, revisions
from benchcheck.session.closing import CLAIMS, WITHOUT_RELEASE, keyed, summary
from benchcheck.session.engine import departure, written
from benchcheck.session.events import (
    ActEvent,
    Answered,
    Corrected,
    Counted,
    Disposed,
    Event,
    Judged,
    Measured,
    PositionDisposed,
    PositionTightened,
    Remark,
    RingFitted,
    Stopped,
    Told,
    WentBack,
    stamped,
)
from benchcheck.session.going_back import Way, way
from benchcheck.session.persons import entitled, not_another
from benchcheck.session.prompt import Outcome, refused
from benchcheck.session.state import State

Result = tuple[Event, ...] | Outcome

DISPOSITIONS = ("use as is", "rework", "repair", "replace", "scrap", "return")
CONCESSIONS = ("use as is", "repair")
"""Dispositions that may hold under a limit and up to a day."""
UNDER_CONCESSION = "accepted under concession"
NOT_AS_WRITTEN = "not-as-written"
"""The rule of a departure that a person reports, where no answer was refused."""
JUDGEMENTS = ("accepted", UNDER_CONCESSION, "returned", "rejected")


def _over(state: State) -> Outcome | None:
    """The refusal of anything that would follow the closing event: only a reviewer's word may."""
    return refused("record-is-closed", "the work on this pump is over") if state.closed is not None else None


def _not_at_work(state: State) -> Outcome | None:
    """The refusal of what only a person at work may do, on a pump known to be the right one."""
    if state.closed is None and not state.technician:
        return refused("nobody-signed-on", "nobody is signed on", mend="sign on first")
    if state.closed is None and state.taking_over:
        return refused("not-taken-over", "who takes the pump over signs the handover card first")
    if state.closed is None and state.read_again:
        return refused("to-be-read-again", "after a pause the pump is read again before anything is changed")
    if state.closed is None and state.halted:
        return refused("work-stopped", state.halted)
    return _over(state)


def dispose(
    state: State,
    number: int,
    disposition: str,
    name: str,
    reason: str,
    now: datetime,
    *,
    limit: str = "",
    expires: str = "",
) -> Result:
    """An entitled person, never the one who deviated, decides on a deviation.

    What is used as it is, or repaired, may be so under a limit and up to a day: a concession.
    """
    if (over := _over(state)) is not None:
        return over
    found = next((each for each in state.deviations if each.deviation == number), None)
    if found is None:
        return refused("no-such-deviation", f"there is no deviation {number}")
    made = "made this deviation; another person decides on it"
    person = _who_decides(state, disposition, reason, expires, name, (found.by, made), now)
    if isinstance(person, Outcome):
        return person
    event = Disposed(
        deviation=number,
        disposition=disposition,
        name=person.name,
        reason=reason.strip(),
        limit=limit.strip(),
        expires=expires.strip(),
        by=person.name,
    )
    return written(state, (event,), now)


def dispose_position(
    state: State,
    group: str,
    position: int,
    disposition: str,
    name: str,
    reason: str,
    now: datetime,
    *,
    limit: str = "",
    expires: str = "",
) -> Result:
    """An entitled person decides on a position that will not reach its torque; it may be by a concession."""
    if (over := _over(state)) is not None:
        return over
    told = state.pump.groups.get(group)
    # What holds since the pump came in was tightened by nobody here.
    run_in = group in state.run_in and group in state.assembly.held
    if told is None or not 1 <= position <= told.count or not run_in:
        return refused("no-such-position", f"there is no position {position} of {group} in hand")
    works = "does this work; another person decides on it"
    person = _who_decides(state, disposition, reason, expires, name, (state.technician, works), now)
    if isinstance(person, Outcome):
        return person
    event = PositionDisposed(
        group=group,
        position=position,
        disposition=disposition,
        name=person.name,
        reason=reason.strip(),
        limit=limit.strip(),
        expires=expires.strip(),
        by=person.name,
    )
    return written(state, (event,), now)


def _who_decides(
    state: State,
    disposition: str,
    reason: str,
    expires: str,
    name: str,
    not_by: tuple[str, str],
    now: datetime,
) -> Person | Outcome:
    """Who may decide so; or why it cannot be decided, or not by that person.

    `not_by` is who may not, with what that one did.
    """
    if (wrong := _bad_words(disposition, DISPOSITIONS, reason)) is not None:
        return wrong
    person = entitled(state, name, "dispose", now)
    if isinstance(person, Outcome):
        return person
    doer, did = not_by
    own = not_another(state, person.name, doer, "own-deviation", did)
    return own or _bad_concession(disposition, expires, now) or person


def _bad_concession(disposition: str, expires: str, now: datetime) -> Outcome | None:
    """What is wrong with the last day of a concession; None if it has none, or a good one."""
    if not expires.strip():
        return None
    if disposition not in CONCESSIONS:
        return refused("no-concession", f'only "{CONCESSIONS[0]}" and "{CONCESSIONS[1]}" can expire')
    return _bad_last_day(expires, now)


def _bad_last_day(expires: str, now: datetime) -> Outcome | None:
    try:
        last = date.fromisoformat(expires.strip())
    except ValueError:
        return refused("not-a-day", f'"{expires}" is no day; write it as 2027-03-31')
    if last < now.date():
        return refused("concession-expired", f"{last:%-d %B %Y} is past")
    return None


def _bad_words(word: str, known: tuple[str, ...], reason: str) -> Outcome | None:
    if word not in known:
        return refused("no-such-answer", f'"{word}" is none of: {", ".join(known)}')
    if not reason.strip():
        return refused("no-reason", "a decision needs a reason; write one line")
    return None


def correctable(state: State) -> Iterator[ActEvent]:
    """The last answers that can be corrected, latest first."""
    for event in reversed(state.recent):
        match event:
            case Measured() | Told() | Counted():
                if event.done or isinstance(event, Counted):
                    yield event
            case Answered():
                if event.question in state.hand and event.act == _act_in_hand(state):
                    yield event
            case RingFitted(groove=groove):
                if state.assembly.sealed.get(groove) and not state.assembly.closed(groove):
                    yield event
            case PositionTightened(group=group, position=position):
                hold = state.assembly.held.get(group)
                if hold is not None and hold.done and hold.done[-1] == position:
                    yield event


def _act_in_hand(state: State) -> str:
    from benchcheck.session.engine import next_act

    act = next_act(state)
    return act.id if act is not None else ""


def correct(state: State, event: int, reason: str, now: datetime) -> Result:
    """One of the last answers was wrong: it does not count, stays in the record, and is asked again."""
    if (not_now := _not_at_work(state)) is not None:
        return not_now
    found = next((each for each in correctable(state) if each.number == event), None)
    if found is None:
        return refused(
            "cannot-be-corrected", f"event {event} is none of the last answers; go back to it instead"
        )
    if not reason.strip():
        return refused("no-reason", "a correction needs a reason; write one line")
    thing = ""
    match found:
        case RingFitted(groove=groove):
            thing = groove
        case PositionTightened(group=group):
            thing = group
        case Counted(what=what):
            thing = what
    corrected = Corrected(event=event, act=found.act, was=found.kind, thing=thing, reason=reason.strip())
    return written(state, (corrected,), now)


def plan_back(state: State, target: str) -> Way | Outcome:
    """What it takes to reach a part, a group or the ring of a groove again. Nothing is undone by asking."""
    if not (target in state.pump.parts or target in state.pump.groups or target in state.pump.grooves):
        return refused("no-such-part", f'"{target}" is no part, group or groove of this pump')
    if is_free(state.assembly, target):
        return refused("not-in", f"{state.pump.the(target)} is not in: there is nothing to take off")
    plan = way(state, (target,))
    return Outcome(refusals=plan.refusals) if plan.refusals else plan


def go_back(state: State, target: str, reason: str, now: datetime) -> Result:
    """Begin to take things off until the target is free."""
    if (not_now := _not_at_work(state)) is not None:
        return not_now
    plan = plan_back(state, target)
    if isinstance(plan, Outcome):
        return plan
    if not reason.strip():
        return refused("no-reason", "going back needs a reason; write one line")
    return written(state, (WentBack(targets=(target,), off=plan.off, reason=reason.strip()),), now)


def move_on(state: State, now: datetime) -> Result:
    """The work follows the other text of its procedure from here."""
    if (over := _over(state)) is not None:
        return over
    if not state.technician:
        return refused("nobody-signed-on", "nobody is signed on", mend="sign on first")
    found = revisions.moving(state)
    return found if isinstance(found, Outcome) else written(state, (found.event,), now)


def remark(state: State, text: str, now: datetime) -> Result:
    """A word for the record. It changes nothing."""
    if (over := _over(state)) is not None:
        return over
    if not text.strip():
        return refused("nothing-answered", "an empty remark says nothing")
    return written(state, (Remark(text=text.strip()),), now)


def depart(state: State, what: str, reason: str, now: datetime) -> Result:
    """Something is not as written, though nothing was refused: a departure that waits for a decision."""
    if (not_now := _not_at_work(state)) is not None:
        return not_now
    if not reason.strip():
        return refused("no-reason", "a departure needs a reason; write one line")
    wrong = f"not as written{f', {what}' if what else ''}"
    event = departure(state, _act_in_hand(state), (NOT_AS_WRITTEN,), wrong, reason.strip())
    return written(state, (event,), now)


def sign_on(state: State, name: str, now: datetime) -> Result:
    """Another technician goes on."""
    if (over := _over(state)) is not None:
        return over
    person = entitled(state, name, "work", now)
    if isinstance(person, Outcome):
        return person
    return written(state, (arrival.signed_on(person, name),), now)


def sign_card(state: State, words: str, now: datetime) -> Result:
    """The one at work signs the handover card for whoever goes on, with a word for them."""
    card = handing_over.signature(state, words)
    return card if isinstance(card, Outcome) else written(state, (card,), now)


def stop(state: State, reason: str, now: datetime) -> Result:
    """Leave the pump as it is."""
    if (over := _over(state)) is not None:
        return over
    return written(state, (Stopped(reason=reason.strip()),), now)


def close(state: State, outcome: str, reason: str, now: datetime) -> Result:
    """End the session without a released pump."""
    if (over := _over(state)) is not None:
        return over
    if not state.technician:
        return refused("nobody-signed-on", "nobody is signed on", mend="sign on first")
    wrong = _bad_words(outcome, WITHOUT_RELEASE, reason)
    if wrong is not None:
        return wrong
    return written(state, (summary(state, outcome, reason=reason.strip()),), now)


def judge(
    state: State,
    outcome: str,
    name: str,
    reason: str,
    now: datetime,
    *,
    limit: str = "",
    expires: str = "",
    torn_bytes: int = 0,
    torn_file: str = "",
) -> Result:
    """A reviewer's word on a finished session: never on one's own work, never while anything is open.

    What was torn off the end of the record, by a reviewer's word that was being written, is named in it.
    """
    wrong = _bad_words(outcome, JUDGEMENTS, reason)
    if wrong is not None:
        return wrong
    if state.closed is None:
        return refused("record-is-open", "the work on this pump is not over")
    person = entitled(state, name, "review", now)
    if isinstance(person, Outcome):
        return person
    for each in state.closed.people:
        took = "took part in this work; another person judges it"
        if (own := not_another(state, person.name, each, "own-work", took)) is not None:
            return own
    if outcome.startswith("accepted") and state.open_deviations:
        return refused("deviation-open", "a deviation is not decided yet")
    if outcome == UNDER_CONCESSION:
        if not (limit.strip() and expires.strip()):
            return refused("no-limit", "a concession needs its limit and the day it expires")
        if (bad := _bad_last_day(expires, now)) is not None:
            return bad
    elif limit.strip() or expires.strip():
        return refused("no-concession", f'only "{UNDER_CONCESSION}" has a limit and a last day')
    event = Judged(
        outcome=outcome,
        name=person.name,
        reason=reason.strip(),
        limit=limit.strip(),
        expires=expires.strip(),
        torn_bytes=torn_bytes,
        torn_file=torn_file,
        keys=tuple(keyed(state, person.name)),
        **{claim: getattr(state.closed, claim) for claim in CLAIMS},
    )
    # A clock that went back is no event here: behind the closing one only a reviewer's word may stand.
    at = now.isoformat(timespec="milliseconds")
    return stamped((event,), after=state.number, at=at, by=person.name)
