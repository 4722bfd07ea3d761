"""A pull, a turn or a round is missing, out of turn, of another size, or done with another wrench."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from benchcheck.assembly.faults.fault import Fault
from benchcheck.assembly.pump import Pump


@dataclass(frozen=True, slots=True, kw_only=True)
class InRound(Fault):
    """A fault in one round of a group."""

    round: int

    def harms(self, pump: Pump) -> bool:
        """An earlier round is made good by the next, the last one by the pass after it, if there is one."""
        group = pump.groups[self.thing]
        return self.is_last(pump) and (group.angle is not None or not group.has_pass)

    def is_last(self, pump: Pump) -> bool:
        """Whether it is the round that the pass after it looks at."""
        return self.round >= max(1, len(pump.groups[self.thing].rounds))


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionSkipped(InRound):
    """A position never gets its pull in a round: another one got it twice, and nobody noticed."""

    kind: ClassVar[str] = "position skipped"
    position: int

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: position {self.position} skipped in round {self.round}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundLeftOut(InRound):
    """A round is passed over: its positions get the torque of its neighbour."""

    kind: ClassVar[str] = "round left out"
    instead: int
    """The round whose torque they get."""

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: round {self.round} at the torque of round {self.instead}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionOutOfTurn(Fault):
    """Another position than the one that is due is pulled, and named."""

    kind: ClassVar[str] = "position out of turn"
    round: int
    position: int
    """The one pulled."""
    due: int

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}, round {self.round}: position {self.position} where {self.due} is due"


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueReading(Fault):
    """A wrench shows so many times what is wanted: pulled short, pulled too far, or read in another unit."""

    kind: ClassVar[str] = "torque reading"
    round: int
    factor: float
    because: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}, round {self.round}: {self.because}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningTorque(Fault):
    """A locking nut turns too easily or too hard, or was on its seat already when it was read."""

    kind: ClassVar[str] = "running torque"
    answer: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: running torque {self.answer}"


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnSkipped(Fault):
    """A position is never turned on by its angle: another one was turned twice, and nobody noticed."""

    kind: ClassVar[str] = "turn skipped"
    position: int

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: position {self.position} not turned on"


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnReading(Fault):
    """A position is turned on by so many times its angle."""

    kind: ClassVar[str] = "turn"
    factor: float
    because: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)}: {self.because}"


@dataclass(frozen=True, slots=True, kw_only=True)
class AnotherWrench(Fault):
    """Some wrench of the shop is taken, fit or not."""

    kind: ClassVar[str] = "unfit wrench"
    wrench: str

    def words(self, pump: Pump) -> str:
        return f"{pump.the(self.thing)} with {self.wrench}"
