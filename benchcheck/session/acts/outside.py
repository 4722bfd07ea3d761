"""A reading outside its limits: measured again, the part replaced, taken back, or taken over by a person.

Not a verb of its own: it stands in the place of the act's question until it is decided.
"""

from __future__ import annotations

from benchcheck.assembly.acts import Act, Verb
from benchcheck.assembly.refusal import Refusal
from benchcheck.session.events import Answered, PartReplaced, Told
from benchcheck.session.going_back import went_back
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt
from benchcheck.session.state import State

AGAIN = "again"
REPLACE = "replace"
BACK = "back"
ACCEPT = "accept"


def _about(act: Act) -> tuple[str, ...]:
    """What was judged: parts, grooves or groups."""
    return act.question.of or act.step.of or act.step.all_parts


def _replaceable(state: State, act: Act) -> dict[str, str]:
    """The answers that replace a part that was judged, with the part of each: of a set, the first of it."""
    parts = state.pump.parts
    firsts = {parts[each].set or each: each for each in reversed(_about(act)) if each in parts}
    judged = [each for each in _about(act) if each in firsts.values()]
    return {REPLACE if len(judged) == 1 else f"{REPLACE} {each}": each for each in judged}


def _rule(act: Act) -> str:
    if act.verb is not Verb.ASK:
        return "stop"
    return act.question.outside or act.step.outside


def ask(state: State, act: Act) -> Prompt:
    rule, about = _rule(act), _about(act)
    choices = [Choice(AGAIN, "it was measured or said wrong: ask again")]
    if rule == REPLACE:
        choices[:0] = (
            Choice(value, f"replace {state.pump.the(part)}: a new one is measured before it is fitted")
            for value, part in _replaceable(state, act).items()
        )
    if rule.startswith("back to "):
        target = rule.removeprefix("back to ")
        choices.insert(0, Choice(BACK, f"take off down to {state.pump.the(target)} and change it"))
    choices.append(Choice(ACCEPT, "leave it as it is: a departure, with a reason"))
    what = act.question if act.verb is Verb.ASK else None
    return Prompt(
        question="outside",
        form=Form.CHOICE,
        verb="OUTSIDE",
        ask=f"{state.outside} is outside its limits; what now?",
        choices=tuple(choices),
        enter="does what you say",
        standing=Refusal(
            "reading-outside-its-limits",
            f"{state.outside} is outside {limits_words(act)}",
            where=", ".join(map(state.pump.the, about)),
            mend=choices[0].words,
            passable=not act.step.cannot_pass,
        ),
        good=limits_words(act) if what else "",
    )


def limits_words(act: Act) -> str:
    """The limits of a question, in words."""
    if act.verb is not Verb.ASK:
        return ""
    question = act.question
    if question.good:
        return ", ".join(question.good)
    if question.min is not None and question.max is not None:
        return f"{question.min} to {question.max}"
    if question.max is not None:
        return f"at most {question.max}"
    return f"at least {question.min}" if question.min is not None else "what was asked"


def take(state: State, act: Act, answer: str) -> Outcome:
    replaceable = _replaceable(state, act)
    if answer in replaceable:
        about = replaceable[answer]
        # What is still in cannot be measured anew before it is out: it is noted, and comes out in its turn.
        still_in = about in state.assembly.seated
        return Outcome((PartReplaced(act=act.id, done=still_in, part=about, reason=state.outside),))
    if answer == BACK:
        target = _rule(act).removeprefix("back to ")
        return Outcome((went_back(state, (target,), state.outside),))
    if answer == ACCEPT:
        refusal = Refusal(
            "reading-outside-its-limits",
            f"{state.outside} is outside {limits_words(act)}",
            mend="give a reason, or measure again",
            passable=not act.step.cannot_pass,
        )
        done = Told(act=act.id, done=True, what=state.outside, value=state.outside, verdict="taken over")
        return Outcome((done,), (refusal,))
    return Outcome((Answered(act=act.id, question="outside", value=AGAIN),))
