"""The torque wrench in the hand: what it can be set to, what its readings prove, which one suits best.

A wrench of accuracy a that shows S gives a true torque between S/(1+a) and S/(1−a); so "+9 %" means that it
shows 9 % more than there is. A setting is a graduation for which both ends lie inside the limits; where
there is none, the wrench is refused with the reason. Rules that hold for any measuring instrument are in
`decision` and `calibration`; other instruments in `gauge`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

from benchcheck.mechanics.calibration import out_of_date
from benchcheck.mechanics.units import Quantity, QuantityError, convert

Kind = Literal["setting", "dial", "electronic"]
Direction = Literal["right", "left"]
Verdict = Literal["inside", "inside, unguarded", "outside"]
Hurdle = Literal[
    "calibration", "direction", "extension", "starts above", "ends below", "accuracy", "graduation"
]
"""What a wrench can fail at, in the order in which it is looked at."""

# Bounds are products of decimals turned into floats: one that is met exactly must not be lost to the last
# bit.
_SLACK = 1e-9

# Where a scale starts at 0, trust starts at a fifth of its maximum: the lowest of the points (20, 60, 100 %)
# at which such a wrench is tested. Source: ISO 6789, as quoted in a tool instruction.
_FIRST_TESTED_SHARE = Decimal("0.2")


@dataclass(frozen=True, slots=True)
class Wrench:
    """One torque wrench of the shop's register.

    Parameters
    ----------
    id : what is engraved on it
    kind : "setting" clicks at a set value; "dial" and "electronic" indicate
    low, high : the range it may be used in, in one unit
    graduation : the step of its scale
    accuracy : most it may show above or below the truth, as a share: 0.04 for ±4 %
    units : the units it can show, the first one preferred; the graduation's own if none are named
    directions : ways it is calibrated to turn; "right" is clockwise
    length_millimetre : drive to the middle of the grip [mm]; None if not known
    calibration_due : last day of its calibration
    other_graduations : its steps in its other units, where they are known
    """

    id: str
    kind: Kind
    low: Quantity
    high: Quantity
    graduation: Quantity
    accuracy: Decimal
    units: tuple[str, ...]
    directions: tuple[Direction, ...]
    length_millimetre: float | None
    calibration_due: date
    other_graduations: tuple[Quantity, ...] = ()

    def __post_init__(self) -> None:
        for quantity in (self.low, self.high, self.graduation, *self.other_graduations):
            if quantity.kind != "torque":
                raise QuantityError(f'wrench {self.id}: "{quantity}" is no torque')
        if not 0 <= self.low.si < self.high.si:
            raise QuantityError(f"wrench {self.id}: range {self.low} to {self.high} does not rise")
        if self.graduation.value <= 0:
            raise QuantityError(f"wrench {self.id}: graduation {self.graduation} is not above 0")
        if not 0 <= self.accuracy < 1:
            raise QuantityError(f"wrench {self.id}: accuracy {self.accuracy} is no share from 0 to 1")

    @property
    def indicates(self) -> bool:
        """Whether it shows a reading; a setting wrench only clicks."""
        return self.kind != "setting"

    @property
    def usable_from(self) -> Quantity:
        """Start of its usable part: of its range, or a fifth of its maximum where the scale starts at 0."""
        if self.low.value > 0:
            return self.low
        return Quantity(self.high.value * _FIRST_TESTED_SHARE, self.high.unit)

    def step(self, unit: str) -> Decimal:
        """The graduation in a unit it shows.

        Where the register does not give one, the next step 1, 2 or 5 that is not finer than its graduation:
        never a number that it might not show.
        """
        for graduation in (self.graduation, *self.other_graduations):
            if graduation.unit == unit:
                return graduation.value
        converted = Decimal(self.graduation.to(unit))
        decade = converted.adjusted()
        steps = (Decimal(1).scaleb(decade), Decimal(2).scaleb(decade), Decimal(5).scaleb(decade))
        return next((step for step in steps if step >= converted), Decimal(1).scaleb(decade + 1))

    def unit_for(self, target: Quantity) -> str:
        """The unit to use it in: the target's if it shows that, otherwise its first."""
        return target.unit if target.unit in self.units else (*self.units, self.graduation.unit)[0]


