"""Going back: what would come apart to reach a thing again, shown before anything is undone."""

from __future__ import annotations

from benchcheck.assembly.clocks import clock_rule
from benchcheck.screens.bench.work import BenchFlow, Work, said
from benchcheck.screens.inquiry import Item
from benchcheck.screens.keys import Deed
from benchcheck.session import commands
from benchcheck.session.going_back import Way
from benchcheck.session.prompt import Outcome
from benchcheck.session.state import State

_AGAIN = frozenset({Deed.GO_BACK})


def going_back(work: Work) -> BenchFlow:
    """Which thing, why, and what it costs; only a second F6 begins it."""
    things = things_in(work.state)
    if not things:
        yield Item("go back", "Nothing is in yet that could be reached again.", "goes back to the work")
        return ""
    message = ""
    while True:
        chosen = yield Item(
            "go back",
            "To what? The last thing that went in stands first.",
            "asks why, and then shows what would come apart",
            choices=tuple(words_for(work.state, thing) for thing in things),
            said=message,
        )
        thing = things[chosen.index]
        plan = commands.plan_back(work.state, thing)
        if not isinstance(plan, Outcome):
            break
        message = said(plan)
    called = work.state.pump.the(thing)
    why = yield Item(
        "go back",
        f"Why has {called} to be reached again? One line.",
        "shows what would come apart; nothing is undone yet",
        field="why",
    )
    message = ""
    while True:
        answer = yield Item(
            "go back",
            f"To {called}, because: {why.text}. If you do it:",
            "leaves all as it is",
            lines=plan_lines(work.state, plan),
            again=_AGAIN,
            again_words="F6 again: do it",
            escape="leaves all as it is",
            said=message,
        )
        if answer.deed is not Deed.GO_BACK:
            return "All is as it was."
        outcome = work.command(commands.go_back, thing, why.text)
        if outcome is None:
            return ""
        message = said(outcome)


def things_in(state: State) -> tuple[str, ...]:
    """Parts, groups of screws and rings that are in, the latest first.

    A group whose fasteners are parts, such as a nut, is reached by its part.
    """
    now = state.assembly
    found = {part: seat.sequence for part, seat in now.seated.items()}
    found |= {group: hold.sequence for group, hold in now.held.items() if not state.pump.groups[group].parts}
    found |= {groove: max(ring.sequence for ring in rings) for groove, rings in now.sealed.items() if rings}
    return tuple(sorted(found, key=lambda thing: -found[thing]))


def words_for(state: State, thing: str) -> str:
    """What a thing is called in the list."""
    pump = state.pump
    if thing in pump.grooves:
        groove = pump.grooves[thing]
        return f"{thing}: the ring {groove.where}, on {pump.the(groove.in_)}"
    return pump.the(thing)


def plan_lines(state: State, plan: Way) -> tuple[tuple[str, str], ...]:
    """What a way takes off, kills, restarts and voids, as labelled lines."""
    pump = state.pump
    lines = [("off", f"{_list(state, plan.off)}: in this order")]
    if plan.tools:
        lines.append(("first", f"{_list(state, plan.tools)} go on, and come off again"))
    lines.append(("dies", _list(state, plan.dies, "x") if plan.dies else "nothing"))
    if plan.restarts:
        lines.append(("again", f"{_list(state, plan.restarts)}: from the first round"))
    void = {name.split("/")[0]: None for name in plan.again}
    if void:
        lines.append(("void", f"{len(void)} steps, asked again: {', '.join(void)}"))
    for clock in plan.clocks:
        rule = clock_rule(pump, clock)
        lines.append(("clock", f"{rule.called if rule else clock}: stops, and starts anew"))
    groups = len([each for each in state.assembly.held if each not in plan.off])
    rings = len([each for each in pump.grooves if state.assembly.living_rings(each) and each not in plan.off])
    lines.append(("stays", f"{groups} groups of screws and {rings} rings"))
    missing = ", ".join(pump.called(each.piece) for each in plan.short)
    lines.append(("kit", f"is short of {missing}" if missing else "holds what the way forward needs"))
    return tuple(lines)


def _list(state: State, things: tuple[str, ...], sign: str = "") -> str:
    names = [f"{sign} {state.pump.called(each)} {sign}".strip() for each in things]
    return ", ".join(dict.fromkeys(names))  # a nut is a part and a group of one
