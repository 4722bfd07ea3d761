"""What there is to say of a register of people: entries that may be one person under two spellings."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from benchcheck.procedure.finding import Finding, Severity
from benchcheck.procedure.reading import Read
from benchcheck.procedure.registers import PeopleRegister


def names_alike(read: Read[PeopleRegister]) -> Iterator[Finding]:
    """Each entry that may be an earlier one again."""
    for one, other in combinations(read.model.person, 2):
        if read.model.perhaps_one(one.name, other.name):
            yield Finding(
                "names-alike",
                Severity.WARNING,
                read.place(other, "name"),
                f'"{other.name}" and "{one.name}" may be one person under two spellings.',
                f'Keep one entry; if they are two people, write other_than = ["{one.name}"] in this one.',
            )
