"""One tightening of a fastener group: what each position got, against what it should get.

Figures only. Limits come from the procedure, not from the mark that the bench put on a reading: it is judged
anew here. What is said of it, and how that is laid out, is for the sections and the tables.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from benchcheck.assembly.planned import order_of, rounds_of
from benchcheck.assembly.tightening import round_target, share_shown
from benchcheck.mechanics.units import Quantity, QuantityError, convert
from benchcheck.procedure.model import Fasteners
from benchcheck.report.journal import Journal, Run
from benchcheck.report.words import OUTSIDE, UNGUARDED
from benchcheck.session.acts.joints import at_position
from benchcheck.session.events import PositionChecked, PositionDisposed, PositionTightened, PositionTurned

_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Limits:
    """What a wrench may show for one position in one round."""

    low: float
    target: float
    high: float
    unit: str

    def sign(self, value: float) -> str:
        room = _SLACK * self.target
        return "" if self.low - room <= value <= self.high + room else OUTSIDE


@dataclass(frozen=True)
class Tightened:
    """A run of a group, and what was asked of it."""

    journal: Journal
    group: Fasteners
    run: Run

    @property
    def order(self) -> tuple[int, ...]:
        """Positions in the order that was asked."""
        return order_of(self.journal.state.pump, self.group.id)

    @property
    def rounds(self) -> int:
        return rounds_of(self.journal.state.pump, self.group.id)

    @property
    def positions(self) -> range:
        return range(1, self.group.count + 1)

    def share(self, round_number: int) -> str:
        """The share of the target that a round goes to: "30 %"."""
        return str(self.group.rounds[round_number - 1]) if self.group.rounds else "100 %"

    def reading(self, position: int, round_number: int) -> PositionTightened | None:
        """What counts for a position in a round."""
        found = [
            each for each in self._tightenings() if (each.position, each.round) == (position, round_number)
        ]
        return found[-1] if found else None

    def turn(self, position: int) -> PositionTurned | None:
        """The turn that counts for a position of a group that is turned on."""
        found = [
            each
            for each in self.run.turned
            if isinstance(each, PositionTurned)
            and each.position == position
            and each.number not in self.run.lost
        ]
        return found[-1] if found else None

    def looks(self, position: int) -> tuple[PositionChecked, ...]:
        """The check pass: each look at the position."""
        return tuple(each for each in self.run.checked if each.position == position)

    def disposals(self) -> tuple[PositionDisposed, ...]:
        """The positions of this run that were decided on by name."""
        end = self.run.loosened or len(self.journal.events) + 1
        return tuple(
            each
            for each in self.journal.of(PositionDisposed)
            if each.group == self.group.id and self.run.began < each.number < end
        )

    def done_again(self) -> tuple[PositionTightened, ...]:
        """Tightenings that do not count, since their round was begun again."""
        return tuple(
            each
            for each in self.run.turned
            if isinstance(each, PositionTightened) and each.number in self.run.lost
        )

    def done_order(self, round_number: int) -> tuple[int, ...]:
        """The positions of a round in the order in which they were done."""
        return tuple(each.position for each in self._tightenings() if each.round == round_number)

    def other_order(self, round_number: int) -> bool:
        """Whether a round was done in another order than asked."""
        done = self.done_order(round_number)
        return done != tuple(each for each in self.order if each in done)

    def unit(self, round_number: int | None = None) -> str:
        """The unit a round (the last one done, if none is named) was done in, else that of the target."""
        for each in reversed(self.run.turned):
            if isinstance(each, PositionTightened) and each.unit and round_number in (None, each.round):
                return each.unit
        return self.group.torque.target.unit if self.group.torque else ""

    # ------------------------------------------------------------------ against what was asked

    def limits(self, round_number: int) -> Limits | None:
        """The limits of a round at the screw, in its unit; None for a group without a torque, or by hand."""
        if round_number in self.group.without_wrench:
            return None
        return self._limits(self.group, round_number, self.unit(round_number), 1.0)

    def limits_for(self, event: PositionTightened | PositionChecked) -> Limits | None:
        """The limits of one tightening, or of one look in the pass, as its wrench shows them.

        None for a group without a torque, and where a crow-foot changes what is shown and the wrench is no
        longer in the register.
        """
        share = self._share(event)
        here = at_position(self.journal.state, self.group, event.position)
        round_number = event.round if isinstance(event, PositionTightened) else self.rounds
        return None if share is None else self._limits(here, round_number, event.unit, share)

    def sign(self, event: PositionTightened | PositionChecked) -> str:
        """Nothing for a tightening inside its limits, else the sign that stands beside it."""
        limits = self.limits_for(event)
        if limits is not None and (sign := limits.sign(event.value)):
            return sign
        if not event.marked:
            return ""
        return UNGUARDED if event.marked.startswith("outside the guarded") else OUTSIDE

    def turn_limits(self) -> Limits | None:
        """Least and most turn, for a group that is turned on."""
        if self.group.angle is None:
            return None
        add, room = self.group.angle.add.to("°"), self.group.angle.tolerance.to("°")
        return Limits(add - room, add, add + room, "°")

    def turn_sign(self, event: PositionTurned) -> str:
        limits = self.turn_limits()
        return limits.sign(event.degree) if limits is not None else ""

    def signs(self) -> Iterator[tuple[str, PositionTightened | PositionTurned]]:
        """Each tightening that counts and has a sign."""
        for event in self.standing():
            if sign := self.sign(event) if isinstance(event, PositionTightened) else self.turn_sign(event):
                yield sign, event

    def standing(self) -> Iterator[PositionTightened | PositionTurned]:
        """What counts, position by position."""
        for position in self.positions:
            found = (self.reading(position, number) for number in range(1, self.rounds + 1))
            yield from (each for each in found if each is not None)
            if turn := self.turn(position):
                yield turn

    def _tightenings(self) -> list[PositionTightened]:
        return [
            each
            for each in self.run.turned
            if isinstance(each, PositionTightened) and each.number not in self.run.lost
        ]

    def _limits(self, group: Fasteners, round_number: int, unit: str, share: float) -> Limits | None:
        if group.torque is None or not unit:
            return None
        wanted = round_target(group, round_number, self._running())
        return Limits(
            convert(wanted.low_newton_metre, "N·m", unit) * share,
            wanted.target.to(unit) * share,
            convert(wanted.high_newton_metre, "N·m", unit) * share,
            unit,
        )

    def _running(self) -> Quantity | None:
        read = self.run.running_torque
        return Quantity(Decimal(str(read.value)), read.unit) if read is not None else None

    def _share(self, event: PositionTightened | PositionChecked) -> float | None:
        """What the wrench shows of what the screw gets."""
        wrench = self.journal.state.job.registers.wrench(event.wrench)
        try:
            return share_shown(self.group, event.position, wrench)
        except QuantityError:
            return None


def all_tightened(journal: Journal) -> Iterator[Tightened]:
    """Every tightening, also those that were loosened again."""
    for run in journal.runs:
        yield Tightened(journal, journal.state.pump.groups[run.group], run)


def standing_tightened(journal: Journal) -> Iterator[Tightened]:
    """The tightenings that stand, in the order of the procedure's groups."""
    for group in journal.state.pump.groups.values():
        yield from (
            Tightened(journal, group, run)
            for run in journal.runs
            if run.group == group.id and not run.loosened
        )
