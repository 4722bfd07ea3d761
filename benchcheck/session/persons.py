"""Who may do what: found in the register of people, entitled on the day, and not the one who did the work.

One person under two spellings is one person. Two entries that may be one person's are not taken for two
until the register says that they are.
"""

from __future__ import annotations

from datetime import datetime

from benchcheck.procedure.people_names import same_name
from benchcheck.procedure.registers import Person, Right
from benchcheck.session.prompt import Outcome, refused
from benchcheck.session.state import State


def known(state: State, name: str) -> Person | Outcome:
    """The entry of the register, however the name is spelt."""
    people = state.job.registers.people
    person = people.find(name)
    if person is not None:
        return person
    like = people.like(name)
    mend = f'if you are "{like}", write it so' if like else "write it as it stands there"
    return refused("person-not-known", f'"{name}" is not in the register of people', mend=mend)


def entitled(state: State, name: str, right: Right, now: datetime) -> Person | Outcome:
    """The entry of a person who may do this today."""
    person = known(state, name)
    if isinstance(person, Outcome):
        return person
    if not person.entitled(right, now.date()):
        those = [each.name for each in state.job.registers.people.person if each.entitled(right, now.date())]
        return refused(
            "person-not-entitled",
            f"{person.name} is not entitled to this ({right}) today",
            mend=f"call one who is: {', '.join(those)}" if those else "nobody is, by the register of people",
        )
    return person


def not_another(state: State, name: str, doer: str, rule: str, why: str) -> Outcome | None:
    """The refusal of a person who is, or may be, the one who did it; None where they are two.

    `why` says what that one did, and who has to do this instead.
    """
    if same_name(name, doer):
        return refused(rule, f"{name} {why}", mend="call another person")
    if state.job.registers.people.perhaps_one(name, doer):
        return refused(
            "perhaps-one-person",
            f"{name} may be {doer} under another spelling, and {doer} {why}",
            mend="call another person; if they are two, the register of people has to say so",
        )
    return None
