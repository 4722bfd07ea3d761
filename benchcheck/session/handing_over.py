"""One technician takes over what another has begun: the card is signed by who leaves, and by who comes.

Who leaves may be gone by then: that is said in place of a signature, and the record keeps it. What stands on
the card is for the reports; here is who has to sign it.
"""

from __future__ import annotations

from benchcheck.assembly.changed import changed
from benchcheck.procedure.people_names import same_name
from benchcheck.session.events import CardLeft, TakenOver
from benchcheck.session.prompt import Form, Outcome, Prompt, refused
from benchcheck.session.state import State

LEFT, TAKEN = "handover left", "handover taken"
QUESTIONS = (LEFT, TAKEN)


def ask(state: State) -> Prompt | None:
    """The signature that is asked for before a person goes on with another's work; None if none is."""
    leaves = state.taking_over
    if not leaves:
        return None
    if state.card is None:
        return Prompt(
            question=LEFT,
            form=Form.WORDS,
            verb="HAND OVER",
            ask=f"{leaves} leaves this pump and signs the card with their name; who is not here, why not?",
            enter="writes it down",
            notes=("the card says what is half done, and what must not be touched",),
        )
    said = f': "{state.card.words}"' if state.card.words else ""
    signed = f"{leaves} signed the card{said}" if state.card.signed else f"{leaves} did not sign{said}"
    return Prompt(
        question=TAKEN,
        form=Form.WORDS,
        verb="TAKE OVER",
        ask=f"read the card, {state.technician}, and sign it with your name",
        enter="takes the pump over as the card has it",
        notes=(signed,),
    )


def take(state: State, prompt: Prompt, text: str) -> Outcome:
    """What comes of a signature, or of what is said in its place."""
    if prompt.question == LEFT:
        signed = same_name(text, state.taking_over)
        return Outcome((CardLeft(name=state.taking_over, signed=signed, words="" if signed else text),))
    if not same_name(text, state.technician):
        return refused("not-your-name", f'"{text}" is not {state.technician}; who takes the pump over signs')
    return Outcome((TakenOver(name=state.technician, left_by=state.taking_over),))


def careful(state: State, prompt: Prompt) -> str:
    """What careful people sign."""
    return state.taking_over if prompt.question == LEFT else state.technician


def signed_on(state: State, name: str) -> State:
    """Whose work the pump is, and who takes it over from whom, once a person has signed on."""
    if not state.worker or name == state.worker:
        return changed(state, worker=name, taking_over="")
    return changed(state, taking_over=state.worker)


def card_left(state: State, event: CardLeft) -> State:
    return changed(state, card=event)


def taken_over(state: State, event: TakenOver) -> State:
    return changed(state, worker=event.name, taking_over="", card=None)


def signature(state: State, words: str) -> CardLeft | Outcome:
    """The one at work signs the card for whoever goes on, with a word for them."""
    if state.closed is not None:
        return refused("record-is-closed", "the work on this pump is over")
    if not state.technician or state.taking_over:
        return refused("nobody-signed-on", "nobody is at work on this pump whose card it would be")
    return CardLeft(name=state.technician, signed=True, words=words.strip())
