"""What the rules look at: one procedure that reads well, the instruments of the shop, and the other
procedures.

What several rules need is worked out once here: the pump in each variant, and the walk of the guard over
its steps. Words for findings are in `wording`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property

from benchcheck.assembly.acts import Act, Verb, all_acts
from benchcheck.assembly.pump import Pump
from benchcheck.checking.texts import Passage, about, instructions
from benchcheck.checking.variants import is_sound
from benchcheck.checking.walk import Case, Stop, Walk, walks
from benchcheck.checking.wrenches import Pull, pulls
from benchcheck.mechanics.gauge import Gauge
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.model import Fasteners, Groove, Part, Procedure, Step
from benchcheck.procedure.reading import Read
from benchcheck.procedure.table import Table


@dataclass
class Subject:
    """One procedure under check."""

    read: Read[Procedure]
    wrenches: tuple[Wrench, ...] = ()
    gauges: tuple[Gauge, ...] = ()
    others: tuple[Read[Procedure], ...] = field(default=())
    """The other procedures of the workspace."""
    found: list[Finding] = field(default_factory=list)
    """What the other rules have found, for the rule on silences, which is run last."""

    @property
    def file(self) -> Procedure:
        return self.read.model

    @cached_property
    def pumps(self) -> dict[str | None, Pump]:
        """The pump for each variant in which everything that is named is there."""
        pumps = {variant: Pump(self.file, variant) for variant in self.file.procedure.variants or (None,)}
        return {variant: pump for variant, pump in pumps.items() if is_sound(pump)}

    @cached_property
    def walks(self) -> tuple[Walk, ...]:
        """Every way through the steps, in all variants and branches."""
        return tuple(walk for pump in self.pumps.values() for walk in walks(pump))

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """Where the guard stops the file's own steps; each once, with all the ways on which it happens."""
        found: dict[tuple[str, str, str], Stop] = {}
        for walk in self.walks:
            for stop in walk.stops:
                key = (stop.refusal.rule, stop.about, stop.act.step.id if stop.act else "")
                first = found.get(key)
                found[key] = stop if first is None else replace(first, cases=first.cases + stop.cases)
        return tuple(found.values())

    @cached_property
    def pulls(self) -> tuple[Pull, ...]:
        """Every different pull of every group, and what the registered wrenches say to it."""
        return tuple(pull for group in self.file.fasteners for pull in pulls(group, self.wrenches))

    @cached_property
    def instructions(self) -> tuple[Passage, ...]:
        """All that tells somebody what to do."""
        return tuple(instructions(self.file))

    @cached_property
    def told_of(self) -> dict[str, tuple[Passage, ...]]:
        """What is said of each group alone."""
        return {group.id: tuple(about(self.file, group)) for group in self.file.fasteners}

    def stopped_by(self, rule: str) -> Iterator[Stop]:
        """The stops of one rule of the guard."""
        return (stop for stop in self.stops if stop.refusal.rule == rule)

    def acts_stopped_by(self, rule: str) -> Iterator[tuple[Stop, Act]]:
        """The same without what only stands against release at the end."""
        return ((stop, stop.act) for stop in self.stopped_by(rule) if stop.act is not None)

    def when(self, cases: tuple[Case, ...]) -> str:
        """On which ways something happens, as the end of a sentence; empty if on all."""
        words = []
        every = tuple(walk.case for walk in self.walks)
        variants = list(dict.fromkeys(case.variant for case in cases))
        if len(variants) < len({case.variant for case in every}):
            words.append(f"for {' and '.join(str(each) for each in variants)}")
        for name in dict.fromkeys(name for case in cases for name, _ in case.verdicts):
            values = list(dict.fromkeys(dict(case.verdicts)[name] for case in cases))
            if len(values) < len(
                {dict(case.verdicts)[name] for case in every if name in dict(case.verdicts)}
            ):
                words.append(f"when `{name}` is " + " or ".join(f'"{value}"' for value in values))
        return f" {', '.join(words)}" if words else ""

    # ------------------------------------------------------------------ places

    def place(self, table: Table, *keys: str | int) -> Place:
        """Where a value of a table stands; the table itself where the file leaves it out."""
        return self.read.place(table, *keys)

    def line(self, table: Table, *keys: str | int) -> str:
        """The same as a person is told it inside a sentence."""
        return f"line {self.place(table, *keys).line}"

    def place_of(self, stop: Stop) -> Place:
        """Where in the file the stopped act is named; at the end, the thing that it is about."""
        if stop.act is not None:
            return self.place_of_act(stop.act)
        return self.place_of_thing(stop.about)

    def place_of_act(self, act: Act) -> Place:
        step, target = act.step, act.target
        for key, names in (("rings", step.rings), ("parts", step.parts), ("off", step.off)):
            if target in names:
                return self.place(step, key, names.index(target))
        if target and target == step.part:
            return self.place(step, "part")
        if target and target == step.group:
            return self.place(step, "group")
        return self.place(step, "id")

    def place_of_part(self, step: Step, part: str) -> Place:
        """Where a step names a part that it fits."""
        return (
            self.place(step, "part")
            if part == step.part
            else self.place(step, "parts", step.parts.index(part))
        )

    def place_of_thing(self, thing: str) -> Place:
        """Where a part, a groove or a group is declared; the head for what is none of them."""
        table = self.thing(thing)
        return self.place(self.file.procedure) if table is None else self.place(table, "id")

    def thing(self, name: str) -> Part | Groove | Fasteners | None:
        """The part, groove or group of that id."""
        things: tuple[Part | Groove | Fasteners, ...]
        things = (*self.file.part, *self.file.groove, *self.file.fasteners)
        return next((each for each in things if each.id == name), None)

    def part(self, name: str) -> Part | None:
        return next((each for each in self.file.part if each.id == name), None)

    def group(self, name: str) -> Fasteners | None:
        return next((each for each in self.file.fasteners if each.id == name), None)

    def never_put_in(self) -> dict[str, tuple[Case, ...]]:
        """Parts and groups of the finished pump that no step puts in, with the ways on which that is so."""
        found: dict[str, tuple[Case, ...]] = {}
        for walk in self.walks:
            for thing in walk.never_put_in:
                found[thing] = (*found.get(thing, ()), walk.case)
        return found

    def step(self, name: str) -> Step | None:
        return next((step for step in self.file.step if step.id == name), None)

    def where_is(self, step: Step) -> str:
        """A step, and where it stands, inside a sentence."""
        return f"`{step.id}` ({self.line(step, 'id')})"

    def steps_with(self, thing: str, *verbs: Verb) -> tuple[Step, ...]:
        """The steps that do any of this to a part, a groove or a group, in file order."""
        places = {place for verb in verbs for place in self._places_of_acts.get((thing, verb), ())}
        return tuple(self.file.step[place] for place in sorted(places))

    @cached_property
    def _places_of_acts(self) -> dict[tuple[str, Verb], set[int]]:
        """For each thing, and what is done to it, the places of the steps that do it."""
        place_of = {step.id: place for place, step in enumerate(self.file.step)}
        found: dict[tuple[str, Verb], set[int]] = {}
        for pump in self.pumps.values():
            for act in all_acts(pump):
                found.setdefault((act.target, act.verb), set()).add(place_of[act.step.id])
        return found

    def before(self, one: Step, other: Step) -> bool:
        """Whether a step stands before another in the file."""
        return self.file.step.index(one) < self.file.step.index(other)

    # ------------------------------------------------------------------ findings

    def finding(
        self,
        rule: str,
        severity: Severity,
        table: Table,
        keys: tuple[str | int, ...],
        message: str,
        remedy: str,
    ) -> Finding:
        return Finding(rule, severity, self.place(table, *keys), message, remedy)
