"""Torque, then angle: what turning a snug screw further does to its preload.

An elastic estimate from the stiffness of screw and joint; above yield the screw takes less than it says.
Torque alone is in `preload`.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.mechanics.strength import Strength, proof_load_newton, yield_load_newton
from benchcheck.mechanics.thread import Thread

STEEL_MEGAPASCAL = 205_000.0
"""Modulus of elasticity of steel [MPa], common value."""


class AngleError(ValueError):
    """A length, area or stiffness that cannot be, in one sentence."""


@dataclass(frozen=True, slots=True)
class AngleResult:
    """Preload after the angle [N], and what share of proof load and yield load it is."""

    preload_newton: float
    share_of_proof: float
    share_of_yield: float

    @property
    def margin_to_yield(self) -> float:
        """Share of the yield load that is left; below zero the screw has yielded, and the estimate ends."""
        return 1 - self.share_of_yield


def rod_stiffness(
    area_square_millimetre: float, length_millimetre: float, modulus_megapascal: float = STEEL_MEGAPASCAL
) -> float:
    """Stiffness of a rod in tension [N/mm]: E A / L. For a screw threaded to its head, A is the stress
    area."""
    _check("area", area_square_millimetre)
    _check("length", length_millimetre)
    return modulus_megapascal * area_square_millimetre / length_millimetre


def in_series(screw_newton_per_millimetre: float, joint_newton_per_millimetre: float) -> float:
    """Stiffness of screw and joint together [N/mm], as the turning nut feels them."""
    _check("stiffness", screw_newton_per_millimetre)
    _check("stiffness", joint_newton_per_millimetre)
    return 1 / (1 / screw_newton_per_millimetre + 1 / joint_newton_per_millimetre)


def preload_of_angle(
    angle_degree: float, pitch_millimetre: float, stiffness_newton_per_millimetre: float
) -> float:
    """Preload gained by an angle [N]: k P φ/360°, from snug (all faces touching) and within the elastic
    range.

    Parameters
    ----------
    angle_degree : turned after snug [°]
    pitch_millimetre : pitch [mm]
    stiffness_newton_per_millimetre : screw and joint in series [N/mm]
    """
    return stiffness_newton_per_millimetre * pitch_millimetre * angle_degree / 360


def after_angle(
    snug_newton: float,
    angle_degree: float,
    thread: Thread,
    of: Strength,
    screw_newton_per_millimetre: float,
    joint_newton_per_millimetre: float,
) -> AngleResult:
    """Preload of a screw that was made snug and then turned by an angle, and its margins."""
    together = in_series(screw_newton_per_millimetre, joint_newton_per_millimetre)
    preload = snug_newton + preload_of_angle(angle_degree, thread.pitch_millimetre, together)
    return AngleResult(
        preload, preload / proof_load_newton(thread, of), preload / yield_load_newton(thread, of)
    )


def _check(what: str, value: float) -> None:
    if not value > 0:
        raise AngleError(f"found a {what} of {value:g}, expected more than 0")
