"""From torque to preload and back: the short form, the long form, the exact helix; friction, scatter,
locking nuts.

Only a small part of a torque stretches the screw; friction under head and in the thread takes the rest, and
it varies. So a preload is an estimate with a band, and friction comes from the procedure, never from here.
Turning by an angle is in `angle`, what the screw bears in `strength`.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Literal

from benchcheck.mechanics.strength import Strength
from benchcheck.mechanics.tables.nut_factors import (
    CONDITION_WORDS,
    NUT_FACTORS,
    SCATTER,
    SURVEY,
    NutFactorRow,
    ScatterRow,
)
from benchcheck.mechanics.thread import Thread

FLANK_ANGLE_DEGREE = 30.0
"""Half the angle of a metric or unified thread [°]."""

PrevailingRule = Literal["always", "from one third of the target", "never"]


class FrictionError(ValueError):
    """A condition, friction or rule that cannot be used, in one sentence."""


def preload_by_nut_factor(torque_newton_metre: float, nut_factor: float, diameter_millimetre: float) -> float:
    """Preload [N] of a torque by the short form F = T / (K d).

    Parameters
    ----------
    torque_newton_metre : T [N·m], without any running torque
    nut_factor : K [-], from the procedure
    diameter_millimetre : nominal diameter d [mm]

    Source: machine design textbooks; every table that prints K. Raises FrictionError for a K that is not
    above 0.
    """
    _check_above_zero("nut factor", nut_factor)
    return torque_newton_metre / (nut_factor * diameter_millimetre / 1000)


def torque_by_nut_factor(preload_newton: float, nut_factor: float, diameter_millimetre: float) -> float:
    """Torque [N·m] for a preload by the short form T = K d F. Arguments and source as
    `preload_by_nut_factor`."""
    _check_above_zero("nut factor", nut_factor)
    return nut_factor * diameter_millimetre / 1000 * preload_newton


def torque_by_friction(
    preload_newton: float,
    thread: Thread,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_millimetre: float,
) -> float:
    """Torque [N·m] for a preload by the long form T = F (P/2π + μ d2 / (2 cos 30°) + μ_b D_km/2).

    Parameters
    ----------
    preload_newton : F [N]
    thread : gives P and d2
    thread_friction : μ in the thread [-]
    bearing_friction : μ_b under head or nut, whichever is turned [-]
    bearing_diameter_millimetre : mean diameter D_km of that bearing face [mm], see `mean_bearing_diameter`

    The linear form is low against the exact helix by 1 % of the thread's share at most, for μ up to 0.15.
    Source: ISO 16047, VDI 2230. Raises FrictionError for a friction that is not above 0.
    """
    _check_above_zero("bearing friction", bearing_friction)
    _check_above_zero("bearing diameter", bearing_diameter_millimetre)
    under_head = bearing_friction * bearing_diameter_millimetre / 2
    return preload_newton * (_thread_arm_millimetre(thread, thread_friction) + under_head) / 1000


def preload_by_friction(
    torque_newton_metre: float,
    thread: Thread,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_millimetre: float,
) -> float:
    """Preload [N] of a torque by the long form. Arguments and source as `torque_by_friction`."""
    per_newton = torque_by_friction(
        1.0, thread, thread_friction, bearing_friction, bearing_diameter_millimetre
    )
    return torque_newton_metre / per_newton


def torque_by_helix(
    preload_newton: float,
    mean_diameter_millimetre: float,
    lead_millimetre: float,
    thread_friction: float,
    bearing_friction: float,
    bearing_diameter_millimetre: float,
    flank_angle_degree: float = FLANK_ANGLE_DEGREE,
) -> float:
    """Torque [N·m] with the exact inclined plane, for any thread and number of starts.

    T = F d_m/2 · (tan λ + μ sec α) / (1 − μ tan λ sec α) + F μ_b D/2, tan λ = lead / (π d_m).

    Parameters
    ----------
    lead_millimetre : advance in one turn [mm]; below zero for the torque that lowers or undoes
    flank_angle_degree : α [°]: 30 for metric and unified threads, 0 for square ones
    others : as `torque_by_friction`

    Source: machine design textbook, equations 8-5 and 8-26. Raises FrictionError where friction would lock
    the thread at any torque.
    """
    slope = lead_millimetre / (math.pi * mean_diameter_millimetre)
    rubbing = thread_friction / math.cos(math.radians(flank_angle_degree))
    if rubbing * slope >= 1:
        raise FrictionError(
            f"found a friction of {thread_friction:g}, expected less: no torque turns this thread"
        )
    arm = mean_diameter_millimetre / 2 * (slope + rubbing) / (1 - rubbing * slope)
    return preload_newton * (arm + bearing_friction * bearing_diameter_millimetre / 2) / 1000


def equivalent_nut_factor(
    torque_newton_metre: float, preload_newton: float, diameter_millimetre: float
) -> float:
    """The K that a torque and its preload amount to: T / (F d)."""
    return torque_newton_metre / (preload_newton * diameter_millimetre / 1000)


def mean_bearing_diameter(outer_millimetre: float, hole_millimetre: float) -> float:
    """Mean diameter of a bearing face [mm]: D_km = (d_w + d_h)/2. Source: ISO 16047."""
    if not 0 < hole_millimetre < outer_millimetre:
        raise FrictionError(
            f"found a bearing face of {outer_millimetre:g} mm round a hole of {hole_millimetre:g} mm, "
            "expected the face to be larger"
        )
    return (outer_millimetre + hole_millimetre) / 2


def thread_torque(preload_newton: float, thread: Thread, thread_friction: float) -> float:
    """The part of the torque that twists the screw [N·m]: all but that under the head. Source: VDI 2230."""
    return preload_newton * _thread_arm_millimetre(thread, thread_friction) / 1000


def combined_stress(
    preload_newton: float, thread: Thread, thread_friction: float, *, plastic: bool = False
) -> float:
    """Stress [MPa] in the thread from tension and twist together, while tightening: √(σ² + 3τ²).

    Parameters
    ----------
    plastic : whether the twist is spread over a section that yields (12/π d0³), as newer editions of VDI
    2230 take
        it, instead of an elastic one (16/π d0³); the newer gives 8 to 14 % more torque at the same stress

    Source: VDI 2230.
    """
    return preload_newton * _stress_per_newton(thread, thread_friction, plastic)


def preload_at_combined_stress(
    thread: Thread, of: Strength, share_of_yield: float, thread_friction: float, *, plastic: bool = False
) -> float:
    """Preload [N] at which tension and twist together reach a share of the yield strength, usually 0.9.

    Source and `plastic` as `combined_stress`.
    """
    return share_of_yield * of.yield_megapascal / _stress_per_newton(thread, thread_friction, plastic)


@dataclass(frozen=True, slots=True)
class NutFactorBand:
    """Published nut factors of one condition: lowest, highest, and each with its source."""

    condition: str
    low: float
    high: float
    rows: tuple[NutFactorRow, ...]


def nut_factor_band(condition: str) -> NutFactorBand:
    """The published band of nut factors for a condition in words, such as "dry", "oiled" or "zinc-plated".

    "unknown" gives the range of a survey. Raises FrictionError for a condition that is not in the tables.
    """
    words = " ".join(re.sub(r"[\s-]+", " ", condition.casefold()).split())
    if words == "unknown":
        row = NutFactorRow("unknown", SURVEY[1], "means of one survey of lubricants, chapter abstract")
        return NutFactorBand("unknown", *SURVEY, (row._replace(value=SURVEY[0]), row))
    for name, spellings in CONDITION_WORDS.items():
        if words in spellings or words == name.replace("-", " "):
            rows = tuple(row for row in NUT_FACTORS if row.condition == name)
            return NutFactorBand(name, min(r.value for r in rows), max(r.value for r in rows), rows)
    known = ", ".join(CONDITION_WORDS)
    raise FrictionError(f'found condition "{condition[:40]}", expected one of {known}, unknown')


def scatter(method: str) -> ScatterRow:
    """How far preloads spread for a method: "torque, lubricated", "torque, dry", "torque", "angle",
    "elongation".

    Raises FrictionError for another one.
    """
    for row in SCATTER:
        if row.method == method:
            return row
    raise FrictionError(
        f'found method "{method[:40]}", expected one of {"; ".join(row.method for row in SCATTER)}'
    )


def add_running_torque(
    target_newton_metre: float, running_newton_metre: float, rule: PrevailingRule
) -> float:
    """The torque to set on a locking nut, given the torque that merely turns it [N·m].

    Published rules disagree, so the procedure names one. "always": FAA AC 43.13-1B, 7-40. "from one third
    of the target": Army TB 43-0218, added only when it is at least one third of the target. "never": the
    target was stated with it. Raises FrictionError for another rule or a running torque below 0.
    """
    if not running_newton_metre >= 0:
        raise FrictionError(f"found a running torque of {running_newton_metre:g} N·m, expected 0 or more")
    if rule == "always":
        return target_newton_metre + running_newton_metre
    if rule == "from one third of the target":
        counts = running_newton_metre >= target_newton_metre / 3
        return target_newton_metre + (running_newton_metre if counts else 0)
    if rule == "never":
        return target_newton_metre
    raise FrictionError(f'found rule "{rule}", expected "always", "from one third of the target" or "never"')


def _thread_arm_millimetre(thread: Thread, thread_friction: float) -> float:
    """Torque per newton of preload in the thread [mm]: the helix and its friction."""
    _check_above_zero("thread friction", thread_friction)
    rubbing = thread.pitch_diameter_millimetre / (2 * math.cos(math.radians(FLANK_ANGLE_DEGREE)))
    return thread.pitch_millimetre / (2 * math.pi) + thread_friction * rubbing


def _stress_per_newton(thread: Thread, thread_friction: float, plastic: bool) -> float:
    tension = 1 / thread.stress_area_square_millimetre
    section = math.pi / (12 if plastic else 16) * thread.stress_diameter_millimetre**3
    twist = _thread_arm_millimetre(thread, thread_friction) / section
    return math.hypot(tension, math.sqrt(3) * twist)


def _check_above_zero(what: str, value: float) -> None:
    if not value > 0:
        raise FrictionError(f"found a {what} of {value:g}, expected more than 0")
