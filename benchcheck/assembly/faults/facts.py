"""Order, time and facts: done too early, cut short, too late, outside its limits, another variant."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.assembly.faults.fault import Fault
from benchcheck.assembly.pump import Pump


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfOrder(Fault):
    """An act is put off, and one that comes after it is done first."""

    kind: ClassVar[str] = "order"
    first: str
    """The act that is done before its time."""

    def words(self, pump: Pump) -> str:
        return f"{self.first} before {self.act}"


@dataclass(frozen=True, slots=True, kw_only=True)
class CutShort(Fault):
    """A time that has to pass is not waited for: a clock, or the hold of a reading."""

    kind: ClassVar[str] = "time cut short"
    clock: str = ""

    def words(self, pump: Pump) -> str:
        return f"{self.clock or self.act} not waited for to the end"


@dataclass(frozen=True, slots=True, kw_only=True)
class TooLate(Fault):
    """A time that must not pass has passed."""

    kind: ClassVar[str] = "time overrun"
    clock: str

    def words(self, pump: Pump) -> str:
        return f"{self.clock} overrun"


@dataclass(frozen=True, slots=True, kw_only=True)
class FactOutside(Fault):
    """A reading outside its limits, or an answer that is not one of the good ones."""

    kind: ClassVar[str] = "fact outside"
    answer: str
    what: str

    def words(self, pump: Pump) -> str:
        return f"{self.what}: {self.answer}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherVariant(Fault):
    """The pump is of another variant than its stamp is read as."""

    kind: ClassVar[str] = "another variant"
    variant: str

    def words(self, pump: Pump) -> str:
        return f"it is a {self.variant}, taken for a {pump.variant}"
