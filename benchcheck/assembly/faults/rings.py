"""A ring or screw of another kind, or in another place."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from benchcheck.assembly.faults.fault import Fault, with_rings
from benchcheck.assembly.pump import Pump
from benchcheck.assembly.state import Assembly


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherRing(Fault):
    """A ring of another size or rubber goes into a groove."""

    kind: ClassVar[str] = "another ring"
    size: str
    material: str

    def words(self, pump: Pump) -> str:
        return f"a {self.size}, {self.material}, in {self.thing}"

    def true(self, now: Assembly) -> Assembly:
        rings = now.sealed.get(self.thing, ())
        wrong = tuple(replace(ring, size=self.size, material=self.material) for ring in rings)
        return with_rings(now, {self.thing: wrong})


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoInOne(Fault):
    """Two rings lie in one groove and none in its neighbour; the count is right."""

    kind: ClassVar[str] = "two rings in one groove"
    full: str

    def words(self, pump: Pump) -> str:
        return f"two rings in {self.full}, none in {self.thing}"

    def true(self, now: Assembly) -> Assembly:
        both = (*now.sealed.get(self.full, ()), *now.sealed.get(self.thing, ()))
        return with_rings(now, {self.full: both, self.thing: ()})


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherScrew(Fault):
    """Screws of another length go in."""

    kind: ClassVar[str] = "another screw"
    number: int
    """Which line of the group's screws."""
    item: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: {self.item} instead of {screws_of(pump, self.thing)[self.number]}"


def screws_of(pump: Pump, group: str) -> tuple[str, ...]:
    """What goes into a group in this variant, line by line."""
    return tuple(
        each.item for each in pump.groups[group].screws if not each.for_ or pump.variant in each.for_
    )
