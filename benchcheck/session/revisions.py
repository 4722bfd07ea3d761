"""Another text of its procedure, met by a session under way: told, and then moved on to, or not.

A session follows the text it was opened with. Whether the workspace holds another is for the store to find;
here is what moving on would void and take off, shown before it is done, and what the work is once it is.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchcheck.assembly.clocks import clock_rules
from benchcheck.assembly.comparison import compare
from benchcheck.assembly.confirmations import confirmations, without_place
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.way_back import is_free
from benchcheck.procedure.model import Head, Procedure
from benchcheck.session.events import HaltLifted, MovedOn, ProcedureDiffers, StayedOn, WorkHalted
from benchcheck.session.going_back import Way, stands, way
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, refused
from benchcheck.session.state import Fact, State

MOVE, STAY = "move on", "stay"
HALTED, TEXT = "halted", "procedure"
QUESTIONS = (HALTED, TEXT)

MOST_DIFFERENCES = 60
"""A record does not need more of them than anyone reads; both texts are kept beside it."""


def under_notice(head: Head, because: str) -> str:
    """Why no work goes on by a revision that the shop has a stop notice on."""
    return f"the shop has a stop notice on {head.id} revision {head.revision}: {because}"


def withdrawn(head: Head) -> str:
    """Why no work goes on by a revision that is withdrawn."""
    return f"{head.id} revision {head.revision} is withdrawn"


def differs(procedure: Procedure, other: Procedure, sha256: str) -> ProcedureDiffers:
    """What tells a record of another text than the one that is followed."""
    told = [each.as_text() for each in compare(procedure, other).differences]
    if len(told) > MOST_DIFFERENCES:
        more = len(told) - MOST_DIFFERENCES
        told[MOST_DIFFERENCES:] = [f"and {more} more: `benchcheck compare` tells all"]
    return ProcedureDiffers(
        revision=other.procedure.revision, procedure_sha256=sha256, differences=tuple(told)
    )


@dataclass(frozen=True, slots=True)
class Moving:
    """What moving on to the other text brings about."""

    event: MovedOn
    way: Way
    """What then has to come off before the work goes on."""


def offered(state: State) -> ProcedureDiffers | None:
    """The other text that the work could go on by."""
    offer = state.offer
    return offer if offer is not None and offer.procedure_sha256 in state.job.later else None


def moving(state: State) -> Moving | Outcome:
    """What moving on would do, gone ahead on a copy; or why it cannot be done."""
    return state.once("moving on", lambda: _moving(state))


def _moving(state: State) -> Moving | Outcome:
    from benchcheck.session.fold import fold

    offer = offered(state)
    if offer is None:
        return refused("no-other-text", "there is no other text of this procedure to move on to")
    head = state.job.later[offer.procedure_sha256].procedure
    if head.variants and state.variant not in head.variants:
        return refused("variant-not-there", f"revision {offer.revision} knows no variant {state.variant}")
    old, new = state.pump, state.job.by(offer.procedure_sha256).pump(state.variant)
    misplaced = tuple(
        Refusal(
            "no-place-in-that-text",
            f"{old.the(thing)} is in the pump, and could not stand there by revision {offer.revision}: {why}",
            mend=f"stay, take {old.the(thing)} off by the present text, then move on",
            passable=False,
        )
        for thing, why in without_place(state.assembly, new)
    )
    if misplaced:
        return Outcome(refusals=misplaced)
    kept = set(confirmations(old, new)[0])
    standing = [act.id for act in state.acts if state.fact(act.id) is not None]
    unproved = (
        act.id
        for act in state.job.by(offer.procedure_sha256).acts(state.variant).values()
        if act.id not in kept and stands(state.assembly, act)
    )
    void = (*(name for name in standing if name not in kept), *unproved)
    event = MovedOn(
        revision=offer.revision,
        procedure_sha256=offer.procedure_sha256,
        kept=sum(name in kept for name in standing),
        void=tuple(dict.fromkeys(void)),
        silenced=tuple(each.words for each in new.procedure.silence),
    )
    at = state.at.isoformat() if state.at is not None else state.header.opened
    ahead = fold(state, replace(event, number=state.number + 1, at=at))
    return Moving(event, way(ahead, ()))


# ---------------------------------------------------------------------- asked on arrival


def ask(state: State) -> Prompt | None:
    """What is asked before the work where it is stopped, or another text was found; else None."""
    offer = offered(state)
    if state.halted and (offer is None or isinstance(moving(state), Outcome)):
        return Prompt(
            question=HALTED,
            form=Form.CONFIRM,
            verb="STOP",
            ask=f"no work on this pump now: {state.halted}",
            enter="asks again whether it may go on",
            notes=("leave it as it is, or end it without release",),
            empty="",
        )
    if offer is None or (state.offer_answered and not state.halted):
        return None
    head = state.job.procedure.procedure
    stay = Choice(STAY, f"stay on revision {head.revision}, as this pump was begun; it is recorded")
    found = moving(state)
    can_move = not isinstance(found, Outcome)
    words = f"move on to revision {offer.revision}; what it voids is asked again"
    move = Choice(MOVE, words, serves=can_move)
    return Prompt(
        question=TEXT,
        form=Form.CHOICE,
        verb="STOP" if state.halted else "NEW TEXT",
        ask=_what_differs(state, offer),
        enter="records it",
        choices=tuple(each for each in (move, stay) if each.serves and not (state.halted and each is stay)),
        notes=(*consequences(state), *offer.differences),
    )


def _what_differs(state: State, offer: ProcedureDiffers) -> str:
    head = state.job.procedure.procedure
    if state.halted:
        return f"no work by the present text: {state.halted}. Revision {offer.revision} is there"
    if offer.revision == head.revision:
        return f"revision {head.revision} in the workspace reads otherwise than this pump was begun by"
    return f"this pump was begun by revision {head.revision}; the workspace has revision {offer.revision} now"


def consequences(state: State) -> tuple[str, ...]:
    """What moving on would keep, void and take off, in sentences; or why it cannot be done."""
    found = moving(state)
    if isinstance(found, Outcome):
        return tuple(f"moving on is not possible: {each.wrong}; {each.mend}" for each in found.refusals)
    event, comes = found.event, found.way
    told = [f"moving on keeps {event.kept} confirmations and voids {len(event.void)}"]
    if event.void:
        told[0] += f": {', '.join(dict.fromkeys(name.partition('/')[0] for name in event.void))}"
    costs = (
        ("then comes off, in this order: ", comes.off),
        ("is scrap then: ", comes.dies),
        ("the kit is then short of ", tuple(each.piece for each in comes.short)),
    )
    for words, things in costs:
        if things:  # a nut is a part, and a group of one
            told.append(words + ", ".join(dict.fromkeys(map(state.pump.called, things))))
    return tuple(told)


def take(state: State, text: str) -> Outcome:
    """What an answer on arrival brings about."""
    if text == STAY and not state.halted:
        offer = offered(state)
        assert offer is not None
        kept = state.job.procedure.procedure.revision
        return Outcome((StayedOn(revision=kept, procedure_sha256=offer.procedure_sha256),))
    found = moving(state)
    if text == MOVE:
        return found if isinstance(found, Outcome) else Outcome((found.event,))
    stopped = Refusal("work-stopped", state.halted, mend="leave it as it is", passable=False)
    return Outcome(refusals=(stopped,))


# ---------------------------------------------------------------------- what the events make of the state


def halted(state: State, event: WorkHalted | HaltLifted) -> State:
    return replace(state, halted=event.why if isinstance(event, WorkHalted) else "")


def told(state: State, event: ProcedureDiffers | StayedOn) -> State:
    if isinstance(event, StayedOn):
        return replace(state, offer_answered=True)
    return replace(state, offer=event, offer_answered=False)


def moved(state: State, event: MovedOn) -> State:
    """The same work under the other text: what it voids does not count; what it does not know is gone."""
    job = state.job.by(event.procedure_sha256)
    pump, acts = job.pump(state.variant), job.acts(state.variant)
    facts = {name: fact for name, fact in state.facts.items() if name in acts}
    for name in event.void:
        if name in facts:
            facts[name] = replace(facts[name], void=True)
        elif name in acts and stands(state.assembly, acts[name]):
            facts[name] = Fact(event.number, void=True)
    rules = {rule.id for rule in clock_rules(pump)}
    things = pump.parts.keys() | pump.groups.keys() | pump.grooves.keys()
    now = state.assembly
    poses = {work: end for work, end in now.poses.items() if work in pump.parts and end in pump.ends(work)}
    return replace(
        state,
        job=job,
        text=event.procedure_sha256,
        assembly=replace(now, pump=pump, poses=poses),
        facts=facts,
        voided=state.voided + sum(state.fact(name) is not None for name in event.void),
        clocks={name: clock for name, clock in state.clocks.items() if name in rules},
        reaching=tuple(each for each in state.reaching if each in things and not is_free(now, each)),
        suspects=tuple(each for each in state.suspects if each in things),
        repaired={place: limits for place, limits in state.repaired.items() if place[0] in pump.groups},
        hand={},
        outside="",
        wrenches={},
        recent=(),
        offer=None,
        offer_answered=False,
        halted="",
    )