@dataclass(frozen=True, slots=True)
class Setting:
    """What to set a wrench to, or to pull it to where it indicates.

    Parameters
    ----------
    wrench : its id
    value, unit : a graduation of its scale
    low_mark, high_mark : first and last graduation that would do as well; the guarded limits on its scale
    true_low_newton_metre, true_high_newton_metre : what the fastener may get at `value` [N·m]
    """

    wrench: str
    value: Decimal
    unit: str
    low_mark: Decimal
    high_mark: Decimal
    true_low_newton_metre: float
    true_high_newton_metre: float

    @property
    def quantity(self) -> Quantity:
        return Quantity(self.value, self.unit)

    def __str__(self) -> str:
        return str(self.quantity)


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a wrench cannot be used for a target: what it fails at, and a sentence that does not name it."""

    wrench: str
    why: str
    hurdle: Hurdle


@dataclass(frozen=True, slots=True)
class Choice:
    """One wrench weighed for a target. `deviation` is the worst share by which the torque may miss the
    target."""

    wrench: Wrench
    outcome: Setting | Refused
    deviation: float


def setting(
    wrench: Wrench,
    target: Quantity,
    low_newton_metre: float,
    high_newton_metre: float,
    *,
    on: date,
    left_hand: bool = False,
    extension: Quantity | None = None,
    angle_degree: float = 0.0,
    name: str = "the target",
) -> Setting | Refused:
    """The graduation nearest to the target at which the true torque stays inside the limits, or why there
    is none.

    Parameters
    ----------
    target : torque wanted at the fastener
    low_newton_metre, high_newton_metre : its limits there [N·m]
    on : the day; the calibration's last day still counts
    left_hand : whether the screw tightens counter-clockwise
    extension, angle_degree : crow-foot, drive to fastener [a length], and its angle to the wrench [°]: 0 in
    line,
        180 pointing back to the grip
    name : what the target is called in a refusal, such as "round one"

    Of two graduations equally near, the lower one is taken.
    """
    barred = _barred(wrench, on, left_hand)
    if barred is not None:
        return barred
    share = _share_at_wrench(wrench, extension, angle_degree)
    if isinstance(share, Refused):
        return share
    unit = wrench.unit_for(target)
    accuracy = float(wrench.accuracy)
    step = wrench.step(unit)
    wanted = target.to(unit) * share
    # what the scale may show, so that the truth stays inside
    bottom = convert(low_newton_metre, "N·m", unit) * share * (1 + accuracy)
    top = convert(high_newton_metre, "N·m", unit) * share * (1 - accuracy)
    starts, ends = wrench.usable_from.to(unit), wrench.high.to(unit)
    if top < starts * (1 - _SLACK):
        fifth = f", a fifth of its {_shown(ends)} {unit}" if wrench.usable_from != wrench.low else ""
        return Refused(
            wrench.id,
            f"starts at {_shown(starts)} {unit}{fifth}; {name} is {_shown(wanted)} {unit}",
            "starts above",
        )
    if bottom > ends * (1 + _SLACK):
        return Refused(
            wrench.id, f"ends at {_shown(ends)} {unit}; {name} is {_shown(wanted)} {unit}", "ends below"
        )
    if bottom > top * (1 + _SLACK):
        return Refused(
            wrench.id,
            f"is accurate to ±{accuracy * 100:g} %, which is too wide for {name} of "
            f"{_shown(wanted)} {unit} with limits {_shown(bottom / (1 + accuracy), 4)} to "
            f"{_shown(top / (1 - accuracy), 4)} {unit}",
            "accuracy",
        )
    first = max(1, math.ceil(max(bottom, starts) / float(step) - _SLACK))
    last = math.floor(min(top, ends) / float(step) + _SLACK)
    if first > last:
        return Refused(
            wrench.id,
            f"no graduation of {step} {unit} lies inside {_shown(max(bottom, starts), 4)} to "
            f"{_shown(min(top, ends), 4)} {unit}",
            "graduation",
        )
    nearest = min(max(math.ceil(wanted / float(step) - 0.5 - _SLACK), first), last)
    at_fastener = convert(float(nearest * step), unit, "N·m") / share
    return Setting(
        wrench.id,
        nearest * step,
        unit,
        first * step,
        last * step,
        at_fastener / (1 + accuracy),
        at_fastener / (1 - accuracy),
    )


def reading_verdict(
    wrench: Wrench,
    shown: Quantity,
    low_newton_metre: float,
    high_newton_metre: float,
    *,
    extension: Quantity | None = None,
    angle_degree: float = 0.0,
) -> Verdict:
    """What a reading of this wrench says about a torque with these limits [N·m].

    "inside": the true torque is inside whatever the wrench's error; "inside, unguarded": the reading is
    inside, the truth may not be; "outside": the reading is outside. Raises QuantityError for an impossible
    extension.
    """
    share = _share_at_wrench(wrench, extension, angle_degree)
    if isinstance(share, Refused):
        raise QuantityError(f"wrench {wrench.id} {share.why}")
    read = shown.si / share
    accuracy = float(wrench.accuracy)

    def within(least: float, most: float) -> bool:
        return least >= low_newton_metre * (1 - _SLACK) and most <= high_newton_metre * (1 + _SLACK)

    if within(read / (1 + accuracy), read / (1 - accuracy)):
        return "inside"
    return "inside, unguarded" if within(read, read) else "outside"


def best(
    wrenches: Iterable[Wrench],
    target: Quantity,
    low_newton_metre: float,
    high_newton_metre: float,
    *,
    on: date,
    left_hand: bool = False,
    extension: Quantity | None = None,
    angle_degree: float = 0.0,
    name: str = "the target",
) -> tuple[Choice, ...]:
    """All wrenches weighed for a target: first those that can do it, the smallest possible miss foremost."""
    choices = []
    for wrench in wrenches:
        outcome = setting(
            wrench,
            target,
            low_newton_metre,
            high_newton_metre,
            on=on,
            left_hand=left_hand,
            extension=extension,
            angle_degree=angle_degree,
            name=name,
        )
        deviation = math.inf
        if isinstance(outcome, Setting):
            ends = (outcome.true_low_newton_metre, outcome.true_high_newton_metre)
            deviation = max(abs(end / target.si - 1) for end in ends)
        choices.append(Choice(wrench, outcome, deviation))
    return tuple(sorted(choices, key=lambda choice: (choice.deviation, choice.wrench.id)))


def share_at_wrench(
    length_millimetre: float, extension_millimetre: float, angle_degree: float = 0.0
) -> float:
    """Torque at the wrench over torque at the fastener, with an extension (crow-foot): L / (L + E cos θ).

    Parameters
    ----------
    length_millimetre : L, drive to the middle of the grip [mm]
    extension_millimetre : E, drive to fastener [mm]; below zero is the same as pointing back
    angle_degree : θ between extension and wrench [°]: 0 in line (set less), 90 no change, 180 back (set more)

    Source: FAA and military manuals, seven published examples in the tests. A socket extension along the
    drive axis changes nothing. Raises QuantityError when the fastener would lie at or behind the grip.
    """
    reach = length_millimetre + extension_millimetre * math.cos(math.radians(angle_degree))
    if length_millimetre <= 0 or reach <= 0:
        raise QuantityError(
            f"an extension of {extension_millimetre:g} mm at {angle_degree:g}° leaves no lever on a wrench "
            f"of {length_millimetre:g} mm"
        )
    return length_millimetre / reach


def _barred(wrench: Wrench, on: date, left_hand: bool) -> Refused | None:
    if (late := out_of_date(wrench.calibration_due, on)) is not None:
        return Refused(wrench.id, late, "calibration")
    needed: Direction = "left" if left_hand else "right"
    if needed not in wrench.directions:
        return Refused(wrench.id, f"turns {'right' if left_hand else 'left'}-hand screws only", "direction")
    return None


def _share_at_wrench(wrench: Wrench, extension: Quantity | None, angle_degree: float) -> float | Refused:
    if extension is None:
        return 1.0
    if wrench.length_millimetre is None:
        return Refused(wrench.id, "has no length in the register, and an extension needs it", "extension")
    try:
        return share_at_wrench(wrench.length_millimetre, extension.to("mm"), angle_degree)
    except QuantityError as error:
        return Refused(wrench.id, f"cannot take it: {error}", "extension")


def _shown(value: float, figures: int = 3) -> str:
    """A number for a sentence: so many figures, no exponent, no trailing zeros."""
    places = max(0, figures - 1 - math.floor(math.log10(value))) if value > 0 else 0
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
