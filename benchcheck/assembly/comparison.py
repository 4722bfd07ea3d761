"""What changed between two revisions of a procedure, and what an open session could keep of the first.

Two tables are one and the same when their ids are; a table without an id is told by what it says. A
confirmation can be kept when its act and all that it is about read the same in both.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from benchcheck.assembly.confirmations import confirmations
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.tightening import shares_of_proof
from benchcheck.procedure.model import Fasteners, MustFace, MustLineUp, Procedure, Stack
from benchcheck.procedure.table import Table
from benchcheck.procedure.taking_over import is_raised


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that is not as it was."""

    what: str
    """The thing, as a person calls it: "groove G4", "end plate"."""
    change: str
    """What changed, with the old and the new value."""

    def as_text(self) -> str:
        return f"{self.what}: {self.change}"


@dataclass(frozen=True)
class Comparison:
    """Two revisions side by side."""

    old: Procedure
    new: Procedure
    differences: tuple[Difference, ...]
    kept: dict[str | None, tuple[str, ...]]
    """For each variant, the acts whose confirmations an open session could keep."""
    asked_again: dict[str | None, tuple[str, ...]]
    """For each variant, the acts of the new revision to be confirmed again, or for the first time."""

    @property
    def raised(self) -> bool | None:
        """Whether the second revision comes after the first; None where that cannot be told."""
        return is_raised(self.new.procedure.revision, self.old.procedure.revision)

    @property
    def to_confirm(self) -> tuple[str, ...]:
        """Numbers of the second, as "F1: torque", that nobody has confirmed for its pump yet."""
        return self.new.procedure.unconfirmed

    @property
    def confirmed(self) -> tuple[str, ...]:
        """Numbers that were still to be confirmed in the first, and are no more."""
        return tuple(each for each in self.old.procedure.unconfirmed if each not in self.to_confirm)

    @property
    def remark(self) -> str | None:
        """What is wrong with the revisions themselves."""
        if self.old.procedure.id != self.new.procedure.id:
            return f"these are two procedures: {self.old.procedure.id} and {self.new.procedure.id}"
        was, is_now = self.old.procedure.revision, self.new.procedure.revision
        if not (self.differences or self.confirmed):
            return None
        if was == is_now:
            return f"both say revision {is_now}: a change needs a new revision"
        if self.raised is False:
            return f"revision {is_now} does not come after {was}: a change needs a raised revision"
        return None


def compare(old: Procedure, new: Procedure) -> Comparison:
    """All differences, in the order of the format's tables."""
    found: list[Difference] = []
    found += _of_table("head", old.procedure, new.procedure, leave_out=("id", "unconfirmed"))
    found += _by_id("part", old.part, new.part, lambda each: each.called)
    found += _by_id("groove", old.groove, new.groove, lambda each: f"groove {each.id}")
    found += _by_id("fasteners", old.fasteners, new.fasteners, lambda each: each.called)
    found += _shares(old.fasteners, new.fasteners)
    found += _by_words("must face", old.must_face, new.must_face, _must)
    found += _by_words("must line up", old.must_line_up, new.must_line_up, _must)
    found += _by_words("stack", old.stack, new.stack, _stack)
    found += _by_id("clock", old.clock, new.clock, lambda each: f"clock {each.id}")
    found += _by_words("caution", old.caution, new.caution, lambda each: f"{each.signal.value}: {each.text}")
    found += _by_id("step", old.step, new.step, lambda each: f"step {each.id}")
    found += _order_of_steps(old, new)
    variants: Sequence[str | None] = new.procedure.variants or (None,)
    kept: dict[str | None, tuple[str, ...]] = {}
    again: dict[str | None, tuple[str, ...]] = {}
    for variant in variants:
        kept[variant], again[variant] = confirmations(Pump(old, variant), Pump(new, variant))
    return Comparison(old, new, tuple(found), kept, again)


def _said(value: Any) -> str:
    """A value of a table as an author would write it."""
    if value is None or value == () or value == {}:
        return "not said"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, tuple):
        return ", ".join(_said(each) for each in value)
    if isinstance(value, dict):
        return ", ".join(f"{key} {_said(each)}" for key, each in value.items())
    if isinstance(value, Table):
        parts = ((key, getattr(value, name)) for key, name in type(value).fields_by_key().items())
        return ", ".join(f"{key} {_said(each)}" for key, each in parts if each not in (None, (), {}, False))
    return str(value)


def _of_table(what: str, old: Table, new: Table, leave_out: tuple[str, ...] = ()) -> Iterable[Difference]:
    for key, name in type(old).fields_by_key().items():
        if key in leave_out:
            continue
        was, is_now = getattr(old, name), getattr(new, name)
        if isinstance(was, Table) and isinstance(is_now, Table):
            yield from (Difference(what, f"{key} {each.change}") for each in _of_table(what, was, is_now))
        elif was != is_now and _said(was) != _said(is_now):
            yield Difference(what, f"{key} {_said(was)} -> {_said(is_now)}")


def _by_id(
    kind: str, old: Sequence[Any], new: Sequence[Any], called: Callable[[Any], str]
) -> Iterable[Difference]:
    was, is_now = {each.id: each for each in old}, {each.id: each for each in new}
    for name, table in was.items():
        if name not in is_now:
            yield Difference(called(table), f"{kind} {name} is gone")
        else:
            yield from _of_table(called(is_now[name]), table, is_now[name], leave_out=("id",))
    for name, table in is_now.items():
        if name not in was:
            yield Difference(called(table), f"{kind} {name} is new")


def _by_words(
    kind: str, old: Sequence[Any], new: Sequence[Any], words: Callable[[Any], str]
) -> Iterable[Difference]:
    was, is_now = [words(each) for each in old], [words(each) for each in new]
    yield from (Difference(kind, f"no longer: {each}") for each in was if each not in is_now)
    yield from (Difference(kind, f"new: {each}") for each in is_now if each not in was)


def _must(must: MustFace | MustLineUp) -> str:
    point = must.end if isinstance(must, MustFace) else must.mark
    return f"{must.part}: {point} to {_said(must.toward)} of {must.of or 'main'}, because {must.because}"


def _stack(stack: Stack) -> str:
    variants = f" ({', '.join(stack.for_)})" if stack.for_ else ""
    return f"on {stack.on} from the {stack.from_}{variants}: {', '.join(stack.order)}"


def _shares(old: Sequence[Fasteners], new: Sequence[Fasteners]) -> Iterable[Difference]:
    """What a changed target, thread, strength or friction makes of the preload."""
    was = {group.id: shares_of_proof(group) for group in old}
    for group in new:
        before, after = was.get(group.id), shares_of_proof(group)
        if before is not None and after is not None and f"{before[1]:.0%}" != f"{after[1]:.0%}":
            yield Difference(group.called, f"{before[1]:.0%} -> {after[1]:.0%} of proof load at the target")


def _order_of_steps(old: Procedure, new: Procedure) -> Iterable[Difference]:
    was = [step.id for step in old.step]
    is_now = [step.id for step in new.step]
    shared = [name for name in is_now if name in was]
    if shared != [name for name in was if name in is_now]:
        moved = [
            name
            for name, other in zip(shared, (each for each in was if each in is_now), strict=True)
            if name != other
        ]
        yield Difference("order of steps", f"changed from {moved[0]} on: now {', '.join(shared)}")
