"""The pump in motion: what is seated where, which rings lie in which grooves, what the fasteners hold.

An `Assembly` never changes: each motion gives a new one. It asks no question and refuses nothing (that is
`guard`); it only carries out, and works out what follows: which rings and single-use parts die.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from benchcheck.assembly.changed import changed
from benchcheck.assembly.pump import Pump
from benchcheck.procedure.model import SingleUse


@dataclass(frozen=True, slots=True)
class Seat:
    """One part's place: in or on which body, from which end, which way round."""

    body: str
    end: str
    """End of the body it went in from, or `side`."""
    turn: int
    """+1: its first end points as the body's first end; -1: turned; 0: on another axis."""
    angle: int | None
    """Its zero mark on the body [degree, clockwise from the body's first end]; None: not marked."""
    sequence: int
    instance: int


@dataclass(frozen=True, slots=True)
class Ring:
    """One ring in a groove."""

    size: str
    material: str
    sequence: int
    dead: bool = False


@dataclass(frozen=True, slots=True)
class Hold:
    """How far a fastener group is."""

    sequence: int
    rounds: int = 0
    """Rounds that are complete."""
    done: tuple[int, ...] = ()
    """Positions tightened in the round under way, in the order done."""
    passed: bool = False
    """The last round, and the check pass where there is one, are complete."""
    checked: tuple[int, ...] = ()
    """Positions already looked at in the check pass under way."""
    disposed: frozenset[int] = frozenset()
    """Positions that somebody entitled disposed of by name."""


def instance_name(thing: str, instance: int) -> str:
    return f"{thing}#{instance}"


