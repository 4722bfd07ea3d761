"""What lies beside the pump: parts still on the mat, temporary tools on their hooks, scrap in its tray,
the kit.

Not an act of its own: the acts that count use it. A count is a fact; what it should be follows from the
model.
"""

from __future__ import annotations

from typing import Any

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.refusal import Refusal
from benchcheck.procedure.model import Phase, SingleUse
from benchcheck.session.events import Counted
from benchcheck.session.prompt import Form, Outcome, Prompt, refused
from benchcheck.session.state import State

NAMED = 6
"""So many candidates are named for a part that lies there and should not; more would not be read."""


def still_to_go_in(state: State) -> tuple[str, ...]:
    """Parts of the finished pump that are not in the main work yet."""
    now = state.assembly
    return tuple(part for part in state.pump.needed() if not now.present(part))


def on_the_mat(state: State) -> int:
    """How many pieces still lie beside the pump, those in a sub-assembly included."""
    return sum(state.pump.parts[part].count for part in still_to_go_in(state))


def closes_up(state: State, act: Act) -> bool:
    """Whether running in this group holds a part of the main work, so that the mat is counted before it."""
    return (
        act.verb is Verb.START
        and act.phase is Phase.REASSEMBLY
        and any(state.assembly.present(part) for part in state.pump.groups[act.target].holds)
    )


def _where_it_may_belong(state: State) -> str:
    """What the record has as fitted since the last count, the latest first; and what was replaced."""
    pump, now = state.pump, state.assembly
    fitted = [
        (fact.event, act)
        for act in state.acts
        if act.verb in (Verb.INSTALL, Verb.FIT) and (fact := state.fact(act.id)) is not None
    ]
    fitted.sort(key=lambda each: -each[0])
    since = [act for event, act in fitted if event > state.mat_counted]
    named = [_named(state, act) for act in since[:NAMED]]
    more = f" and {len(since) - NAMED} more" if len(since) > NAMED else ""
    replaced = [pump.called(part) for part in now.seated if now.instance(part)]
    told = []
    if named:
        told.append(f"that the record has as fitted since the last count: {', '.join(named)}{more}")
    if replaced:
        told.append(f"that was replaced: {', '.join(replaced[:NAMED])}")
    return f"it may be one {', or an old one '.join(told)}" if told else ""


def _named(state: State, act: Act) -> str:
    """A part by what it is, a ring by its size and rubber."""
    if act.verb is Verb.INSTALL:
        return state.pump.called(act.target)
    rings = state.assembly.sealed.get(act.target, ())
    return " and ".join(f"the {ring.size} {ring.material} of {act.target}" for ring in rings)


def tools(state: State) -> tuple[str, ...]:
    return tuple(part.id for part in state.pump.parts.values() if part.temporary)


def tools_on_hooks(state: State) -> int:
    return sum(state.pump.parts[tool].count for tool in tools(state) if tool not in state.assembly.seated)


def scrap(state: State) -> int:
    """How many single-use pieces have come off so far and may not go back."""
    taken_out = [
        act.target
        for act in state.acts
        if act.verb.value in ("remove", "lift") and state.fact(act.id) is not None
    ]
    pump, count = state.pump, 0
    for thing in taken_out:
        if thing in pump.grooves:
            count += 1
        elif f"{thing}#0" in state.assembly.dead or pump.parts[thing].single_use is SingleUse.RUN:
            count += pump.parts[thing].count
    return count


def mat_prompt(state: State, common: dict[str, Any]) -> Prompt:
    names = ", ".join(state.pump.called(part) for part in still_to_go_in(state))
    return Prompt(
        **{**common, "verb": "COUNT"},
        form=Form.NUMBER,
        ask="before this is closed up: how many parts still lie on the mat, those in bags included?",
        enter="records the count",
        notes=(f"still to go in, by the procedure: {names or 'nothing'}",),
    )


def tools_prompt(state: State, common: dict[str, Any]) -> Prompt:
    names = ", ".join(state.pump.called(tool) for tool in tools(state))
    return Prompt(
        **{**common, "verb": "COUNT"},
        form=Form.NUMBER,
        ask=f"how many of these tools hang on their hooks: {names}?",
        enter="records the count",
    )


def take(state: State, act: Act, kind: str, answer: str) -> tuple[Counted, tuple[Refusal, ...]] | Outcome:
    """The count as an event, with what it shows to be wrong; or the refusal of what is no count."""
    if not (answer.isascii() and answer.isdigit() and len(answer) < 5):
        return refused("not-a-count", f'"{answer}" is not a count; type a whole number')
    expected = {"mat": on_the_mat, "tools": tools_on_hooks, "scrap": scrap}[kind](state)
    counted = int(answer)
    event = Counted(act=act.id, what=kind, count=counted, expected=expected)
    if counted == expected:
        return event, ()
    difference = abs(counted - expected)
    more = counted > expected
    match kind:
        case "mat":
            wrong = (
                f"{difference} more on the mat than the procedure has left"
                if more
                else f"{difference} missing"
            )
            refusal = Refusal(
                "part-left-over" if more else "part-missing",
                wrong,
                "the mat",
                "find where it belongs" if more else "find it before this is closed up",
                chain=(belongs,) if more and (belongs := _where_it_may_belong(state)) else (),
            )
        case "tools":
            refusal = Refusal(
                "tool-not-put-on" if more else "tool-left-inside",
                f"{difference} of the tools {'is' if difference == 1 else 'are'} {'' if more else 'not '}on "
                f"{'its hook' if difference == 1 else 'their hooks'}"
                + (", and should be on the work" if more else ""),
                "the hooks",
                "put it where it belongs" if more else "find it before anything is closed",
                passable=False,
            )
        case _:
            refusal = Refusal(
                "scrap-does-not-add-up",
                f"{expected} single-use pieces came off; {counted} are in the tray",
                "the scrap tray",
                "count again; what is missing may be fitted again by mistake",
            )
    return event, (refusal,)
