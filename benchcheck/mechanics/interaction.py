"""Elastic interaction: what tightening one position of a group does to the preload of the others.

Here belong the influence of positions on each other, from stiffness or as measured, and what rounds in a
given order make of it. Which order is in pattern.py, what a torque gives one screw alone in preload.py.
Preloads are shares of the target preload. Everything here is an estimate and has to be shown as one: no
consistent published matrix with its measured result was found, so it is checked against theory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import fmean, pstdev

ESTIMATE = "an estimate: linear, without gasket creep, friction or yield"


class InteractionError(ValueError):
    """One sentence: which input makes no sense, and what was expected."""


@dataclass(frozen=True, slots=True)
class Influence:
    """How positions act on each other.

    `columns[j][i]`: change of preload at position i + 1 for each unit of preload added at position j + 1; one
    where i = j, and negative where tightening j unloads i.
    """

    columns: tuple[tuple[float, ...], ...]
    assumptions: tuple[str, ...]

    def __post_init__(self) -> None:
        count = len(self.columns)
        if count == 0 or any(len(column) != count for column in self.columns):
            raise InteractionError("an influence matrix has as many rows as columns, and at least one")
        for j, column in enumerate(self.columns):
            if column[j] != 1.0 or not all(
                abs(value) < 1 for i, value in enumerate(column) if i != j
            ):  # a nan is not below one either
                raise InteractionError(
                    f"position {j + 1} acts on itself by 1 and on others by less than 1 either way"
                )

    @property
    def positions(self) -> int:
        """How many positions there are."""
        return len(self.columns)


# Joint about four times as stiff as its screws: common practice for steel on steel. The flange between two
# positions as stiff as the joint under one: our own assumption.
JOINT_TO_BOLT = 4.0
FLANGE_TO_BOLT = 4.0


def circle_influence(
    positions: int, *, joint_to_bolt: float = JOINT_TO_BOLT, flange_to_bolt: float = FLANGE_TO_BOLT
) -> Influence:
    """Influence on a circle (or round any rim) of like, evenly spaced positions, from their stiffness.

    Each position is a bolt (stiffness 1) on its share of the joint (`joint_to_bolt`), and the flange ties it
    to its two neighbours (`flange_to_bolt`). With joint compressions y and nut travels t, force balance gives
    F = M·y = t − y, M circulant, so F = (1 − (1 + M)⁻¹)·t; this inverse is known in closed form.
    Raises InteractionError. Source: derived here; the inverse of a circulant tridiagonal matrix from algebra.
    """
    _check_stiffness(positions, joint_to_bolt, flange_to_bolt)
    diagonal = 1 + joint_to_bolt + 2 * flange_to_bolt
    root = math.sqrt(diagonal**2 - 4 * flange_to_bolt**2)
    decay = 2 * flange_to_bolt / (diagonal + root)
    scale = 1 / (root * (1 - decay**positions))
    inverse = [scale * (decay**k + decay ** (positions - k)) for k in range(positions)]
    own = 1 - inverse[0]
    first = (1.0, *(-value / own for value in inverse[1:]))
    columns = tuple(first[positions - j :] + first[: positions - j] for j in range(positions))
    return Influence(columns, _stiffness_assumptions(joint_to_bolt, flange_to_bolt))


def points_influence(
    points: Sequence[tuple[float, float]],
    *,
    joint_to_bolt: float = JOINT_TO_BOLT,
    flange_to_bolt: float = FLANGE_TO_BOLT,
) -> Influence:
    """Influence on a free-form layout: as on a circle, but the flange ties each position to every other.

    A tie weakens with the cube of the distance, as a beam in bending does; `flange_to_bolt` is that of the
    two nearest positions. Only ratios of distances matter, so the unit of the points does not.
    Raises InteractionError.
    """
    count = len(points)
    _check_stiffness(count, joint_to_bolt, flange_to_bolt)
    distances = [[math.dist(one, other) for other in points] for one in points]
    nearest = min((distances[i][j] for i in range(count) for j in range(i)), default=1.0)
    if not nearest > 0 or not math.isfinite(nearest):
        raise InteractionError("two positions lie on the same point, or a point is no number")
    matrix = [[0.0] * count for _ in range(count)]
    for i in range(count):
        matrix[i][i] = 1 + joint_to_bolt
        for j in range(count):
            if i != j:
                tie = flange_to_bolt * (nearest / distances[i][j]) ** 3
                matrix[i][i] += tie
                matrix[i][j] -= tie
    inverse = _inverse(matrix)
    columns = tuple(
        tuple(1.0 if i == j else -inverse[i][j] / (1 - inverse[j][j]) for i in range(count))
        for j in range(count)
    )
    further = "a tie of the flange weakens with the cube of the distance"
    return Influence(columns, (*_stiffness_assumptions(joint_to_bolt, flange_to_bolt), further))


def measured_influence(positions: int, losses: Sequence[float]) -> Influence:
    """Influence on a circle from measured shares of loss, for the next position, the one after it, and so on.

    `losses`: 0.05 means that tightening one takes 5 % of its preload from the other; negative is a gain;
    those not given are none. Raises InteractionError.
    """
    if positions < 1:
        raise InteractionError("a group has at least one position")
    if len(losses) > positions // 2:
        raise InteractionError(
            f"found {len(losses)} losses; on a circle of {positions} the farthest position is "
            f"{positions // 2} away"
        )
    by_distance = (1.0, *(-loss for loss in losses), *[0.0] * (positions // 2 - len(losses)))
    columns = tuple(
        tuple(by_distance[min((i - j) % positions, (j - i) % positions)] for i in range(positions))
        for j in range(positions)
    )
    return Influence(columns, (ESTIMATE, "losses as measured, the same all round the circle"))


def _check_stiffness(positions: int, joint_to_bolt: float, flange_to_bolt: float) -> None:
    if positions < 1:
        raise InteractionError("a group has at least one position")
    if not (0 < joint_to_bolt < math.inf and 0 < flange_to_bolt < math.inf):
        raise InteractionError("a joint and its flange are stiffer than nothing: both ratios lie above 0")


def _stiffness_assumptions(joint_to_bolt: float, flange_to_bolt: float) -> tuple[str, ...]:
    return (
        ESTIMATE,
        f"the joint under each position is {joint_to_bolt:g} times as stiff as its bolt",
        f"the flange between neighbours is {flange_to_bolt:g} times as stiff as a bolt",
    )


def _inverse(matrix: list[list[float]]) -> list[list[float]]:
    """Gauss-Jordan; without pivoting, since the matrices here are diagonally dominant."""
    count = len(matrix)
    rows = [[*row, *(1.0 if i == j else 0.0 for j in range(count))] for i, row in enumerate(matrix)]
    for k in range(count):
        pivot = rows[k][k]
        rows[k] = lead = [value / pivot for value in rows[k]]
        for i in range(count):
            factor = rows[i][k]
            if i != k and factor:
                rows[i] = [value - factor * other for value, other in zip(rows[i], lead, strict=True)]
    return [row[count:] for row in rows]


@dataclass(frozen=True, slots=True)
class Pass:
    """The group after one trip through its positions.

    `share`: of the target, that the wrench was set to. `preloads`: by position, as shares of the target.
    `moved`: positions whose fastener turned so far that a hand feels it.
    """

    share: float
    is_check: bool
    preloads: tuple[float, ...]
    moved: tuple[int, ...]

    @property
    def lowest(self) -> float:
        """Preload of the position that has least."""
        return min(self.preloads)

    @property
    def highest(self) -> float:
        """Preload of the position that has most."""
        return max(self.preloads)

    @property
    def scatter(self) -> float:
        """Standard deviation of the preloads over their mean."""
        return pstdev(self.preloads) / fmean(self.preloads)


def simulate(
    influence: Influence, order: Sequence[int], shares: Sequence[float], *, check_passes: int = 1
) -> tuple[Pass, ...]:
    """The preload of each position after each round, then after check passes clockwise at the full target.

    A wrench turns a fastener only up to its setting: one that holds more already does not move. One not yet
    tightened holds nothing and loses nothing. `order`: positions from 1. `shares`: of the target, one for
    each round. Raises InteractionError for an order that is no permutation, or shares out of 0 to 1.5.
    """
    _check_order(influence, order)
    if not all(0 < share <= 1.5 for share in shares):
        raise InteractionError("a round's share of the target lies above 0 and not above 1.5")
    preloads = [0.0] * influence.positions
    passes = []
    for share in shares:
        moved = _trip(influence, order, share, preloads)
        passes.append(Pass(share, False, tuple(preloads), moved))
    for _ in range(check_passes):
        moved = _trip(influence, range(1, influence.positions + 1), 1.0, preloads)
        passes.append(Pass(1.0, True, tuple(preloads), moved))
    return tuple(passes)


# A fastener that gains less than this share of the target is not seen to move: common practice.
_SEEN_TO_MOVE = 0.01


def _trip(influence: Influence, order: Sequence[int], share: float, preloads: list[float]) -> tuple[int, ...]:
    """Tightens each position of the order to the share, in place; the positions that were seen to move."""
    moved = []
    slack = 0.0 in preloads
    held = preloads
    for position in order:
        added = share - held[position - 1]
        if added <= 0.0:
            continue
        if added >= _SEEN_TO_MOVE:
            moved.append(position)
        column = influence.columns[position - 1]
        if slack:
            # A fastener that holds nothing has nothing to lose, and its neighbours do not pull it tight.
            held = [
                before + added * change if before > 0.0 else 0.0
                for before, change in zip(held, column, strict=True)
            ]
        else:
            held = [before + added * change for before, change in zip(held, column, strict=True)]
        if min(held) < 0.0:
            held = [max(after, 0.0) for after in held]
            slack = True
        held[position - 1] = share
    preloads[:] = held
    return tuple(moved)


def check_passes_worth_doing(
    influence: Influence, order: Sequence[int], shares: Sequence[float], *, gain: float = 0.01, most: int = 20
) -> int:
    """How many check passes are worth their time: each lifts the lowest preload by `gain` of the target.

    Raises InteractionError as `simulate` does.
    """
    passes = simulate(influence, order, shares, check_passes=most)[len(shares) - 1 :]
    for done, (before, after) in enumerate(pairwise(passes)):
        if after.lowest - before.lowest < gain:
            return done
    return most


def uniform_settings(influence: Influence, order: Sequence[int]) -> tuple[float, ...]:
    """What to tighten each position to, in one pass through the order, so that all end at the target.

    By position, as shares of the target. The last needs the target itself; each earlier one the target and
    all that the later ones will take from it. Raises InteractionError.
    """
    _check_order(influence, order)
    settings = [0.0] * influence.positions
    later: list[int] = []
    for position in reversed(order):
        settings[position - 1] = 1.0 - sum(
            influence.columns[other - 1][position - 1] * settings[other - 1] for other in later
        )
        later.append(position)
    return tuple(settings)


def _check_order(influence: Influence, order: Sequence[int]) -> None:
    if sorted(order) != list(range(1, influence.positions + 1)):
        raise InteractionError(f"the order has to name each of the positions 1 to {influence.positions} once")
