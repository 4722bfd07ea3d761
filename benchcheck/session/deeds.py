"""What is done in a rehearsal besides answering: the commands of the bench, and what befalls it.

One departure does one of them, at the question it is due at. A pause lets the clock go on.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from benchcheck.session import commands, engine, kit, revisions, troubles
from benchcheck.session.changed_text import changed_text, name_of
from benchcheck.session.events import Deviation, Event, HaltLifted, TakenUp, WorkHalted
from benchcheck.session.fold import folded
from benchcheck.session.prompt import Outcome, refused
from benchcheck.session.rehearsal_file import Deed
from benchcheck.session.state import State

Came = tuple[Event, ...] | Outcome


@dataclass(frozen=True, slots=True)
class Done:
    """What comes of a deed."""

    came: Came
    state: State
    """That its events follow: as it was, but for a text that has come to hand."""
    now: datetime
    told: str = ""
    """What is said of it beside its events."""


def done(state: State, deed: Deed, reason: str, now: datetime) -> Done:
    """A deed, carried out by who is at work, or befalling the bench."""
    match deed.what:
        case "kit":
            return Done((), state, now, "\n".join(kit.told(state)))
        case "clock set on" | "clock set back":
            by = _pause(deed) if deed.what == "clock set on" else -_pause(deed)
            return Done((), state, now + by)
        case "stop" | "cut off":
            return _left(state, deed, reason, now)
        case "left alone":
            return _left_alone(state, now + _pause(deed))
        case "stop notice" | "withdrawn" | "may go on":
            return Done(_halted(state, deed.what, reason, now), state, now)
        case "new text":
            return _new_text(state, deed, now)
        case "wrench dropped":
            wrench = deed.wrench or troubles.wrench_in_hand(state)
            came = troubles.doubt_instrument(state, wrench, reason, now)
            return Done(came, state, now, _departed(came))
    return Done(_command(state, deed, reason, now), state, now)


def _command(state: State, deed: Deed, reason: str, now: datetime) -> Came:
    """One of the commands of the bench."""
    group = troubles.group_in_hand(state)
    name, decision = deed.name or "", deed.decision or ""
    concession = {"limit": deed.limit or "", "expires": deed.expires or ""}
    match deed.what:
        case "trouble":
            return troubles.trouble(state, deed.position, deed.felt or "", reason, now)
        case "another wrench":
            return troubles.change_wrench(state, reason, now)
        case "insert":
            limits = (deed.torque or "", deed.tolerance or "")
            return troubles.repair_position(state, group, deed.position, *limits, name, reason, now)
        case "remark":
            return commands.remark(state, reason, now)
        case "sign the card":
            return commands.sign_card(state, reason, now)
        case "sign on":
            return commands.sign_on(state, name, now)
        case "correct":
            last = next(commands.correctable(state), None)
            return commands.correct(state, last.number if last is not None else 0, reason, now)
        case "close":
            return commands.close(state, decision, reason, now)
        case "decide":
            waiting = state.open_deviations
            if not waiting:
                return refused("no-such-deviation", "no departure waits for a decision")
            number = waiting[-1].deviation
            return commands.dispose(state, number, decision, name, reason, now, **concession)
    decide: Callable[..., Came] = commands.dispose_position
    return decide(state, group, deed.position, decision, name, reason, now, **concession)


def _pause(deed: Deed) -> timedelta:
    return timedelta(seconds=deed.pause.si if deed.pause is not None else 0.0)


def _departed(came: Came) -> str:
    events = came if not isinstance(came, Outcome) else ()
    return "; ".join(each.wrong for each in events if isinstance(each, Deviation))


def _left(state: State, deed: Deed, reason: str, now: datetime) -> Done:
    """The pump is left, in an orderly way or not, and taken up again; what is to be read then is said."""
    stopped = commands.stop(state, reason, now) if deed.what == "stop" else ()
    if isinstance(stopped, Outcome):
        return Done(stopped, state, now)
    left = folded(state, stopped)
    then = now + _pause(deed)
    pause = int((then - now).total_seconds())
    taken_up = engine.written(left, (TakenUp(stopped=left.stopped, pause_seconds=pause),), then)
    return Done((*stopped, *taken_up), state, then, _to_be_read(left, folded(left, taken_up)))


def _left_alone(state: State, then: datetime) -> Done:
    """Nobody answers for a while, and the screen stays: what it writes of itself at the next look."""
    alone = engine.left_alone(state, then)
    events = engine.written(state, (alone,), then) if alone is not None else ()
    return Done(events, state, then, _to_be_read(state, folded(state, events)))


def _to_be_read(left: State, after: State) -> str:
    """What is read again after a pause, and which rounds begin again."""
    begun = [
        f"{after.pump.called(group)}: {len(hold.done)} positions of round {hold.rounds + 1} are done"
        for group, hold in after.assembly.held.items()
        if hold != left.assembly.held[group]
    ]
    return "\n".join((f"to be read again: {', '.join(after.read_again)}", *begun))


def _halted(state: State, what: str, reason: str, now: datetime) -> Came:
    """The shop stops the work by the text that is followed, or lets it go on."""
    head = state.job.procedure.procedure
    if what == "may go on":
        if not state.halted:
            return refused("nothing-halted", "nothing stops the work")
        return engine.written(state, (HaltLifted(why=state.halted),), now)
    why = revisions.under_notice(head, reason) if what == "stop notice" else revisions.withdrawn(head)
    return engine.written(state, (WorkHalted(why=why),), now)


def _new_text(state: State, deed: Deed, now: datetime) -> Done:
    """Another text of the procedure has come to hand; what moving on to it would bring about is said."""
    procedure = state.job.procedure
    text = changed_text(procedure, deed.of or "", deed.key_ or "", deed.to, deed.revision or "")
    if isinstance(text, Outcome):
        return Done(text, state, now)
    sha256 = name_of(text)
    told = revisions.differs(procedure, text, sha256)
    state = replace(state, job=replace(state.job, later={**state.job.later, sha256: text}))
    events = engine.written(state, (told,), now)
    consequences = revisions.consequences(folded(state, events))
    return Done(events, state, now, "\n".join((*told.differences, *consequences)))