@dataclass(frozen=True)
class Assembly:
    """Seated, sealed, held; and what has happened to the things themselves."""

    pump: Pump
    seated: Mapping[str, Seat] = field(default_factory=dict)
    sealed: Mapping[str, tuple[Ring, ...]] = field(default_factory=dict)
    held: Mapping[str, Hold] = field(default_factory=dict)
    poses: Mapping[str, str] = field(default_factory=dict)
    """For each work on the bench (named by its lowest body), the end that is up."""
    instances: Mapping[str, int] = field(default_factory=dict)
    """For each part, which one of it is in hand: 0 as it came in, then 1, 2 ..."""
    dead: frozenset[str] = frozenset()
    """Names of instances that may not be fitted (again)."""
    run: frozenset[str] = frozenset()
    """Names of instances that were in the pump while it ran."""
    sequence: int = 0

    # ------------------------------------------------------------------ looking

    def root(self, part: str) -> str:
        """The lowest body of the work a part is in; the part itself if it lies alone."""
        seated = self.seated
        while part in seated:
            part = seated[part].body
        return part

    def chain(self, part: str) -> list[str]:
        """The part, then each body under it, down to the lowest."""
        seated, found = self.seated, [part]
        while part in seated:
            part = seated[part].body
            found.append(part)
        return found

    def in_one_work(self, part: str, *others: str) -> bool:
        root = self.root(part)
        return all(self.root(other) == root for other in others)

    def present(self, part: str) -> bool:
        """Whether the part is in the work that main is in."""
        return self.in_one_work(part, self.pump.main)

    def instance(self, part: str) -> int:
        return self.instances.get(part, 0)

    def is_dead(self, part: str) -> bool:
        return instance_name(part, self.instance(part)) in self.dead

    def used_up(self, part: str) -> bool:
        """Whether the part, once in, may not stay: dead, and not by being in, as what is fitted once only."""
        return self.is_dead(part) and self.pump.parts[part].single_use is not SingleUse.FITTED

    def hidden(self, groove: str) -> bool:
        """Whether nobody can reach the groove: all that closes it is in one work with what carries it."""
        told = self.pump.grooves[groove]
        return self.in_one_work(told.in_, *told.closed_against)

    def closed(self, groove: str) -> bool:
        """Whether its ring is pressed: hidden, and tight where only tightening makes contact."""
        tightened_by = self.pump.grooves[groove].closed_by
        return self.hidden(groove) and (
            tightened_by is None or (tightened_by in self.held and self.held[tightened_by].rounds > 0)
        )

    @cached_property
    def hidden_grooves(self) -> frozenset[str]:
        return frozenset(groove for groove in self.pump.grooves if self.hidden(groove))

    @cached_property
    def closed_grooves(self) -> frozenset[str]:
        return frozenset(groove for groove in self.pump.grooves if self.closed(groove))

    def carried_by(self, part: str) -> tuple[str, ...]:
        """Everything seated on or in the part, directly or not."""
        return tuple(each for each in self.seated if each != part and part in self.chain(each))

    def living_rings(self, groove: str) -> tuple[Ring, ...]:
        return tuple(ring for ring in self.sealed.get(groove, ()) if not ring.dead)

    # ------------------------------------------------------------------ moving

    def turned_up(self, root: str, end: str) -> Assembly:
        return changed(self, poses={**self.poses, root: end})

    def replaced(self, part: str) -> Assembly:
        """A new one of the part (of its whole set) is in hand."""
        together = self.pump.sets[self.pump.parts[part].set or ""] if self.pump.parts[part].set else (part,)
        fresh = {each: self.instance(each) + 1 for each in together if each not in self.seated}
        return changed(self, instances={**self.instances, **fresh})

    def rejected(self, part: str) -> Assembly:
        """The part in hand (its whole set) is scrap; what is not seated is replaced at once."""
        return self._with_dead(part).replaced(part)

    def installed(self, part: str, end: str, turn: int, angle: int | None) -> Assembly:
        body = self.pump.parts[part].into
        assert body is not None
        sequence = self.sequence + 1
        seat = Seat(body, end, turn, angle, sequence, self.instance(part))
        poses = {root: up for root, up in self.poses.items() if root != part}
        moved = changed(self, seated={**self.seated, part: seat}, sequence=sequence, poses=poses)
        if self.pump.parts[part].single_use is SingleUse.FITTED:
            moved = moved._with_dead(part)
        return moved

    def removed(self, part: str) -> Assembly:
        """The part is out, with all it carries; what that opens or disturbs dies by its own rule."""
        seated = {each: seat for each, seat in self.seated.items() if each != part}
        moved = changed(self, seated=seated, sequence=self.sequence + 1)
        moved = moved._rings_die(self.closed_grooves)
        single_use = self.pump.parts[part].single_use
        name = instance_name(part, self.instance(part))
        if single_use in (SingleUse.DISTURBED, SingleUse.FITTED) or (
            single_use is SingleUse.RUN and name in self.run
        ):
            moved = moved._with_dead(part)
        return moved

    def never_in(self, part: str) -> Assembly:
        """The record had the part in by mistake: it is not in its place, and nothing dies by that."""
        seated = {each: seat for each, seat in self.seated.items() if each != part}
        return changed(self, seated=seated, sequence=self.sequence + 1)

    def fitted(self, groove: str, size: str, material: str) -> Assembly:
        """A ring is in the groove; a dead one that lay there came out for it."""
        sequence = self.sequence + 1
        rings = (*self.living_rings(groove), Ring(size, material, sequence))
        return changed(self, sealed={**self.sealed, groove: rings}, sequence=sequence)

    def lifted(self, groove: str) -> Assembly:
        return changed(
            self,
            sealed={each: rings for each, rings in self.sealed.items() if each != groove},
            sequence=self.sequence + 1,
        )

    def started(self, group: str) -> Assembly:
        sequence = self.sequence + 1
        return changed(self, held={**self.held, group: Hold(sequence)}, sequence=sequence)

    def tightened(self, group: str, position: int, *, rounds: int, count: int, has_pass: bool) -> Assembly:
        """One position of the round under way is done; the round, when that was the last of `count`."""
        hold = self.held[group]
        done = (*hold.done, position)
        if len(set(done) | hold.disposed) >= count:
            finished = hold.rounds + 1
            hold = replace(hold, rounds=finished, done=(), passed=finished >= rounds and not has_pass)
        else:
            hold = replace(hold, done=done)
        return self._holding(group, hold)

    def checked(self, group: str, position: int, *, moved: bool, count: int) -> Assembly:
        """One position of the check pass is looked at; one that moved begins the pass again, from itself.

        Where it is the only one, it is looked at again: a pass ends when nothing moves.
        """
        hold = self.held[group]
        checked = (position,) if moved else (*hold.checked, position)
        all_round = len(set(checked) | hold.disposed) >= count
        return self._holding(
            group, replace(hold, checked=() if all_round else checked, passed=all_round and not moved)
        )

    def last_position_undone(self, group: str) -> Assembly:
        """The last position of the round under way is to be done again."""
        hold = self.held[group]
        return self._holding(group, replace(hold, done=hold.done[:-1]))

    def turned_on(self, group: str, position: int, *, count: int) -> Assembly:
        """One position is turned on by its angle after its last round; with the last one, the group"""
        hold = self.held[group]
        turned = (*hold.checked, position)
        finished = len(set(turned) | hold.disposed) >= count
        return self._holding(group, replace(hold, checked=turned, passed=finished))

    def round_restarted(self, group: str) -> Assembly:
        """An interruption inside a round takes the round back to its first position."""
        return self._holding(group, replace(self.held[group], done=(), checked=()))

    def position_disposed(
        self, group: str, position: int, *, rounds: int, count: int, has_pass: bool
    ) -> Assembly:
        """One position is out of it for good; what was waiting for it alone is complete."""
        hold = self.held[group]
        hold = replace(hold, disposed=hold.disposed | {position})
        while hold.rounds < rounds and len(set(hold.done) | hold.disposed) >= count:
            finished = hold.rounds + 1
            hold = replace(hold, rounds=finished, done=(), passed=finished >= rounds and not has_pass)
        if hold.rounds >= rounds and len(set(hold.checked) | hold.disposed) >= count:
            hold = replace(hold, checked=(), passed=True)
        return self._holding(group, hold)

    def loosened(self, group: str) -> Assembly:
        """The whole group is slack and its fasteners out of hand; what was tight and single-use dies."""
        was = self.held.get(group)
        moved = changed(
            self,
            held={each: hold for each, hold in self.held.items() if each != group},
            sequence=self.sequence + 1,
        )
        moved = moved._rings_die(self.closed_grooves)
        if was is not None and (was.rounds or was.done):
            for part in self.pump.groups[group].parts:
                if self.pump.parts[part].single_use is SingleUse.DISTURBED:
                    moved = moved._with_dead(part)
        return moved

    def ran(self) -> Assembly:
        """The pump has run: every instance in it bears the mark."""
        inside = {
            instance_name(part, seat.instance) for part, seat in self.seated.items() if self.present(part)
        } | {instance_name(self.pump.main, self.instance(self.pump.main))}
        return changed(self, run=self.run | inside)

    def _holding(self, group: str, hold: Hold) -> Assembly:
        return changed(self, held={**self.held, group: hold}, sequence=self.sequence + 1)

    def _with_dead(self, part: str) -> Assembly:
        """The instance in hand is dead, and with it all of its set."""
        told = self.pump.parts[part]
        together = self.pump.sets[told.set] if told.set else (part,)
        return changed(self, dead=self.dead | {instance_name(each, self.instance(each)) for each in together})

    def _rings_die(self, were_closed: frozenset[str]) -> Assembly:
        """A ring whose groove was closed and is open again is dead."""
        opened = were_closed - self.closed_grooves
        if not opened:
            return self
        sealed = dict(self.sealed)
        for groove in opened:
            sealed[groove] = tuple(replace(ring, dead=True) for ring in sealed.get(groove, ()))
        return changed(self, sealed=sealed)
