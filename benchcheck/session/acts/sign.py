"""Sign: a second person agrees; at the end, the pump is released, and only when nothing stands against it."""

from __future__ import annotations

from datetime import date, datetime

from benchcheck.assembly import guard
from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.procedure.model import Phase
from benchcheck.session.acts import questions as asked
from benchcheck.session.acts.wrenches import today
from benchcheck.session.clocks import running
from benchcheck.session.closing import summary
from benchcheck.session.events import Closed, Signed
from benchcheck.session.prompt import Form, Outcome, Prompt
from benchcheck.session.state import State


def _is_release(act: Act) -> bool:
    return act.phase is Phase.RELEASE


def stands_against(state: State, act: Act, now: datetime) -> tuple[Refusal, ...]:
    """Everything that stands between the pump and its release."""
    from benchcheck.session.engine import open_acts

    found: list[Refusal] = []
    found += (
        Refusal(
            "step-left-open",
            f"{other.step.id} is not done",
            mend=f"do {other.step.id}",
            step=other.step.id,
            passable=False,
        )
        for other in open_acts(state)
        if other.id != act.id
    )
    found += guard.stands_against_release(state.assembly)
    found += (
        Refusal(
            "deviation-open",
            f"deviation {each.deviation} is not decided: {each.wrong}",
            mend="another, entitled person disposes of it",
            passable=False,
        )
        for each in state.open_deviations
    )
    found += (
        Refusal(
            "concession-expired",
            f"what was decided on deviation {each.deviation} held until {each.expires}",
            mend="an entitled person decides on it anew",
            passable=False,
        )
        for each in state.dispositions.values()
        if each.expires and date.fromisoformat(each.expires) < today(state, now)
    )
    found += (
        Refusal(
            "concession-expired",
            f"what was decided on position {position} of {state.pump.the(group)} held until {each.expires}",
            mend="an entitled person decides on it anew, or the group is begun again",
            passable=False,
        )
        for (group, position), each in state.positions_disposed.items()
        if each.expires
        and date.fromisoformat(each.expires) < today(state, now)
        and group in state.assembly.held
        and position in state.assembly.held[group].disposed
    )
    found += (
        Refusal("clock-still-runs", f"{rule.called} is not over", mend="wait", passable=False)
        for rule, _ in running(state, now)
    )
    found += (
        Refusal(
            "suspect-not-cleared",
            f"{state.pump.the(each)} was doubted and not fitted anew",
            mend=f"go back to {state.pump.the(each)}",
            off=each,
            passable=False,
        )
        for each in state.suspects
    )
    if state.pump.procedure.procedure.variants and not state.variant_proved:
        found.append(Refusal("variant-not-proved", "which variant this is was never proved", passable=False))
    return tuple(found)


def ask(state: State, act: Act, now: datetime) -> Prompt:
    release = _is_release(act)
    against = stands_against(state, act, now) if release else ()
    name = act.step.name or act.step.id
    return Prompt(
        question="second",
        form=Form.WORDS,
        verb="RELEASE" if release and not against else "NOT YET" if release else "HOLD POINT",
        ask=f"{name}: name of the second person who " + ("releases this pump" if release else "agrees"),
        enter="records both names" + (" and releases the pump" if release else ""),
        notes=tuple(each.wrong for each in against) or _decided(state, act),
    )


def _decided(state: State, act: Act) -> tuple[str, ...]:
    """What was decided so far, for the second person to agree to."""
    if _is_release(act):
        return ()
    return tuple(f"{name}: {value}" for name, value in state.verdicts.items())


def take(state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome:
    name = asked.second_person(state, answer, "release" if _is_release(act) else "witness", now)
    if isinstance(name, Outcome):
        return name
    if not _is_release(act):
        return Outcome((Signed(act=act.id, done=True, second=name),))
    against = stands_against(state, act, now)
    if against:
        return Outcome((), against)
    outcome = "practice ended" if state.header.practice else "released"
    closed: Closed = summary(state, outcome, second=name, last_step_done=True)
    return Outcome((Signed(act=act.id, second=name), closed))


def careful(state: State, act: Act, prompt: Prompt, now: datetime) -> str:
    return asked.careful_second(state, "release" if _is_release(act) else "witness", now)
