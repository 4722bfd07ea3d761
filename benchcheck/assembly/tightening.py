"""What each position of a fastener group is to get in each round, and what that is on a given wrench."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from benchcheck.mechanics.angle import AngleResult, after_angle, rod_stiffness
from benchcheck.mechanics.preload import preload_by_nut_factor
from benchcheck.mechanics.strength import StrengthError, proof_load_newton, strength
from benchcheck.mechanics.thread import Thread, ThreadError, parse_thread
from benchcheck.mechanics.units import Quantity, QuantityError, limits, parse
from benchcheck.mechanics.wrench import Refused, Setting, Wrench, setting, share_at_wrench
from benchcheck.procedure.model import Fasteners, TargetTorque


@dataclass(frozen=True, slots=True)
class Target:
    """What one position is to get in one round."""

    target: Quantity
    low_newton_metre: float
    high_newton_metre: float
    share: Decimal


def round_target(group: Fasteners, round_number: int, running: Quantity | None = None) -> Target:
    """Target and limits of a round (from 1): the share of the target, with the same tolerance.

    `running`: the running torque of a locking nut, where the group's rule adds it.
    """
    assert group.torque is not None
    shares = group.rounds or (parse("100 %", "share"),)
    share = shares[round_number - 1].value
    full = group.torque.target
    target = Quantity((full.value * share / 100).normalize(), full.unit)
    low, high = limits(full, group.torque.tolerance)
    low, high = low * float(share) / 100, high * float(share) / 100
    if running is not None and adds_running(group, running):
        extra = running.si
        value = target.value + Decimal(str(round(running.to(full.unit), 6)))
        return Target(Quantity(value.normalize(), full.unit), low + extra, high + extra, share)
    return Target(target, low, high, share)


def adds_running(group: Fasteners, running: Quantity) -> bool:
    """Whether the rule of the procedure adds the running torque to the target."""
    if group.prevailing is None or group.torque is None:
        return False
    match group.prevailing.add:
        case "always":
            return True
        case "never":
            return False
    return running.si >= group.torque.target.si / 3


def figure(
    group: Fasteners,
    wrench: Wrench,
    round_number: int,
    position: int,
    on: date,
    running: Quantity | None = None,
) -> Setting | Refused:
    """What goes on this wrench for a position in a round, or why it cannot be used."""
    wanted = round_target(group, round_number, running)
    foot = group.crowfoot if group.crowfoot is not None and position in group.crowfoot.at else None
    return setting(
        wrench,
        wanted.target,
        wanted.low_newton_metre,
        wanted.high_newton_metre,
        on=on,
        left_hand=group.hand == "left",
        extension=foot.extension if foot else None,
        angle_degree=foot.angle.to("°") if foot else 0.0,
        name=f"round {round_number}" if len(group.rounds) > 1 else "the target",
    )


def share_shown(group: Fasteners, position: int, wrench: Wrench | None) -> float:
    """What a wrench shows of what the screw gets: less or more than 1 where it is reached with a crow-foot.

    Raises QuantityError where the length of the wrench is not known, or takes no crow-foot.
    """
    foot = group.crowfoot
    if foot is None or position not in foot.at:
        return 1.0
    if wrench is None or wrench.length_millimetre is None:
        raise QuantityError("the register has no length of the wrench, and an extension needs it")
    return share_at_wrench(wrench.length_millimetre, foot.extension.to("mm"), foot.angle.to("°"))


def on_its_scale(wanted: Target, share: float, unit: str) -> Target:
    """What a wrench is to show, in its unit, for what the screw is to get."""
    if share == 1:
        return wanted
    target = Quantity(Decimal(f"{wanted.target.to(unit) * share:.3g}"), unit)
    low, high = wanted.low_newton_metre * share, wanted.high_newton_metre * share
    return Target(target, low, high, wanted.share)


def shares_of_proof(group: Fasteners) -> tuple[float, float, float] | None:
    """Preload as a share of proof load at the bottom of the tolerance, at the target, and at its top.

    By the short form with the procedure's nut factor; None where torque, thread, strength or nut factor is
    left out or not known. Running torque of a locking nut makes no preload, so it plays no part.
    """
    friction = group.friction
    if group.torque is None or group.thread is None or group.strength is None or friction is None:
        return None
    if friction.nut_factor is None:
        return None
    try:
        thread = parse_thread(group.thread)
        proof_load = proof_load_newton(thread, strength(group.strength, thread.diameter_millimetre))
    except (ThreadError, StrengthError):
        return None
    bottom, target, top = (each / proof_load for each in _preloads(group.torque, friction.nut_factor, thread))
    return bottom, target, top


def after_its_angle(group: Fasteners) -> tuple[AngleResult, AngleResult, AngleResult] | None:
    """Preload once a snug screw is turned on: at the least of both tolerances, as planned, and at the most.

    The screw as a rod of its stress area, as long as its grip; of several grips the longest gives the least
    and the shortest the most. None where anything that it takes is left out or not known.
    """
    angle, friction = group.angle, group.friction
    grips = sorted(each.grip.to("mm") for each in group.screws if each.grip is not None)
    if angle is None or angle.stiffness_ratio is None or len(grips) < max(1, len(group.screws)):
        return None
    if group.torque is None or group.thread is None or group.strength is None or friction is None:
        return None
    if friction.nut_factor is None or not grips[0]:
        return None
    try:
        thread = parse_thread(group.thread)
        grade = strength(group.strength, thread.diameter_millimetre)
    except (ThreadError, StrengthError):
        return None
    ratio = angle.stiffness_ratio
    degree, room = angle.add.to("°"), angle.tolerance.to("°")
    turned = (max(0.0, degree - room), degree, degree + room)
    stiff = [
        rod_stiffness(thread.stress_area_square_millimetre, each) for each in (grips[-1], grips[0], grips[0])
    ]
    least, planned, most = (
        after_angle(snug, degrees, thread, grade, screw, ratio * screw)
        for snug, degrees, screw in zip(
            _preloads(group.torque, friction.nut_factor, thread), turned, stiff, strict=True
        )
    )
    return least, planned, most


def _preloads(torque: TargetTorque, nut_factor: float, thread: Thread) -> tuple[float, float, float]:
    """Preload [N] at the bottom of the tolerance, at the target, and at the top."""
    low, high = limits(torque.target, torque.tolerance)
    bottom, target, top = (
        preload_by_nut_factor(each, nut_factor, thread.diameter_millimetre)
        for each in (low, torque.target.si, high)
    )
    return bottom, target, top
