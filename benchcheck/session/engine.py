"""What is asked next, and what an answer brings about.

`ask` gives one prompt for a state and a time; `answer` gives events or a refusal and changes nothing. A
prompt's name holds the number of the last event, so an answer to a prompt that is no longer asked is
refused. Writing the events down, and only then folding them, is the caller's part.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from importlib import import_module
from itertools import takewhile
from typing import Protocol, cast

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.planned import goes_on, rounds_of
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.way_back import is_free
from benchcheck.procedure.model import Phase, Step
from benchcheck.session import arrival
from benchcheck.session.clocks import barring, too_late
from benchcheck.session.events import (
    Answered,
    ClockWentBack,
    Corrected,
    Deviation,
    Event,
    LeftOut,
    SignedOff,
    TakenUp,
    stamped,
)
from benchcheck.session.going_back import BACK, BUILDING, next_back, went_back
from benchcheck.session.leaning import step_of
from benchcheck.session.prompt import Form, Outcome, Prompt, refused
from benchcheck.session.state import State, local_end

CLOCK_SLACK = timedelta(seconds=2)
"""A clock that steps back by less is only being set right."""


class ActModule(Protocol):
    """What each module of `session/acts` offers."""

    def ask(self, state: State, act: Act, now: datetime) -> Prompt: ...
    def take(self, state: State, act: Act, prompt: Prompt, answer: str, now: datetime) -> Outcome: ...
    def careful(self, state: State, act: Act, prompt: Prompt, now: datetime) -> str: ...


def module_of(act: Act) -> ActModule:
    """The module of an act: found by the name of its verb."""
    return cast(ActModule, import_module(f"benchcheck.session.acts.{act.verb.value}"))


@dataclass(frozen=True, slots=True)
class Takeover:
    """A person takes a refusal over."""

    reason: str


# ---------------------------------------------------------------------- which act


def applies(state: State, step: Step) -> bool:
    """Whether the verdicts so far call for a step."""
    return all(state.verdicts.get(name) == value for name, value in step.if_.items())


def passed_over(state: State, act: Act) -> bool:
    """Whether what the act would bring about stands already, so that it is not asked.

    A part that was never taken out is still in; a group that was never loosened still holds.
    """
    now = state.assembly
    match act.verb:
        case Verb.INSTALL:
            return act.target in now.seated or _tool_not_needed(state, act)
        case Verb.FIT:
            return bool(now.living_rings(act.target)) and act.id not in state.facts
        case Verb.START:
            return act.target in now.held
        case Verb.TIGHTEN:
            hold = now.held.get(act.target)
            if hold is None or (hold.passed and not _started_here(state, act.target)):
                return hold is not None
            return bool(hold.disposed) and _is_through(state, act)
        case Verb.REMOVE:
            return act.target not in now.seated or _put_in_since(state, act)
        case Verb.LIFT:
            return not now.sealed.get(act.target) or _put_in_since(state, act)
        case Verb.LOOSEN:
            return act.target not in now.held or _put_in_since(state, act)
    return False


def _tool_not_needed(state: State, act: Act) -> bool:
    """Whether an act would put on a tool for nothing.

    It was on when its turn came, and its own step has taken it off since; or all that is to go in with its
    help is in already.
    """
    pump = state.pump
    if act.id in state.facts or not pump.parts[act.target].temporary or act.phase not in BUILDING:
        return False
    helped = {part.id for part in pump.parts.values() if part.under == act.target}
    helped |= set(pump.parts[act.target].holds)
    later = state.acts[state.acts.index(act) + 1 :]
    to_come = {other.target for other in later if other.verb is Verb.INSTALL and other.target in helped}
    return (bool(to_come) and to_come <= state.assembly.seated.keys()) or any(
        other.verb is Verb.REMOVE and other.target == act.target and other.phase in BUILDING
        for other in later
        if state.fact(other.id) is not None
    )


def _put_in_since(state: State, act: Act) -> bool:
    """Whether what teardown was to take off, and found off already, was put in anew: then it stays."""
    return act.phase in (Phase.TEARDOWN, Phase.INSPECTION) and any(
        other.verb in (Verb.INSTALL, Verb.FIT, Verb.START)
        and other.target == act.target
        and other.phase in BUILDING
        for other in state.acts
        if other.id in state.facts
    )


def _is_through(state: State, act: Act) -> bool:
    """Whether all that a tightening does is done: the last of it may have been disposed of by name."""
    hold = state.assembly.held[act.target]
    last = act.step.round or rounds_of(state.pump, act.target)
    return hold.passed if goes_on(state.pump, act) else hold.rounds >= last


def _started_here(state: State, group: str) -> bool:
    return any(
        act.verb is Verb.START and act.target == group and state.fact(act.id) is not None
        for act in state.acts
    )


def is_done(state: State, act: Act) -> bool:
    return state.fact(act.id) is not None or passed_over(state, act)


def open_acts(state: State) -> Iterator[Act]:
    """The acts still to do, in file order."""
    for act in state.acts:
        if applies(state, act.step) and not is_done(state, act):
            yield act


def first_open(state: State) -> Act | None:
    """The first act that is still to do."""
    return state.once("first open act", lambda: next(open_acts(state), None))


def next_act(state: State) -> Act | None:
    """The act in hand: what has to come off before all else, or the first that is open."""
    return state.once("act in hand", lambda: next_back(state) or first_open(state))


def steps_done(state: State) -> int:
    """How many steps lie before the first that is open."""
    first = first_open(state)
    if first is None:
        return len(state.pump.steps)
    return next(place for place, step in enumerate(state.pump.steps) if step.id == first.step.id)


# ---------------------------------------------------------------------- asking


def ask(state: State, now: datetime) -> Prompt | None:
    """The prompt for this state at this time; None when the session is closed."""
    if state.closed is not None:
        return None
    prompt = arrival.ask(state)
    if prompt is None:
        act = next_act(state)
        if act is None:
            return None
        prompt = _act_prompt(state, act, now)
    if state.spelt:
        prompt = replace(
            prompt, notes=(f'"{state.spelt}" is taken for {state.technician} of the register', *prompt.notes)
        )
    return replace(prompt, id=f"{state.number}:{prompt.act}:{prompt.question}")


def idle(state: State, now: datetime) -> timedelta | None:
    """How long nothing was done, if that is long enough to ask again who works.

    A clock that still runs is left on show; where one waited for it, the time counts, but not where a value
    had to be watched.
    """
    if state.at is None or state.closed is not None or not state.technician:
        return None
    limit = timedelta(seconds=float(state.job.registers.shop.idle.si))
    if now - state.at <= limit:
        return None
    since, prompt = state.at, ask(state, now)
    if prompt is not None and prompt.until is not None:
        if prompt.until > now:
            return None
        if prompt.form is not Form.WAIT:
            since = max(since, prompt.until)
    return now - since if now - since > limit else None


def long_pause(state: State, now: datetime) -> timedelta | None:
    """How long nothing was answered, if that is long enough to read things anew.

    Time that a clock made the technician wait does not count, nor what was left in an orderly way.
    """
    if state.at is None or state.closed is not None or not state.technician or state.read_again:
        return None
    since, limit = state.at, timedelta(seconds=state.pump.procedure.procedure.long_pause.si)
    if now - since <= limit:
        return None
    prompt = ask(state, since)
    if prompt is not None and prompt.until is not None:
        since = max(since, prompt.until)
    return now - since if now - since > limit else None


def left_alone(state: State, now: datetime) -> TakenUp | SignedOff | None:
    """What is written before the next question, if nothing was answered for long; else None."""
    if (pause := long_pause(state, now)) is not None:
        return TakenUp(stopped=False, pause_seconds=int(pause.total_seconds()))
    if (away := idle(state, now)) is not None:
        return SignedOff(name=state.technician, idle_seconds=int(away.total_seconds()))
    return None


def _act_prompt(state: State, act: Act, now: datetime) -> Prompt:
    barred = barring(state, act, now)
    if barred is not None:
        rule, end = barred
        return Prompt(
            question="clock",
            form=Form.WAIT,
            verb="WAIT",
            ask=f"{rule.called}: not before {local_end(state, end)}",
            enter="asks the time again",
            act=act.id,
            step=act.step.id,
            until=end,
            empty="",
        )
    prompt = _outside_prompt(state, act) if state.outside else module_of(act).ask(state, act, now)
    cautions = tuple(
        caution
        for caution in state.job.procedure.caution
        if act.step.id in caution.before or (not caution.before and state.acts[0].id == act.id)
    )
    notes = (*_passed_over_before(state, act), *prompt.notes)
    if act.step.text:
        prompt = replace(prompt, do=(*prompt.do, act.step.text))
    return replace(prompt, act=act.id, step=act.step.id, cautions=cautions, notes=notes)


def _passed_over_before(state: State, act: Act) -> tuple[str, ...]:
    """The acts just before this one that are passed over, said in words."""
    notes: list[str] = []
    before = takewhile(lambda each: each.id != act.id, state.acts)
    if state.act(act.id) is None:  # an act of going back has no place in the file
        return ()
    for earlier in reversed(tuple(before)):
        if earlier.verb is not Verb.INSTALL or state.fact(earlier.id) is not None:
            break
        if applies(state, earlier.step) and passed_over(state, earlier):
            notes.append(
                f"{earlier.step.id} is passed over: {state.pump.the(earlier.target)} was never taken off"
            )
    return tuple(reversed(notes))


def _outside_prompt(state: State, act: Act) -> Prompt:
    from benchcheck.session.acts import outside

    return outside.ask(state, act)


# ---------------------------------------------------------------------- answering


def answer(
    state: State, prompt_id: str, text: str, now: datetime, *, over: Takeover | None = None
) -> tuple[Event, ...] | Outcome:
    """The events an answer brings about, ready to be written; or the outcome that refuses it."""
    prompt = ask(state, now)
    if prompt is None or prompt.id != prompt_id:
        return refused("no-longer-asked", "that is no longer asked; look at what is asked now")
    return answer_asked(state, prompt, text, now, over=over)


def answer_asked(
    state: State, prompt: Prompt, text: str, now: datetime, *, over: Takeover | None = None
) -> tuple[Event, ...] | Outcome:
    """The same for the prompt itself, which `ask` gave for this state and this very moment."""
    outcome = _taken(state, prompt, text.strip(), now)
    if outcome.refused:
        if over is None or not outcome.passable or not outcome.events:
            return outcome
        events = (deviation(state, prompt, outcome.refusals, over.reason), *outcome.events)
    else:
        events = outcome.events
    return written(state, events, now)


def written(state: State, events: tuple[Event, ...], now: datetime) -> tuple[Event, ...]:
    """The events with number, time and person; a clock that went back is an event of its own before them."""
    if state.at is not None and now < state.at - CLOCK_SLACK:
        events = (ClockWentBack(seconds=int((state.at - now).total_seconds())), *events)
    return stamped(events, after=state.number, at=now.isoformat(timespec="milliseconds"), by=state.technician)


def _taken(state: State, prompt: Prompt, text: str, now: datetime) -> Outcome:
    if text == "" and prompt.empty is None:
        return refused("nothing-answered", f"nothing was answered; {prompt.ask}")
    if prompt.form is Form.CHOICE:
        chosen = _choice(prompt, text)
        if chosen is None:
            known = ", ".join(each.value for each in prompt.choices)
            return refused("no-such-answer", f'"{text}" is none of the answers: {known}')
        text = chosen
    if prompt.question == "clock":
        return Outcome(refusals=(Refusal("clock-still-runs", prompt.ask, mend="wait", passable=False),))
    if not prompt.act:
        return arrival.take(state, prompt, text, now)
    act = next_act(state)
    assert act is not None
    if prompt.question == "outside":
        from benchcheck.session.acts import outside

        return outside.take(state, act, text)
    late = too_late(state, act, now)
    outcome = module_of(act).take(state, act, prompt, text, now)
    if outcome.refused and not outcome.mend:
        outcome = replace(outcome, mend=_mend(state, outcome.refusals))
    missing = _after(state, act)
    extra = list(missing)
    if late is not None:
        extra.append(
            Refusal("clock-ran-out", f"{late.called} ran out before this: {late.because}".rstrip(": "))
        )
    if extra and not any(isinstance(event, Answered) for event in outcome.events):
        return replace(outcome, refusals=(*extra, *outcome.refusals))
    return outcome


def _mend(state: State, refusals: tuple[Refusal, ...]) -> tuple[Event, ...]:
    """The way that mends: what was left out or is off and is needed after all, or what has to be reached."""
    steps = {refusal.step for refusal in refusals if refusal.step}
    needed = tuple(
        Corrected(event=fact.event, act=act.id, was=LeftOut.kind, reason="needed after all")
        for act in state.acts
        if act.step.id in steps and (fact := state.fact(act.id)) is not None
        if fact.left_out or (act.verb in (Verb.INSTALL, Verb.FIT) and is_free(state.assembly, act.target))
    )
    in_place = (each for each in refusals if each.off and not is_free(state.assembly, each.off))
    first = next(in_place, None)
    if needed or first is None:
        return needed
    return (went_back(state, (first.off,), first.wrong),)


def _choice(prompt: Prompt, text: str) -> str | None:
    """A choice by its value, or by its number as shown."""
    for each in prompt.choices:
        if each.value.casefold() == text.casefold():
            return each.value
    if text.isascii() and text.isdigit() and 1 <= int(text) <= len(prompt.choices):
        return prompt.choices[int(text) - 1].value
    return None


def _after(state: State, act: Act) -> tuple[Refusal, ...]:
    """Steps the author wants done before this one, and that do not stand."""
    found = []
    for name in act.step.after:
        if any(each.step.id == name for each in open_acts(state)):
            found.append(
                Refusal(
                    "step-before-its-time",
                    f"{name} has to stand before {act.step.id}, and does not",
                    mend=f"do {name} first",
                    step=name,
                )
            )
    return tuple(found)


# ---------------------------------------------------------------------- departing from the procedure


def deviation(state: State, prompt: Prompt, refusals: tuple[Refusal, ...], reason: str) -> Deviation:
    return departure(
        state,
        prompt.act,
        tuple(each.rule for each in refusals),
        "; ".join(each.wrong for each in refusals),
        reason,
    )


def departure(state: State, act: str, rules: tuple[str, ...], wrong: str, reason: str) -> Deviation:
    """The next deviation of the session, with the earlier ones that it repeats."""
    step = step_of(act)
    again = tuple(
        each.deviation
        for each in state.deviations
        if set(each.rules) & set(rules) or (step and step_of(each.act) == step)
    )
    return Deviation(
        deviation=len(state.deviations) + 1, act=act, rules=rules, wrong=wrong, reason=reason, again=again
    )


LEFT_OUT = "act-left-out"
"""The rule of an act that stands undone."""
NEVER_LEFT_OUT = (Verb.WAIT, Verb.WITNESS, Verb.SIGN, Verb.TIGHTEN, Verb.START)


def leave_out(state: State, reason: str, now: datetime) -> tuple[Event, ...] | Outcome:
    """The act in hand is left out under a deviation, where that may be."""
    act = next_act(state)
    if act is None or state.closed is not None or state.read_again or state.halted or not state.technician:
        return refused("nothing-to-leave-out", "there is no act in hand to leave out")
    if not reason.strip():
        return refused("no-reason", "a departure needs a reason; write one line")
    owed = act.step.id == BACK and not state.reaching
    if act.step.cannot_pass or act.verb in NEVER_LEFT_OUT or owed:
        return refused("may-not-be-left-out", f"{act.step.id} may not be left out by anyone")
    event = departure(state, act.id, (LEFT_OUT,), f"{act.step.id} was left out", reason.strip())
    left = LeftOut(act=act.id, done=True, deviation=event.deviation)
    return written(state, (event, left), now)
