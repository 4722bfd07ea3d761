"""What the rules look at: one procedure that reads well, the instruments of the shop, and the other
procedures.

What several rules need is worked out once here: the pump in each variant, and the walk of the guard over
its steps.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from benchcheck.assembly.pump import Pump
from benchcheck.checking.walk import Stop, walk
from benchcheck.mechanics.wrench import Wrench
from benchcheck.procedure.finding import Finding, Place, Severity
from benchcheck.procedure.model import Procedure
from benchcheck.procedure.reading import Read
from benchcheck.procedure.table import Table


@dataclass
class Subject:
    """One procedure under check."""

    read: Read[Procedure]
    wrenches: tuple[Wrench, ...] = ()
    others: tuple[Read[Procedure], ...] = field(default=())
    """The other procedures of the workspace."""

    @property
    def file(self) -> Procedure:
        return self.read.model

    @cached_property
    def pumps(self) -> dict[str | None, Pump]:
        """The pump for each variant."""
        return {variant: Pump(self.file, variant) for variant in self.file.procedure.variants or (None,)}

    @cached_property
    def stops(self) -> tuple[Stop, ...]:
        """Where the guard stops the procedure's own steps, in all variants and branches; each place once."""
        found: dict[tuple[str, str, str], Stop] = {}
        for pump in self.pumps.values():
            for stop in walk(pump):
                found.setdefault(
                    (stop.refusal.rule, stop.act.id if stop.act else "", stop.refusal.wrong), stop
                )
        return tuple(found.values())

    def stopped_by(self, rule: str) -> Iterator[Stop]:
        """The stops of one rule of the guard."""
        return (stop for stop in self.stops if stop.refusal.rule == rule)

    def place(self, table: Table, *keys: str | int) -> Place:
        """Where a value of a table stands; the table itself where the file leaves it out."""
        return self.read.place(table, *keys)

    def place_of(self, stop: Stop) -> Place:
        """Where in the file the stopped act is named."""
        if stop.act is None:
            return self.place(self.file.procedure)
        step, target = stop.act.step, stop.act.target
        for key, names in (("rings", step.rings), ("parts", step.parts), ("off", step.off)):
            if target in names:
                return self.place(step, key, names.index(target))
        if target and target == step.part:
            return self.place(step, "part")
        if target and target == step.group:
            return self.place(step, "group")
        return self.place(step, "id")

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
