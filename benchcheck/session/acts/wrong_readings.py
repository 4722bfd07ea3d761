"""What a torque reading outside its limits may mean, said to the person who has the wrench in hand.

Not a verb of its own: tightening uses it. Whether a reading is outside is worked out in `mechanics.wrench`;
here its causes are told apart: the unit on the wrench, a screw that meets something, one that never grips.
"""

from __future__ import annotations

from decimal import Decimal

from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.tightening import Target
from benchcheck.mechanics.units import Quantity

FAR_ABOVE = 1.5
"""So many times the most that the last round allows, at the first touch, is no hand that pulled on too
long. Our own mark; no source gives one."""
SAME = 0.02
"""A figure this near a target, as a share of it, is that target as a scale shows it. Our own mark."""
UNITS = ("N·m", "lbf·ft", "lbf·in", "kgf·m", "kgf·cm")
"""The units that torque wrenches show."""


def refusal(shown: Quantity, wanted: Target, full: Target, where: str, *, first_touch: bool) -> Refusal:
    """The refusal of a reading outside its limits, by what it most likely means.

    `wanted` is what this round asks, `full` what the last one does; `first_touch` says that no torque wrench
    was on the position before.
    """
    above = shown.si > wanted.target.si
    other = _unit_it_would_fit(shown, wanted)
    if other is not None:
        return Refusal(
            "figure-of-another-unit",
            f"{shown} is {'above' if above else 'below'} the tolerance of {wanted.target}, "
            f"but {Quantity(shown.value, other)} would be right",
            where,
            "read which unit the wrench shows: set it right, loosen the group and begin it again"
            if above
            else f"read which unit the wrench shows; set it to {shown.unit} and pull on",
            passable=above,
        )
    if not above:
        low = Quantity(Decimal(str(wanted.low_newton_metre)), "N·m").to(shown.unit)
        return Refusal(
            "reading-below",
            f"{shown} is below {Quantity(Decimal(str(round(low, 2))), shown.unit)}",
            where,
            "pull on until it shows it; if it turns and turns and never does, the thread gives way",
            passable=False,
        )
    if first_touch and shown.si > FAR_ABOVE * full.high_newton_metre:
        return Refusal(
            "reading-far-above",
            f"{shown} is far above {full.target}, at the first touch",
            where,
            "loosen the group and take the screw out: look at its length, at both threads, and for oil or "
            "dirt at the bottom of the hole",
            chain=("a screw that is seized, cross-threaded or on the bottom of its hole holds nothing down",),
        )
    return Refusal(
        "reading-above",
        f"{shown} is above the tolerance of {wanted.target}",
        where,
        "loosen the group and begin it again, or replace the screw",
    )


def _unit_it_would_fit(shown: Quantity, wanted: Target) -> str | None:
    """The unit in which the same figure would be the target."""
    room = SAME * wanted.target.si
    return next(
        (
            unit
            for unit in UNITS
            if unit != shown.unit and abs(Quantity(shown.value, unit).si - wanted.target.si) <= room
        ),
        None,
    )
