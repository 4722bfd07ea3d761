"""Which registered wrenches can do a group, round by round, and what the others fail at.

The calibration's last day plays no part: a finding must not come and go with the date. What a wrench can
show is worked out in `mechanics.wrench`, what a round is to be in `assembly.tightening`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from benchcheck.assembly.tightening import Target, figure, round_target
from benchcheck.mechanics.units import Quantity
from benchcheck.mechanics.wrench import Hurdle, Refused, Setting, Wrench
from benchcheck.procedure.model import Fasteners

_ORDER: tuple[Hurdle, ...] = (
    "direction",
    "extension",
    "starts above",
    "ends below",
    "accuracy",
    "graduation",
)
_REACH: tuple[Hurdle, ...] = ("starts above", "ends below")
_MOST_SHOWN = 2


@dataclass(frozen=True, slots=True)
class Pull:
    """One kind of pull of a group: a round at positions that are alike, and what each wrench says to it."""

    group: Fasteners
    round_number: int
    crowfoot: bool
    wanted: Target
    wrenches: tuple[Wrench, ...]
    outcomes: tuple[Setting | Refused, ...]
    """Of each of these wrenches."""
    only_turned: bool = False
    """Whether that is how it would be if they were calibrated for left-hand threads too; as they are, none
    can do it."""

    @property
    def settings(self) -> tuple[Setting, ...]:
        """What the wrenches that can do it are set to."""
        able = () if self.only_turned else self.outcomes
        return tuple(each for each in able if isinstance(each, Setting))

    @property
    def hurdle(self) -> Hurdle | None:
        """What stops the wrenches that come farthest; None if one can do it."""
        if self.settings:
            return None
        return self._farthest[0].hurdle if self._farthest else "direction"

    @property
    def all_start_above(self) -> bool:
        """Whether the wrenches that come farthest are all too large."""
        return self.hurdle == "starts above" and {each.hurdle for each in self._farthest} == {"starts above"}

    @property
    def _farthest(self) -> list[Refused]:
        """Those that come farthest; none if it is only that no wrench is calibrated left-handed."""
        refused = [each for each in self.outcomes if isinstance(each, Refused)]
        if len(refused) < len(self.outcomes):
            return []

        def stage(each: Refused) -> int:
            return _ORDER.index(_REACH[0] if each.hurdle in _REACH else each.hurdle)

        last = max(map(stage, refused))
        return sorted((each for each in refused if stage(each) == last), key=self._farness)

    def _farness(self, refused: Refused) -> float:
        """How far a wrench is from doing it: how many times its range would have to be shifted."""
        wrench = next(each for each in self.wrenches if each.id == refused.wrench)
        wanted, low, high = self.wanted.target.si, wrench.usable_from.si, wrench.high.si
        if refused.hurdle in _REACH:
            return max(low / wanted, wanted / high)
        return float(wrench.accuracy)

    def reasons(self) -> str:
        """What stops the wrenches that come farthest, wrench by wrench."""
        farthest = self._farthest[:_MOST_SHOWN]
        # behind the semicolon stands what the wrench is to do, and that is said already
        shown = [f"{each.wrench} {each.why.partition(';')[0]}" for each in farthest]
        more = len(self._farthest) - len(shown)
        return "; ".join(shown) + (f"; and {more} more" if more else "")

    @property
    def words(self) -> str:
        """What is pulled, as in "round 2 of `F1`, 42 N·m"."""
        name = (
            f"round {self.round_number} of `{self.group.id}`"
            if len(self.group.rounds) > 1
            else f"`{self.group.id}`"
        )
        return f"{name}{' with its crow-foot' if self.crowfoot else ''}, {self.wanted.target}"


def pulls(group: Fasteners, wrenches: Sequence[Wrench]) -> Iterator[Pull]:
    """Every pull of a group that is different, in the order of its rounds; none without torque or wrench.

    A locking nut is pulled at its target and its least and its most running torque.
    """
    if group.torque is None or not wrenches:
        return
    prevailing = group.prevailing
    runnings: tuple[Quantity | None, ...] = (prevailing.min, prevailing.max) if prevailing else (None,)
    for round_number in group.rounds_with_wrench:
        for position, crowfoot in _positions(group):
            for running in runnings:
                wanted = round_target(group, round_number, running)
                if not wanted.target.value:
                    continue
                outcomes = _outcomes(group, wrenches, round_number, position, running)
                pull = Pull(group, round_number, crowfoot, wanted, tuple(wrenches), outcomes)
                if group.hand == "left" and not pull.settings:
                    right_hand = group.model_copy(update={"hand": "right"})
                    turned = _outcomes(right_hand, wrenches, round_number, position, running)
                    pull = replace(pull, outcomes=turned, only_turned=True)
                yield pull


def plain(pulls: Sequence[Pull]) -> Iterator[Pull]:
    """Those without a crow-foot, and of a group that has no others, all."""
    without = [pull.group.id for pull in pulls if not pull.crowfoot]
    return (pull for pull in pulls if not pull.crowfoot or pull.group.id not in without)


def firsts(pulls: Sequence[Pull], hurdle: Hurdle) -> Iterator[Pull]:
    """The first plain pull of each group that all wrenches fail at for this."""
    seen: list[Fasteners] = []
    for pull in plain(pulls):
        if pull.hurdle == hurdle and not any(pull.group is each for each in seen):
            seen.append(pull.group)
            yield pull


def _outcomes(
    group: Fasteners, wrenches: Sequence[Wrench], round_number: int, position: int, running: Quantity | None
) -> tuple[Setting | Refused, ...]:
    return tuple(figure(group, each, round_number, position, date.min, running) for each in wrenches)


def _positions(group: Fasteners) -> list[tuple[int, bool]]:
    """One position of each kind: reached by the wrench itself, and with a crow-foot."""
    with_foot = group.crowfoot.at if group.crowfoot else ()
    plain = next((each for each in range(1, group.count + 1) if each not in with_foot), None)
    found = [(plain, False)] if plain is not None else []
    return [*found, (with_foot[0], True)] if with_foot else found
