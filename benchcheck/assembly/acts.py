"""A step taken apart into its acts: the smallest things that are asked, guarded, sealed and voided.

An act is one part, one ring, one group round, one reading. Which acts a step holds follows from its keys
alone, always in the same order: rings, parts, group, looks, questions, witness, signature.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import Ask, Phase, Step, StepAct


class Verb(StrEnum):
    """What an act does; each has its module in `session/acts`."""

    FIT = "fit"
    INSTALL = "install"
    LIFT = "lift"
    REMOVE = "remove"
    LOOSEN = "loosen"
    START = "start"
    TIGHTEN = "tighten"
    LOOK = "look"
    ASK = "ask"
    DO = "do"
    WITNESS = "witness"
    WAIT = "wait"
    SIGN = "sign"


@dataclass(frozen=True)
class Act:
    """One act of one step."""

    step: Step
    verb: Verb
    target: str = ""
    """Part, groove, group or clock; for a question, its number in the step."""

    @cached_property
    def id(self) -> str:
        """Its stable name in records."""
        return f"{self.step.id}/{self.verb}:{self.target}" if self.target else f"{self.step.id}/{self.verb}"

    @property
    def question(self) -> Ask:
        """The question of an `ask` act."""
        return self.step.ask[int(self.target)]

    @property
    def phase(self) -> Phase:
        return self.step.phase


def acts_of(pump: Pump, step: Step) -> Iterator[Act]:
    """The acts of one step, in order."""
    for groove in step.rings:
        if groove in pump.grooves:
            yield Act(step, Verb.FIT, groove)
    if step.act is StepAct.INSTALL:
        for part in step.all_parts:
            if part in pump.parts:
                yield from _asked_before(step, part)
                yield Act(step, Verb.INSTALL, part)
    for thing in step.off:
        yield from _asked_before(step, thing)
        if thing in pump.groups:
            yield Act(step, Verb.LOOSEN, thing)
        elif thing in pump.parts:
            yield Act(step, Verb.REMOVE, thing)
        elif thing in pump.grooves:
            yield Act(step, Verb.LIFT, thing)
    if step.group in pump.groups and step.act in (StepAct.INSTALL, StepAct.START, StepAct.TIGHTEN):
        assert step.group is not None
        yield from _asked_before(step, step.group)
        if step.act is not StepAct.TIGHTEN or _starts_here(pump, step):
            yield Act(step, Verb.START, step.group)
        if step.act is not StepAct.START:
            yield Act(step, Verb.TIGHTEN, step.group)
    if step.act is StepAct.CHECK and not step.ask:
        for thing in step.of:
            if thing in pump.grooves or (thing in pump.parts and pump.parts[thing].ends):
                yield Act(step, Verb.LOOK, thing)
    if step.act is StepAct.DO:
        yield Act(step, Verb.DO)
    for number, question in enumerate(step.ask):
        if question.before is None:
            yield Act(step, Verb.ASK, str(number))
    if step.act is StepAct.WAIT:
        yield Act(step, Verb.WAIT, step.clock or "")
    if step.witness and not (step.act is StepAct.INSTALL and step.all_parts) and step.act is not StepAct.SIGN:
        yield Act(step, Verb.WITNESS)
    if step.act is StepAct.SIGN:
        yield Act(step, Verb.SIGN)


def _asked_before(step: Step, thing: str) -> Iterator[Act]:
    """The questions to be asked before a part or group of the step is handled."""
    for number, question in enumerate(step.ask):
        if question.before == thing:
            yield Act(step, Verb.ASK, str(number))


def _starts_here(pump: Pump, step: Step) -> bool:
    """Whether no earlier step runs the group in, so that this tightening has to."""
    for earlier in pump.steps:
        if earlier.id == step.id:
            return True
        if earlier.group == step.group and earlier.act in (StepAct.INSTALL, StepAct.START, StepAct.TIGHTEN):
            return False
    return True


def all_acts(pump: Pump) -> tuple[Act, ...]:
    """Every act of a procedure for one variant, in file order, whatever its `if` says."""
    return tuple(act for step in pump.steps for act in acts_of(pump, step))
