"""What is to be said of a tightening pattern: its order, its rounds, a drawing, and what it does to the
preloads.

Here belong the words and the layout. Orders come from mechanics.pattern, the estimate of preloads from
mechanics.interaction; the command line and the application only hand in what was asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from benchcheck.mechanics import interaction
from benchcheck.mechanics import pattern as patterns
from benchcheck.mechanics.units import Quantity, parse
from benchcheck.report.position_drawing import draw

_USUAL_ROUNDS = "30,70,100"


@dataclass(frozen=True, slots=True)
class Interaction:
    """What the pattern is estimated to leave: after each trip, and the settings that would end uniform."""

    passes: tuple[interaction.Pass, ...]
    passes_worth_doing: int
    uniform_settings: tuple[float, ...]
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """One pattern: what was asked, and what follows."""

    layout: str
    places: tuple[patterns.Place, ...]
    order: tuple[int, ...]
    own_order: bool
    remarks: tuple[str, ...]
    rounds: tuple[Decimal, ...]
    target: Quantity | None
    groups: tuple[tuple[int, ...], ...]
    interaction: Interaction | None

    @property
    def has_pass(self) -> bool:
        """Whether a clockwise pass follows: more than one position, more than one round."""
        return len(self.order) > 1 and len(self.rounds) > 1

    def round_torque(self, share: Decimal) -> Quantity | None:
        """The torque of a round, exact, in the target's unit."""
        return (
            None
            if self.target is None
            else Quantity((self.target.value * share).normalize(), self.target.unit)
        )


def answer(
    *,
    circle: int | None = None,
    rectangle: str | None = None,
    points: Sequence[patterns.Place] | None = None,
    order: str | None = None,
    rounds: str | None = None,
    target: str | None = None,
    group_size: int | None = None,
    with_interaction: bool = False,
) -> Answer:
    """Works out what was asked of exactly one layout.

    Parameters
    ----------
    circle : number of positions on a circle
    rectangle : "2x4": rows and columns
    points : places, x to the right and y up
    order : an order of one's own to look at, "1-3-2-4"
    rounds : shares of the target in percent, "30,70,100"
    target : the torque of the last round
    group_size : neighbours tightened together, on a circle

    Raises PatternError, QuantityError or InteractionError with one sentence to show.
    """
    if sum(each is not None for each in (circle, rectangle, points)) != 1:
        raise patterns.PatternError("give exactly one layout: a circle, a rectangle or points")
    if circle is not None:
        layout, places = f"circle of {circle}", patterns.circle_places(circle)
        made = patterns.circle_order(circle)
    elif rectangle is not None:
        rows, columns = _rows_and_columns(rectangle)
        layout, places = f"rectangle of {rows} x {columns}", patterns.rectangle_places(rows, columns)
        made = patterns.rectangle_order(rows, columns)
    else:
        places = _fitted(points or ())
        layout, made = f"{len(places)} points", patterns.points_order(points or ())
    own = _own_order(order, len(places)) if order is not None else None
    if group_size is not None and circle is None:
        raise patterns.PatternError("groups of neighbours are for a circle")
    taken = own or made
    shares = patterns.round_shares(
        f"{each.strip()} %" for each in (rounds or _USUAL_ROUNDS).rstrip("%").split(",")
    )
    return Answer(
        layout=layout,
        places=places,
        order=taken,
        own_order=own is not None,
        remarks=patterns.circle_order_remarks(own) if own is not None and circle is not None else (),
        rounds=shares,
        target=parse(target, "torque") if target is not None else None,
        groups=patterns.group_order(len(places), group_size) if group_size is not None else (),
        interaction=_interaction(circle, places, taken, shares) if with_interaction else None,
    )


def as_text(said: Answer) -> str:
    """The answer for a person: drawn, then the order and its rounds."""
    blocks = []
    if drawing := draw(said.places, said.order):
        blocks.append(["Where each sits, and when it comes: 3:2 is position 3, the second", *drawing])
    blocks.append(
        [
            f"Order: {said.layout}" if not said.own_order else f"Order as given: {said.layout}",
            _strip(said.order),
        ]
    )
    if said.remarks:
        blocks.append(["Remarks", *(f"  {remark}" for remark in said.remarks)])
    if said.groups:
        groups = [
            f"  {number:>3}  {_strip(group).strip()}" for number, group in enumerate(said.groups, start=1)
        ]
        blocks.append(["In groups, one after the other", *groups])
    blocks.append(["Rounds", *_round_lines(said)])
    blocks.append(["To loosen, backwards and little by little", _strip(patterns.loosening_order(said.order))])
    if said.interaction is not None:
        blocks.append(_interaction_lines(said.interaction))
    blocks.append(["Sources", *(f"  {line}" for line in _sources(said))])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def as_json(said: Answer) -> dict[str, object]:
    """The answer for programs; a quantity is {"value", "unit"}, a share is of one."""
    return {
        "layout": said.layout,
        "order": list(said.order),
        "labels_clockwise": list(patterns.labels_clockwise(said.order)),
        "remarks": list(said.remarks),
        "rounds": [
            {"share": float(share), "torque": _quantity(said.round_torque(share))} for share in said.rounds
        ],
        "pass": list(patterns.clockwise_pass(len(said.order))) if said.has_pass else None,
        "loosening": list(patterns.loosening_order(said.order)),
        "groups": [list(group) for group in said.groups],
        "places": [{"x": round(x, 6), "y": round(y, 6)} for x, y in said.places],
        "interaction": _interaction_json(said.interaction) if said.interaction is not None else None,
        "sources": _sources(said),
    }


