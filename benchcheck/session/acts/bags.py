"""The kit, bag by bag: the size and rubber on each are read and counted against what the pump takes.

One of the questions of `ask.py`. What a kit lacks for the way that is left is worked out in `session/kit.py`.
"""

from __future__ import annotations

from benchcheck.assembly.acts import Act
from benchcheck.assembly.refusal import Refusal
from benchcheck.procedure.model import Ask
from benchcheck.session.acts import fit
from benchcheck.session.acts import questions as asked
from benchcheck.session.events import Counted, Told
from benchcheck.session.kit import rings_needed
from benchcheck.session.prompt import Form, Outcome, Prompt, refused
from benchcheck.session.state import State

NO_MORE = "done"
"""What is answered when there are no more bags."""


def ask(state: State, question: Ask) -> Prompt:
    needs = rings_needed(state.pump)
    counted = sum(min(state.kit.get(name, 0), count) for name, count in needs.items())
    lines = tuple(f"{name}: {state.kit.get(name, 0)} of {count}" for name, count in needs.items())
    return Prompt(
        question=f"bag {sum(state.kit.get(name, 0) for name in needs)}",
        form=Form.WORDS,
        verb="READ SIZE",
        do=(asked.sentence(f"{question.what}: read each bag, size and rubber"),),
        ask=f"size and rubber on the next bag ({counted} of {sum(needs.values())} rings are counted)",
        enter="counts the ring you typed",
        notes=(*lines, f'type "{NO_MORE}" when there are no more bags'),
    )


def take(state: State, act: Act, answer: str) -> Outcome:
    needs = rings_needed(state.pump)
    if answer.casefold() == NO_MORE:
        short = [
            f"{name}: {state.kit.get(name, 0)} of {count}"
            for name, count in needs.items()
            if state.kit.get(name, 0) < count
        ]
        done = Told(act=act.id, done=True, what="kit", value="short" if short else "complete")
        if short:
            return Outcome(
                (done,), (Refusal("kit-short", "; ".join(short), "the kit", "find what is missing"),)
            )
        return Outcome((done,))
    read = fit.read_bag(answer)
    if read is None:
        return refused("bag-not-read", f'"{answer}" is not size and rubber; type both, such as "-137 NBR"')
    name = f"{read[0]} {read[1]}"
    known = next((each for each in needs if each.casefold() == name.casefold()), None)
    if known is None:
        return refused(
            "ring-not-for-this-pump",
            f"no groove of this pump takes a {name}",
            mend="put it aside; read the bag again",
        )
    if state.kit.get(known, 0) >= needs[known]:
        return refused(
            "ring-too-many",
            f"this pump takes {needs[known]} of {known}, and so many are counted",
            mend="put it aside",
        )
    counted = Counted(act=act.id, what=known, count=state.kit.get(known, 0) + 1, expected=needs[known])
    total = sum(state.kit.get(each, 0) for each in needs) + 1
    if total < sum(needs.values()):
        return Outcome((counted,))
    return Outcome((counted, Told(act=act.id, done=True, what="kit", value="complete")))


def careful(state: State) -> str:
    needs = rings_needed(state.pump)
    return next((name for name, count in needs.items() if state.kit.get(name, 0) < count), NO_MORE)
