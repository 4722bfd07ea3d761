"""The names that a procedure declares, and what is said of one that leads nowhere.

A `Names` gathers findings. Which table names what is for `references`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.model import Phase, Procedure
from benchcheck.procedure.reading import Read
from benchcheck.procedure.table import Table
from benchcheck.procedure.wording import listed, nearest, shortened

_MOST_LISTED = 20
"""How many known names a remedy lists at most."""


class Names:
    """What can be named, and one method for each kind of name, which says what is wrong with it."""

    def __init__(self, read: Read[Procedure]) -> None:
        self.at = read.place
        self.file = read.model
        self.found: list[Finding] = []
        self.parts = {part.id: part for part in self.file.part}
        self.groups = {group.id: group for group in self.file.fasteners}
        self.variants = self.file.procedure.variants
        self.main = self.file.procedure.main
        clocks = [clock.id for clock in self.file.clock]
        clocks += [f"{group.id} cure" for group in self.file.fasteners if group.threadlocker]
        clocks += [f"{group.id} again" for group in self.file.fasteners if group.again]
        self.known: dict[str, Sequence[str]] = {
            "part": list(self.parts),
            "groove": [groove.id for groove in self.file.groove],
            "group": list(self.groups),
            "clock": clocks,
            "step": [step.id for step in self.file.step],
            "phase": [phase.value for phase in Phase],
        }

    def say(self, rule: str, place: Place, message: str, remedy: str) -> None:
        self.found.append(Finding(rule, Severity.ERROR, place, message, remedy))

    def thing(self, place: Place, name: str, *kinds: str) -> bool:
        """Whether `name` is the name of one of these kinds of things; if not, it is said."""
        names = [each for kind in kinds for each in self.known[kind]]
        if name in names:
            return True
        expected = listed(kinds)
        other = next((kind for kind, others in self.known.items() if name in others), None)
        meant = nearest(name, names)
        if other is not None:
            message = f"`{name}` is the name of a {other}; expected a {expected}."
        elif meant is not None:
            message = f"There is no {expected} `{name}`; did you mean `{meant}`?"
        else:
            message = f"There is no {expected} `{shortened(name)}`."
        if meant is not None:
            remedy = f"Write `{meant}`, or declare what is meant."
        else:
            some = [f"`{each}`" for each in names[:_MOST_LISTED]]
            remedy = f"Write {listed(some)}, or declare what is meant." if some else "Declare what is meant."
        self.say(f"{kinds[0]}-unknown", place, message, remedy)
        return False

    def things(self, table: Table, key: str, names: str | Iterable[str] | None, *kinds: str) -> None:
        """The names under a key that takes one, several, or may be left out."""
        if isinstance(names, str):
            self.thing(self.at(table, key), names, *kinds)
        elif names is not None:
            for index, name in enumerate(names):
                self.thing(self.at(table, key, index), name, *kinds)

    def end(self, place: Place, name: str, part: str | None) -> None:
        """An end of a part; nothing is said of a part that is not there, as that is said elsewhere."""
        if part not in self.parts:
            return
        ends = self.parts[part].ends
        if ends is None:
            message = f"`{part}` has no named ends, so it has no `{shortened(name)}`."
            self.say("end-unknown", place, message, f'Give `{part}` its two ends: ends = ["…", "…"].')
        elif name not in ends:
            self.unknown_word("end-unknown", place, f"`{part}` has no end", name, ends)

    def mark(self, place: Place, name: str, part: str | None) -> None:
        if part in self.parts and name not in self.parts[part].marks:
            self.unknown_word("mark-unknown", place, f"`{part}` has no mark", name, self.parts[part].marks)

    def unknown_word(self, rule: str, place: Place, lack: str, name: str, known: Iterable[str]) -> None:
        words = list(known)
        meant = nearest(name, words)
        message = f"{lack} `{shortened(name)}`{f'; did you mean `{meant}`?' if meant else '.'}"
        some = [f"`{word}`" for word in words[:_MOST_LISTED]]
        self.say(rule, place, message, f"Write {listed(some)}." if some else "Declare it first.")

    def variant(self, place: Place, name: str) -> None:
        if name not in self.variants:
            self.unknown_word("variant-unknown", place, "There is no variant", name, self.variants)

    def applies_to(self, table: Table, names: Iterable[str]) -> None:
        """The variants under `for`."""
        for index, name in enumerate(names):
            self.variant(self.at(table, "for", index), name)

    def by_variant(
        self, table: Table, keys: tuple[str, ...], value: str | dict[str, str] | None, only: Sequence[str]
    ) -> Iterator[tuple[Place, str]]:
        """The values of a key that may be told by variant, with their places; every variant needs one."""
        if isinstance(value, str):
            yield self.at(table, *keys), value
        elif value is not None:
            for name, each in value.items():
                self.variant(self.at(table, *keys, name, key=True), name)
                yield self.at(table, *keys, name), each
            lacking = [f"`{name}`" for name in only or self.variants if name not in value]
            if lacking:
                message = f"`{keys[-1]}` is told by variant, but not for {listed(lacking)}."
                place = self.at(table, *keys)
                self.say("variant-left-out", place, message, "Write a value for each variant.")
