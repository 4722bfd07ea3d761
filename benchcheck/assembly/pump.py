"""A procedure as it reads for one variant: the parts, grooves, groups and steps that count, found by name.

Nothing here moves: what is where now is `state.py`. Everything is worked out once, from the file alone.
"""

from __future__ import annotations

from functools import cached_property

from benchcheck.procedure.model import (
    SIDE,
    Fasteners,
    Groove,
    MustFace,
    MustLineUp,
    Part,
    Procedure,
    Stack,
    Step,
    StepAct,
)


class Pump:
    """One variant of a procedure. `variant` is None where the procedure has no variants."""

    def __init__(self, procedure: Procedure, variant: str | None = None) -> None:
        self.procedure = procedure
        self.variant = variant
        self.main = procedure.procedure.main
        self.parts: dict[str, Part] = {part.id: part for part in procedure.part if self._counts(part.for_)}
        self.grooves: dict[str, Groove] = {
            each.id: each for each in procedure.groove if self._counts(each.for_)
        }
        self.groups: dict[str, Fasteners] = {
            each.id: each for each in procedure.fasteners if self._counts(each.for_)
        }
        self.steps: tuple[Step, ...] = tuple(step for step in procedure.step if self._counts(step.for_))
        self.faces: tuple[MustFace, ...] = tuple(
            each for each in procedure.must_face if self._counts(each.for_) and each.part in self.parts
        )
        self.lines: tuple[MustLineUp, ...] = tuple(
            each for each in procedure.must_line_up if self._counts(each.for_) and each.part in self.parts
        )
        self.stacks: tuple[Stack, ...] = tuple(each for each in procedure.stack if self._counts(each.for_))

    def _counts(self, variants: tuple[str, ...]) -> bool:
        return not variants or self.variant in variants

    def value(self, by_variant: str | dict[str, str] | None) -> str | None:
        """A value that may be given by variant, as it reads for this one."""
        if isinstance(by_variant, dict):
            return by_variant.get(self.variant or "")
        return by_variant

    def lines_up(self, part: str) -> dict[str, str]:
        """Which mark of a part stands over which mark of another in this variant."""
        told = {mark: self.value(over) for mark, over in self.parts[part].lines_up.items()}
        return {mark: over for mark, over in told.items() if over is not None}

    def called(self, thing: str) -> str:
        """What a person calls a part, a group or a groove."""
        if thing in self.parts:
            return self.parts[thing].called
        if thing in self.groups:
            return self.groups[thing].called
        return thing

    def the(self, thing: str) -> str:
        """The same with its article, for a sentence."""
        name = self.called(thing)
        return name if thing in self.grooves or name[:1].isupper() else f"the {name}"

    def in_hand(self, thing: str) -> str:
        """What a hand takes of it, with its article: the part, the group, or the ring of the groove."""
        return f"the ring of {thing}" if thing in self.grooves else self.the(thing)

    def ends(self, part: str) -> tuple[str, str]:
        """The two ends of a part; a part without named ends is the same both ways."""
        return self.parts[part].ends or ("", "")

    @cached_property
    def holders(self) -> dict[str, tuple[str, ...]]:
        """For each part, what keeps it in while it is on: groups, and parts that hold."""
        found: dict[str, list[str]] = {}
        for group in self.groups.values():
            for part in (*group.holds, *group.parts):
                found.setdefault(part, []).append(group.id)
        for holder in self.parts.values():
            for part in holder.holds:
                found.setdefault(part, []).append(holder.id)
        return {part: tuple(holders) for part, holders in found.items()}

    @cached_property
    def sets(self) -> dict[str, tuple[str, ...]]:
        """For each matched set, its parts."""
        found: dict[str, list[str]] = {}
        for part in self.parts.values():
            if part.set:
                found.setdefault(part.set, []).append(part.id)
        return {name: tuple(parts) for name, parts in found.items()}

    @cached_property
    def install_order(self) -> dict[str, int]:
        """Place in the file's own order at which each part is fitted."""
        fitted = [
            part
            for step in self.steps
            if step.act is StepAct.INSTALL
            for part in step.all_parts
            if part in self.parts
        ]
        return {part: place for place, part in enumerate(fitted)}

    @cached_property
    def group_order(self) -> dict[str, int]:
        """Place, on the scale of `install_order`, after which each group is tightened."""
        place, found = 0, {}
        for step in self.steps:
            if step.act is StepAct.INSTALL:
                place += sum(part in self.parts for part in step.all_parts)
            if step.group and step.act in (StepAct.INSTALL, StepAct.START, StepAct.TIGHTEN):
                found[step.group] = place
        return found

    def step(self, name: str) -> Step:
        return next(step for step in self.steps if step.id == name)

    def needed(self) -> tuple[str, ...]:
        """Parts that are in the finished pump: all but main and the tools."""
        return tuple(each.id for each in self.parts.values() if each.into is not None and not each.temporary)

    def along_axis(self, part: str) -> bool:
        """Whether a part lies on the axis of what it goes into, so that its facing can be composed."""
        return SIDE not in self.parts[part].ends_it_goes_in_from

    # ------------------------------------------------------------------ the way things are planned to face

    def planned_end(self, part: str) -> str:
        """The end of its body a part is planned to go in from (the first, where two will do)."""
        ends = self.parts[part].ends_it_goes_in_from
        return ends[0] if ends else ""

    def turn(self, part: str, from_end: str, seen: str) -> int:
        """+1 if the part's first end points as its body's first end, -1 if turned, 0 if it has no say.

        `from_end`: end of the body it goes in from, which faces the fitter; `seen`: end of the part he sees.
        """
        body = self.parts[part].into
        if body is None or from_end == SIDE:
            return 0
        own = self.parts[part].ends
        if own is None:
            return 1
        return (1 if seen == own[0] else -1) * (1 if from_end == self.ends(body)[0] else -1)

    @cached_property
    def planned_seen(self) -> dict[str, str]:
        """For each part with ends, the end the fitter is to see: as said, or as `must_face` demands."""
        found: dict[str, str] = {}
        for part in self.parts.values():
            if part.ends is None or part.into is None:
                continue
            said = self.value(part.shows)
            found[part.id] = said if said is not None else part.ends[0]
        for must in self.faces:
            part = self.parts[must.part]
            if part.ends is None or part.into is None or self.value(part.shows) is not None:
                continue
            for seen in part.ends:
                found[part.id] = seen
                if self._planned_direction(part.id, found, must.of or self.main, must.end) == self.value(
                    must.toward
                ):
                    break
        return found

    def _planned_direction(self, part: str, seen: dict[str, str], of: str, end: str) -> str | None:
        direction = 1 if end == self.ends(part)[0] else -1
        here: str | None = part
        while here is not None and here != of:
            direction *= self.turn(here, self.planned_end(here), seen.get(here, ""))
            here = self.parts[here].into if here in self.parts else None
        if here is None or direction == 0:
            return None
        return self.ends(of)[0 if direction > 0 else 1]
