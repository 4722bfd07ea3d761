"""Which parts a test puts under pressure, and what they bear. For the rules on test pressures.

All of them are gauge pressures, above the air around:
a test reads them off a gauge, and a drawing means them so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchcheck.checking.subject import Subject
from benchcheck.mechanics.units import Quantity
from benchcheck.procedure.model import Ask, Part, Phase, Step


@dataclass(frozen=True, slots=True)
class Pressing:
    """One question of a test that is answered with a pressure."""

    step: Step
    ask: Ask
    key: str
    """Which limit says the most."""
    most: Quantity
    reached: tuple[Part, ...]
    """The parts it reaches that say what they bear."""

    @property
    def presses(self) -> bool:
        """Whether a pressure has to be there; a reading with an upper limit alone only watches one."""
        return self.ask.min is not None and self.ask.min.value > 0


def pressings(subject: Subject) -> Iterator[Pressing]:
    """Every pressure of the tests, in file order."""
    for step in subject.file.step:
        if step.phase is not Phase.TEST:
            continue
        for ask in step.ask:
            key, most = ("max", ask.max) if ask.max is not None else ("min", ask.min)
            if most is None or most.kind != "pressure":
                continue
            reached = (
                part
                for part in subject.file.part
                if part.bears is not None
                and part.id in (ask.presses or (part.id,))
                and _in_one_variant(step, part)
            )
            yield Pressing(step, ask, key, most, tuple(reached))


def _in_one_variant(step: Step, part: Part) -> bool:
    return not step.for_ or not part.for_ or bool({*step.for_} & {*part.for_})
