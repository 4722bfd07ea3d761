"""How a session ends: released, or closed without release, with the summary that lets records be listed
unread.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchcheck.assembly.acts import Verb
from benchcheck.session.events import Closed, Judged
from benchcheck.session.state import State

WITHOUT_RELEASE = ("scrapped", "returned unrepaired", "opened by mistake", "wrong serial")
"""The outcomes of a session that ends without a released pump; each wants a reason."""

CLAIMS = (
    "serial",
    "variant",
    "steps_done",
    "readings",
    "deviations",
    "voided",
    "wrenches",
    "gauges",
    "lots",
    "people",
)
"""What the closing event claims of the events before it, and a reviewer's word repeats."""


def summary(
    state: State, outcome: str, *, reason: str = "", second: str = "", last_step_done: bool = False
) -> Closed:
    """The closing event: a claim about all before it, worked out anew whenever the record is read."""
    from benchcheck.session.engine import steps_done

    people = state.people if not second or second in state.people else (*state.people, second)
    return Closed(
        outcome=outcome,
        reason=reason,
        second=second,
        serial=state.header.serial,
        variant=state.variant or "",
        steps_done=len(state.pump.steps) if last_step_done else steps_done(state),
        readings=state.readings,
        deviations=len(state.deviations),
        voided=state.voided,
        wrenches=state.wrenches_used,
        gauges=state.gauges_used,
        lots=state.lots,
        people=people,
        keys=tuple(keyed(state, state.technician, second)),
    )


def put_in_here(state: State) -> frozenset[str]:
    """Grooves filled and groups run in by this work; what else is in came in with the pump."""
    return frozenset(
        act.target
        for act in state.acts
        if act.verb in (Verb.FIT, Verb.START) and state.fact(act.id) is not None
    )


def keyed(state: State, *names: str) -> Iterator[str]:
    """Those of the people who have a registered key."""
    for name in dict.fromkeys(names):
        person = state.job.registers.people.find(name) if name else None
        if person is not None and person.public_key is not None:
            yield person.name


def agrees(state: State) -> tuple[str, ...]:
    """Where the summary of a closed record differs from what its events add up to; empty if it is true."""
    closed = state.closed
    if closed is None:
        return ()
    # Only the release signs the last step; without it the session ends where it stands.
    true = summary(
        state, closed.outcome, second=closed.second, last_step_done=closed.outcome not in WITHOUT_RELEASE
    )
    claims: list[tuple[str, Closed | Judged]] = [("the summary", closed)]
    if state.judged is not None and state.judged.serial:
        claims.append(("the reviewer's summary", state.judged))
    return tuple(
        f"{name}: {whose} says {getattr(claim, name)}, the events say {getattr(true, name)}"
        for whose, claim in claims
        for name in CLAIMS
        if getattr(claim, name) != getattr(true, name)
    )
