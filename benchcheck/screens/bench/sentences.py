"""The sentences over the work, and the ruler: which pump, where, how it lies; who, and what is saved."""

from __future__ import annotations

from datetime import datetime

from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import Fit, Phase, Step, StepAct
from benchcheck.screens.bench.view import View
from benchcheck.screens.widgets.bands import Clause, Sentence
from benchcheck.screens.widgets.cells import Line, shorten_in_the_middle
from benchcheck.screens.widgets.ruler import draw_ruler
from benchcheck.session.clocks import running
from benchcheck.session.engine import steps_done
from benchcheck.session.going_back import BACK
from benchcheck.session.state import State

_NAME_CELLS = 24
_DEEDS = {Fit.SLIDE: "put in", Fit.PRESS: "press in", Fit.HEAT: "fit hot"}


def step_number(state: State, step: str) -> int | None:
    """Place of a step among the steps of this variant, from 1; None for none of them."""
    return next((number for number, each in enumerate(state.pump.steps, 1) if each.id == step), None)


def step_words(pump: Pump, step: Step) -> str:
    """What a step is called: its own name, or what it does."""
    if step.name:
        return step.name
    things = [pump.the(each) for each in (*step.all_parts, *step.off) if each in pump.parts]
    if step.act is StepAct.INSTALL and things:
        return f"{_DEEDS[pump.parts[step.all_parts[0]].fit]} {_in_a_row(things)}"
    if step.act is StepAct.REMOVE and things:
        return f"take off {_in_a_row(things)}"
    if step.rings:
        return f"fit the ring{'s' if len(step.rings) > 1 else ''} of {_in_a_row(list(step.rings))}"
    if step.group in pump.groups:
        group = pump.the(step.group)
        if step.act is StepAct.START:
            return f"run in {group}"
        return f"tighten {group}" + (f", round {step.round}" if step.round else "")
    if step.act is StepAct.SIGN:
        return "release" if step.phase is Phase.RELEASE else "sign"
    return step.id


def _in_a_row(things: list[str]) -> str:
    """The first and the last of several things."""
    return things[0] if len(things) == 1 else f"{things[0]} to {things[-1]}"


def which_pump(view: View) -> list[Sentence]:
    """Sentence one."""
    state, head = view.state, view.state.job.procedure.procedure
    model = view.words(f"{head.id.upper()}{state.variant or ''}")
    serial = _clause(view.words(f"Pump {state.header.serial}"))
    practice = [Clause(("practice",), loud=True)] if state.header.practice else []
    return [
        (
            *practice,
            serial,
            Clause((model,), drop_rank=1),
            Clause(
                (view.words(f"revision {head.revision}"), view.words(f"rev. {head.revision}")), drop_rank=0
            ),
        ),
        _where(view),
        *_how_it_lies(view),
    ]


def _where(view: View) -> Sentence:
    state, step = view.state, view.prompt.step
    if state.closed is not None:
        ended = f"{state.outcome[:1].upper()}{state.outcome[1:]}"
        if state.at is None:
            return (Clause((ended,)),)
        at = view.local(state.at)
        return (Clause((f"{ended} {at:%A %-d %B %Y, %H:%M}", f"{ended} {at:%-d %b %Y, %H:%M}")),)
    number = step_number(state, step)
    if number is None:
        if step == BACK:
            return (Clause(("Going back, before the work goes on", "Going back")),)
        return (Clause((f"{steps_done(state)} of {len(state.pump.steps)} steps done",)),)
    told = state.pump.steps[number - 1]
    place = f"step {number} of {len(state.pump.steps)}"
    phase = told.phase.value.capitalize()
    name = view.words(step_words(state.pump, told))
    return (
        Clause(
            (
                f"{phase}, {place}: {name[:1].lower() + name[1:]}",
                f"{phase}, {place}",
                place[:1].upper() + place[1:],
            )
        ),
    )


