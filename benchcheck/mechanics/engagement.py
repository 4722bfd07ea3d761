"""The hole a screw goes into: how much thread holds, what fails first, and whether the screw bottoms.

Shear areas at basic sizes unless the limits of size are given; tolerances make the true ones smaller. The
screw's own strength is in `strength`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from benchcheck.mechanics.thread import Thread

SHEAR_SHARE = 0.6
"""Shear strength over tensile strength, a usual figure for steel and for wrought aluminium."""

FirstToFail = Literal["screw breaks", "screw thread strips", "tapped thread strips"]
Bottoming = Literal["bottoms", "holds"]


class EngagementError(ValueError):
    """Lengths that cannot be, in one sentence."""


@dataclass(frozen=True, slots=True)
class EngagementResult:
    """Loads [N] at which each part of a tapped joint fails, and the engagement as a count of diameters."""

    screw_newton: float
    screw_thread_newton: float
    tapped_thread_newton: float
    engagement_in_diameters: float

    @property
    def first_to_fail(self) -> FirstToFail:
        """What gives way first; the screw breaking is the wish, since it can be seen and replaced."""
        if self.screw_newton <= min(self.screw_thread_newton, self.tapped_thread_newton):
            return "screw breaks"
        if self.tapped_thread_newton <= self.screw_thread_newton:
            return "tapped thread strips"
        return "screw thread strips"


def tapped_shear_area(
    thread: Thread,
    engagement_millimetre: float,
    *,
    least_major_millimetre: float | None = None,
    greatest_pitch_diameter_millimetre: float | None = None,
) -> float:
    """Area that shears when the tapped thread strips [mm²]: π L/P d (P/2 + (d − D2)/√3).

    Parameters
    ----------
    engagement_millimetre : length of full thread that holds [mm]
    least_major_millimetre : smallest major diameter of the screw [mm]; basic if left out
    greatest_pitch_diameter_millimetre : largest pitch diameter of the hole [mm]; basic if left out

    At basic sizes it is 0.875 π d L. Source: FED-STD-H28/2B.
    """
    major = least_major_millimetre or thread.diameter_millimetre
    pitch_diameter = greatest_pitch_diameter_millimetre or thread.pitch_diameter_millimetre
    height = thread.pitch_millimetre / 2 + (major - pitch_diameter) / math.sqrt(3)
    return math.pi * engagement_millimetre / thread.pitch_millimetre * major * height


def screw_shear_area(
    thread: Thread,
    engagement_millimetre: float,
    *,
    greatest_minor_millimetre: float | None = None,
    least_pitch_diameter_millimetre: float | None = None,
) -> float:
    """Area that shears when the screw's thread strips [mm²]: π L/P D1 (P/2 + (d2 − D1)/√3).

    At basic sizes it is 0.75 π D1 L. Source: FED-STD-H28/2B. Limits of size as in `tapped_shear_area`, of
    the hole's minor and the screw's pitch diameter.
    """
    minor = greatest_minor_millimetre or thread.minor_diameter_millimetre
    pitch_diameter = least_pitch_diameter_millimetre or thread.pitch_diameter_millimetre
    height = thread.pitch_millimetre / 2 + (pitch_diameter - minor) / math.sqrt(3)
    return math.pi * engagement_millimetre / thread.pitch_millimetre * minor * height


def engagement(
    thread: Thread,
    engagement_millimetre: float,
    screw_tensile_megapascal: float,
    tapped_tensile_megapascal: float,
    *,
    screw_shear_share: float = SHEAR_SHARE,
    tapped_shear_share: float = SHEAR_SHARE,
) -> EngagementResult:
    """What a screw in a tapped hole bears, part by part, at basic sizes.

    Parameters
    ----------
    engagement_millimetre : length of full thread that holds [mm]
    screw_tensile_megapascal, tapped_tensile_megapascal : tensile strengths [MPa]
    screw_shear_share, tapped_shear_share : shear over tensile strength [-]

    Source: FED-STD-H28/2B. Raises EngagementError for a length that is not above 0.
    """
    if not engagement_millimetre > 0:
        raise EngagementError(f"found an engagement of {engagement_millimetre:g} mm, expected more than 0")
    shear = screw_shear_area(thread, engagement_millimetre) * screw_shear_share
    tapped = tapped_shear_area(thread, engagement_millimetre) * tapped_shear_share
    return EngagementResult(
        thread.stress_area_square_millimetre * screw_tensile_megapascal,
        shear * screw_tensile_megapascal,
        tapped * tapped_tensile_megapascal,
        engagement_millimetre / thread.diameter_millimetre,
    )


def needed_engagement(
    load_newton: float,
    thread: Thread,
    shear_strength_megapascal: float,
    *,
    least_major_millimetre: float | None = None,
    greatest_pitch_diameter_millimetre: float | None = None,
) -> float:
    """Length of full thread [mm] at which a tapped hole of this shear strength bears a load.

    Source: FED-STD-H28/2B; limits of size as in `tapped_shear_area`.
    """
    per_millimetre = tapped_shear_area(
        thread,
        1.0,
        least_major_millimetre=least_major_millimetre,
        greatest_pitch_diameter_millimetre=greatest_pitch_diameter_millimetre,
    )
    return load_newton / (shear_strength_megapascal * per_millimetre)


def reach(
    screw_length_millimetre: float, grip_millimetre: float, thread_depth_millimetre: float
) -> tuple[float, Bottoming]:
    """How deep a screw goes into a blind hole [mm], and whether it meets the end of the thread first.

    Parameters
    ----------
    screw_length_millimetre : under the head [mm]
    grip_millimetre : what it clamps, washers included [mm]
    thread_depth_millimetre : depth of full thread in the hole [mm]

    A screw that bottoms reaches its torque and clamps nothing. Raises EngagementError when it does not
    reach the hole.
    """
    into = screw_length_millimetre - grip_millimetre
    if into <= 0:
        raise EngagementError(
            f"a screw of {screw_length_millimetre:g} mm does not reach through {grip_millimetre:g} mm"
        )
    if into > thread_depth_millimetre:
        return thread_depth_millimetre, "bottoms"
    return into, "holds"
