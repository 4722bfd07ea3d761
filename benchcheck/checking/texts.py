"""The words of a procedure, for the rules on words: every text with its place, and who reads it when.

Rules look for words that say too little, or something else than the data beside them. Texts in another
language than English pass them by.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from benchcheck.procedure.model import Fasteners, Procedure, Step
from benchcheck.procedure.table import Table

_WORDS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip
NUMBERS = {word: number for number, word in enumerate(_WORDS, 1)}
A_NUMBER = rf"(?:\d{{1,3}}|{'|'.join(sorted(NUMBERS, key=len, reverse=True))})"
"""A count in digits or in words, as a regular expression."""


def number(text: str) -> int:
    """The count that `A_NUMBER` has matched."""
    return int(text) if text.isdecimal() else NUMBERS[text.casefold()]


def sentences(text: str) -> list[str]:
    """The sentences of a text, one by one."""
    return [each for each in re.split(r"(?<=[.!?])\s+", text) if each.strip()]


@dataclass(frozen=True, slots=True)
class Passage:
    """One text of a procedure."""

    text: str
    table: Table
    keys: tuple[str | int, ...]
    steps: tuple[Step, ...] = ()
    """The steps at which it is read; none where it belongs to no step."""

    @property
    def sentences(self) -> list[str]:
        return sentences(self.text)


def of_step(step: Step) -> Iterator[Passage]:
    """What is read as a step is done, its questions with it."""
    for key in ("name", "text"):
        if getattr(step, key) is not None:
            yield Passage(getattr(step, key), step, (key,), (step,))
    for ask in step.ask:
        yield Passage(ask.what, ask, ("what",), (step,))
        for index, answer in enumerate(ask.one_of):
            yield Passage(answer, ask, ("one_of", index), (step,))


def of_cautions(file: Procedure) -> Iterator[Passage]:
    steps = {step.id: step for step in file.step}
    for caution in file.caution:
        shown = tuple(steps[name] for name in caution.before if name in steps)
        yield Passage(caution.text, caution, ("text",), shown)


def instructions(file: Procedure) -> Iterator[Passage]:
    """All that tells somebody what to do: steps, questions, cautions, where lubricant and locker go."""
    yield from of_cautions(file)
    for part in file.part:
        if part.lubricate is not None:
            yield Passage(part.lubricate, part, ("lubricate",))
        for end, seen in part.seen.items():
            yield Passage(seen, part, ("seen", end))
    for groove in file.groove:
        yield Passage(groove.where, groove, ("where",))
        if groove.lubricate is not None:
            yield Passage(groove.lubricate, groove, ("lubricate",))
    for group in file.fasteners:
        yield from _of_group(group)
    for step in file.step:
        yield from of_step(step)


def _of_group(group: Fasteners) -> Iterator[Passage]:
    if group.lubricate is not None:
        yield Passage(group.lubricate, group, ("lubricate",))
    if group.threadlocker is not None:
        for key in ("amount", "where"):
            yield Passage(getattr(group.threadlocker, key), group.threadlocker, (key,))


def groups_of(file: Procedure, step: Step) -> tuple[Fasteners, ...]:
    """The groups that a step starts, tightens or takes off."""
    named = {step.group, *step.off}
    return tuple(group for group in file.fasteners if group.id in named) if any(named) else ()


def about(file: Procedure, group: Fasteners) -> Iterator[Passage]:
    """What is said of one group alone: its names, its screws' and parts', its steps and their cautions.

    A step or caution that is about several groups is left out.
    """
    if group.name is not None:
        yield Passage(group.name, group, ("name",))
    if group.low_because is not None:
        yield Passage(group.low_because, group, ("low_because",))
    yield from _of_group(group)
    for screws in group.screws:
        yield Passage(screws.item, screws, ("item",))
    for part in file.part:
        if part.id in group.parts:
            for key in ("name", "item"):
                if getattr(part, key) is not None:
                    yield Passage(getattr(part, key), part, (key,))
    for step in file.step:
        if _only(file, group, (step,)):
            yield from of_step(step)
    for passage in of_cautions(file):
        if _only(file, group, passage.steps):
            yield passage


def _only(file: Procedure, group: Fasteners, steps: tuple[Step, ...]) -> bool:
    """Whether steps are about this group and no other."""
    groups = [each.id for step in steps for each in groups_of(file, step)]
    return set(groups) == {group.id}