def _how_it_lies(view: View) -> list[Sentence]:
    """How the work in hand lies: the work that the prompt is about, else the main one."""
    state = view.state
    pump, poses = state.pump, state.assembly.poses
    target = view.prompt.target
    carrier = pump.grooves[target].in_ if target in pump.grooves else target
    if target in pump.groups:
        carrier = pump.groups[target].into
    elif carrier in pump.parts and carrier not in state.assembly.seated and pump.parts[carrier].into:
        carrier = pump.parts[carrier].into or carrier
    work = state.assembly.root(carrier) if carrier in pump.parts else pump.main
    end = poses.get(work)
    if not end:
        return []
    lies = pump.procedure.procedure.lies and work == pump.main
    how = "faces you" if lies else "is up"
    long = view.words(f"The {end} of {pump.the(work)} {how}")
    short = view.words(f"{end[:1].upper()}{end[1:]} {how}")
    return [(_clause(long, short),)]


def _clause(*forms: str) -> Clause:
    return Clause((*forms, shorten_in_the_middle(forms[-1], _NAME_CELLS)))


def who_and_what(view: View) -> list[Sentence]:
    """Sentence two."""
    state = view.state
    bench = view.words(state.job.registers.shop.bench)
    wrench = next((note for note in view.prompt.notes if note.startswith("with ")), "")
    name = view.words(state.technician) or "Nobody has signed on"
    if not state.technician:
        who = Clause((name,))
    elif wrench:
        who = Clause((f"{name} {view.words(wrench)}", name))
    else:
        who = Clause((f"{name} at {bench}", name))
    saved: Sentence = (Clause((f"Event {state.number}",)),)
    if state.at is not None:
        saved = (
            Clause((f"Saved {view.local(state.at):%H:%M:%S}", "Saved"), drop_rank=0),
            Clause((f"event {state.number}",)),
        )
    return [(who,), (_clocks(view),), (_deviations(state),), saved]


def _clocks(view: View) -> Clause:
    clocks = running(view.state, view.now)
    if not clocks and not view.prompt.until:
        return Clause(("No clock runs",), drop_rank=2)
    ends = [end for _, end in clocks] or [view.prompt.until or view.now]
    count = f"{len(ends)} clock{'s' if len(ends) > 1 else ''}"
    run = "run" if len(ends) > 1 else "runs"
    until = day_and_time(view.local(min(ends)), view.local(view.now))
    return Clause((f"{count} {run} until {until}", f"{count} {run}"), loud=True)


def day_and_time(moment: datetime, now: datetime) -> str:
    """A time of day, with its day where that is not today."""
    return f"{moment:%H:%M}" if moment.date() == now.date() else f"{moment:%a %-d %b, %H:%M}"


def _deviations(state: State) -> Clause:
    count = len(state.open_deviations)
    if not state.deviations:
        return Clause(("No deviation",), drop_rank=3)
    if not count:
        decided = len(state.deviations)
        return Clause((f"{decided} deviation{'s' if decided > 1 else ''}, decided",), drop_rank=3)
    s, are = ("s", "are") if count > 1 else ("", "is")
    return Clause((f"{count} deviation{s} {are} open", f"{count} deviation{s}"), loud=True)


def ruler(view: View) -> Line:
    """How far the work is."""
    steps = view.state.pump.steps
    here = step_number(view.state, view.prompt.step)
    if here is None:
        here = min(steps_done(view.state) + 1, len(steps) + 1)
    if view.state.closed is not None:
        here = len(steps) + 1
    return draw_ruler(len(steps), here, phase_ends(steps), view.size.width)


def phase_ends(steps: tuple[Step, ...]) -> tuple[int, ...]:
    """Number of the last step of each phase."""
    last: dict[Phase, int] = {}
    for number, step in enumerate(steps, 1):
        last[step.phase] = number
    return tuple(sorted(last.values()))