def _rows_and_columns(text: str) -> tuple[int, int]:
    rows, _, columns = text.casefold().replace("×", "x").partition("x")
    if not (text.replace("×", "x").isascii() and rows.strip().isdigit() and columns.strip().isdigit()):
        raise patterns.PatternError(
            f'found rectangle "{text[:20]}", expected rows and columns, such as "2x4"'
        )
    if len(rows) + len(columns) > 8:
        raise patterns.PatternError(f"expected a rectangle of 1 to {patterns.MOST_POSITIONS} positions")
    return int(rows), int(columns)


def _own_order(text: str, count: int) -> tuple[int, ...]:
    words = text.replace("-", " ").replace(",", " ").split()
    if not all(word.isascii() and word.isdigit() and len(word) < 5 for word in words):
        raise patterns.PatternError(f'found order "{text[:40]}", expected positions, such as "1-3-2-4"')
    order = tuple(map(int, words))
    patterns.check_permutation(order, count)
    return order


def _fitted(points: Sequence[patterns.Place]) -> tuple[patterns.Place, ...]:
    """Points moved about the origin and shrunk or stretched so that the longer side runs from −1 to 1."""
    if not points:
        raise patterns.PatternError("found no points, expected one line for each with x and y")
    xs, ys = [x for x, _ in points], [y for _, y in points]
    half = max(max(xs) - min(xs), max(ys) - min(ys)) / 2 or 1.0
    middle_x, middle_y = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
    return tuple(((x - middle_x) / half, (y - middle_y) / half) for x, y in points)


def _interaction(
    circle: int | None, places: Sequence[patterns.Place], order: Sequence[int], rounds: Sequence[Decimal]
) -> Interaction:
    influence = interaction.circle_influence(circle) if circle else interaction.points_influence(places)
    shares = [float(share) for share in rounds]
    worth = interaction.check_passes_worth_doing(influence, order, shares)
    return Interaction(
        interaction.simulate(influence, order, shares, check_passes=max(worth, 1)),
        worth,
        interaction.uniform_settings(influence, order),
        influence.assumptions,
    )


def _strip(order: Sequence[int]) -> str:
    """The order in rows of twenty, in the trade's way of writing it."""
    rows = (order[start : start + 20] for start in range(0, len(order), 20))
    return "\n".join("  " + "-".join(map(str, row)) for row in rows)


def _round_lines(said: Answer) -> list[str]:
    lines = []
    for number, share in enumerate(said.rounds, start=1):
        torque = said.round_torque(share)
        lines.append(f"  {number}  {float(share * 100):>5.4g} %{f'  {torque}' if torque is not None else ''}")
    if said.has_pass:
        lines.append("     then once round clockwise from 1 at 100 %, until none moves")
    return lines


def _interaction_lines(found: Interaction) -> list[str]:
    lines = [
        "Preload left, ESTIMATED, as a share of the target",
        "  trip            lowest  highest  scatter  moved",
    ]
    for number, trip in enumerate(found.passes, start=1):
        name = "check pass" if trip.is_check else f"round {number} {trip.share * 100:.0f} %"
        lines.append(
            f"  {name:15} {trip.lowest * 100:5.0f} %  {trip.highest * 100:5.0f} %  "
            f"{trip.scatter * 100:5.1f} %  {len(trip.moved)} of {len(trip.preloads)}"
        )
    last = found.passes[-1].preloads
    lines.append("  at the end, by position: " + " ".join(f"{share * 100:.0f}" for share in last))
    lines.append(f"  check passes worth doing: {found.passes_worth_doing}")
    lines.append(
        "  one pass would end uniform with, by position: "
        + " ".join(f"{share * 100:.0f}" for share in found.uniform_settings)
    )
    return [*lines, *(f"  {line}" for line in found.assumptions)]


def _interaction_json(found: Interaction) -> dict[str, object]:
    return {
        "estimate": True,
        "trips": [
            {
                "share": trip.share,
                "check_pass": trip.is_check,
                "preloads": [round(share, 4) for share in trip.preloads],
                "scatter": round(trip.scatter, 4),
                "moved": list(trip.moved),
            }
            for trip in found.passes
        ],
        "check_passes_worth_doing": found.passes_worth_doing,
        "uniform_settings": [round(share, 4) for share in found.uniform_settings],
        "assumptions": list(found.assumptions),
    }


def _sources(said: Answer) -> list[str]:
    if said.own_order:
        return ["order: as given"]
    if said.layout.startswith("circle"):
        published = len(said.order) in (4, 8, 12, 16, 20, 24)
        where = (
            "published cross pattern of bolted flanges"
            if published
            else "common practice, by the halving rule"
        )
        return [f"order: {where}"]
    return ["order: common practice, centre outwards and across"]


def _quantity(quantity: Quantity | None) -> dict[str, object] | None:
    return None if quantity is None else {"value": float(quantity.value), "unit": quantity.unit}
