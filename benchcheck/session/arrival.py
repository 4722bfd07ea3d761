"""What is asked before any act: who works, and after a pause whether the pump is still what the record
says.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.procedure.people_names import same_name
from benchcheck.procedure.registers import Person
from benchcheck.session import handing_over, revisions
from benchcheck.session.events import Event, GrooveFound, ReadAgain, SignedOn
from benchcheck.session.persons import entitled
from benchcheck.session.prompt import Choice, Form, Outcome, Prompt, changed_about, refused
from benchcheck.session.state import State

LEFT_EMPTY = "empty"
ONE_RING = "one ring"
TWO_RINGS = "more than one"


def ask(state: State) -> Prompt | None:
    """The prompt of arrival; None when there is nothing to ask before the act in hand."""
    if not state.technician:
        return Prompt(
            question="name",
            form=Form.WORDS,
            verb="WHO",
            ask="your name, as in the register of people",
            enter="signs you on",
        )
    prompt = handing_over.ask(state) or revisions.ask(state)
    if prompt is not None:
        return prompt
    if not state.read_again:
        return None
    what = state.read_again[0]
    kind, _, thing = what.partition(" ")
    if kind == "serial":
        return Prompt(
            question=what,
            form=Form.WORDS,
            verb="READ AGAIN",
            ask="the serial number: read it on the pump, not here",
            enter="compares what you read with the record",
        )
    pump = state.pump
    if kind == "pose":
        return Prompt(
            question=what,
            form=Form.CHOICE,
            verb="LOOK",
            ask=f"which end of {pump.the(thing)} is up now?",
            enter="records how it lies",
            choices=tuple(Choice(end, f"the {end} is up") for end in pump.ends(thing) if end)
            or (Choice("as it was", "it has no ends to tell"),),
        )
    groove = pump.grooves[thing]
    return Prompt(
        question=what,
        form=Form.CHOICE,
        verb="LOOK",
        ask=f"what lies in {thing}, {groove.where}, on {pump.the(groove.in_)}?",
        enter="records what you see",
        choices=ring_choices(f"{state.header.opened}{state.number}{thing}"),
    )


RINGS_SEEN = {
    ONE_RING: "one ring lies in it",
    LEFT_EMPTY: "it is empty",
    TWO_RINGS: "more than one ring lies in it",
}
"""What one may see in a groove, in words."""


def ring_choices(seed: str) -> tuple[Choice, ...]:
    """What one may see in a groove, in an order that varies."""
    return changed_about([Choice(seen, words) for seen, words in RINGS_SEEN.items()], seed)


def signed_on(person: Person, typed: str) -> SignedOn:
    """A person goes on, with the name as it was typed where the register spells it otherwise."""
    typed = " ".join(typed.split())
    return SignedOn(
        name=person.name,
        typed=typed if typed != person.name else "",
        may=person.may,
        until=person.until.isoformat() if person.until is not None else "",
        by=person.name,
    )


def take(state: State, prompt: Prompt, text: str, now: datetime) -> Outcome:
    if prompt.question == "name":
        person = entitled(state, text, "work", now)
        return person if isinstance(person, Outcome) else Outcome((signed_on(person, text),))
    what = prompt.question
    if what in handing_over.QUESTIONS:
        return handing_over.take(state, prompt, text)
    if what in revisions.QUESTIONS:
        return revisions.take(state, text)
    kind, _, thing = what.partition(" ")
    if kind == "serial" and not same_serial(text, state.header.serial):
        return another_pump(text)
    events: tuple[Event, ...] = (ReadAgain(what=what, value=text),)
    if kind == "groove" and text != ONE_RING:
        events = (*events, GrooveFound(act="", groove=thing, found=text))
    return Outcome(events)


def another_pump(serial: str) -> Outcome:
    """The refusal of a serial that is not the record's: nobody may pass it."""
    return refused(
        "another-pump",
        f'"{serial}" is not the serial of this record; either this is another pump, or it was misread',
        mend="read it again on the body, or leave and open that pump's own record",
    )


def same_serial(one: str, other: str) -> bool:
    """Whether two readings are one serial: blanks and the case of letters do not count."""
    return "".join(one.split()).casefold() == "".join(other.split()).casefold()


def careful(state: State, prompt: Prompt) -> str:
    """What a careful technician answers here."""
    kind = prompt.question.partition(" ")[0]
    if kind == "name":
        workers = [each.name for each in state.job.registers.people.person if "work" in each.may]
        return (
            next((name for name in workers if same_name(name, state.people[0])), workers[0])
            if state.people
            else workers[0]
        )
    if kind == "serial":
        return state.header.serial
    if prompt.question in handing_over.QUESTIONS:
        return handing_over.careful(state, prompt)
    if kind == "procedure":
        return revisions.STAY if len(prompt.choices) > 1 else revisions.MOVE
    if kind == "pose":
        return prompt.choices[0].value
    return ONE_RING
