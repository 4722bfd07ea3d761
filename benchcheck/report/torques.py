"""What is to be said of a torque or a preload on a screw: the numbers with their band, as text and for JSON.

Here belong the words and the layout, and which assumptions go with which numbers. The numbers come from
mechanics; the command line and the application only hand in what was asked.
"""

from __future__ import annotations

from dataclasses import dataclass

from benchcheck.mechanics import angle as angles
from benchcheck.mechanics import engagement as engagements
from benchcheck.mechanics import preload as preloads
from benchcheck.mechanics.preload import PrevailingRule
from benchcheck.mechanics.strength import (
    Judgement,
    Strength,
    StrengthError,
    judge,
    proof_load_newton,
    strength,
)
from benchcheck.mechanics.thread import Thread, ThreadError, parse_thread
from benchcheck.mechanics.units import Quantity, QuantityError, convert, limits, parse

# Bearing face of a hexagon or socket head over its screw: about 1.3 d for the usual heads; common practice.
USUAL_BEARING_IN_DIAMETERS = 1.3

REFUSALS = (
    QuantityError,
    ThreadError,
    StrengthError,
    preloads.FrictionError,
    engagements.EngagementError,
    angles.AngleError,
)
"""What `answer` raises, each with one sentence to show."""

_OTHER_UNITS = ("N·m", "lbf·ft", "lbf·in", "kgf·m", "kgf·cm")
_TORQUE, _FORCE, _LENGTH = "torque", "force", "length"


@dataclass(frozen=True, slots=True)
class Friction:
    """What stands between torque and preload: newtons of preload for each newton metre, least and most.

    `words` says how it was given; `is_band` whether only a published band is known, and no number may stand
    for it.
    """

    least_per_newton_metre: float
    most_per_newton_metre: float
    words: str
    assumptions: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def is_band(self) -> bool:
        return self.least_per_newton_metre != self.most_per_newton_metre


@dataclass(frozen=True, slots=True)
class Answer:
    """All that was asked about one screw; what was not asked, or cannot be said in one number, is None."""

    thread: Thread
    strength: Strength
    friction: Friction
    force_unit: str
    torque_unit: str
    torque_newton_metre: float | None
    torque_low_newton_metre: float
    torque_high_newton_metre: float
    preload_newton: float | None
    preload_low_newton: float
    preload_high_newton: float
    tolerance: Quantity | None
    judgement: Judgement | None
    set_to_newton_metre: float | None
    after_angle: angles.AngleResult | None
    angle: Quantity | None
    engagement: engagements.EngagementResult | None
    assumptions: tuple[str, ...]
    sources: tuple[str, ...]

    @property
    def proof_load_newton(self) -> float:
        return proof_load_newton(self.thread, self.strength)

    def share(self, preload_newton: float) -> float:
        return preload_newton / self.proof_load_newton


def answer(
    thread: str,
    grade: str,
    *,
    torque: str | None = None,
    preload: str | None = None,
    nut_factor: float | None = None,
    condition: str | None = None,
    thread_friction: float | None = None,
    bearing_friction: float | None = None,
    bearing_diameter: str | None = None,
    tolerance: str | None = None,
    method: str | None = None,
    running_torque: str | None = None,
    running_rule: PrevailingRule | None = None,
    angle: str | None = None,
    screw_stiffness: str | None = None,
    joint_stiffness: str | None = None,
    engagement: str | None = None,
    tapped_strength: str | None = None,
) -> Answer:
    """Works out what was asked. Raises one of `REFUSALS`, with one sentence to show."""
    of_thread = parse_thread(thread)
    of_strength = strength(grade, of_thread.diameter_millimetre)
    friction = _friction(
        of_thread, nut_factor, condition, thread_friction, bearing_friction, bearing_diameter
    )
    if (torque is None) == (preload is None):
        raise QuantityError("give either a torque or a preload, and the other one is worked out")
    assumptions = [*of_strength.assumptions, *friction.assumptions]
    sources = ["stress area: ISO 898-1" if of_thread.is_metric else "stress area: ASME B1.1"]
    sources += [f"strength: {of_strength.name}", *friction.sources]
    if of_thread.note:
        assumptions.append(of_thread.note)
    given = _given(torque, preload)
    room = parse(tolerance, ("share", given.kind)) if tolerance is not None else None
    low, high = limits(given, room) if room is not None else (given.si, given.si)
    share, said = _scatter(method, friction)
    assumptions += said
    torques: tuple[float | None, float, float]
    forces: tuple[float | None, float, float]
    if given.kind == _TORQUE:
        torques = (given.si, low, high)
        middle = None if friction.is_band else given.si * friction.most_per_newton_metre
        forces = (
            middle,
            low * friction.least_per_newton_metre * (1 - share),
            high * friction.most_per_newton_metre * (1 + share),
        )
        top = high * friction.most_per_newton_metre
    else:
        forces = (given.si, low * (1 - share), high * (1 + share))
        middle = None if friction.is_band else given.si / friction.most_per_newton_metre
        torques = (middle, low / friction.most_per_newton_metre, high / friction.least_per_newton_metre)
        top = high
    proof = proof_load_newton(of_thread, of_strength)
    judgement = judge(forces[0] / proof, top / proof) if forces[0] is not None else None
    set_to = _set_to(torques[0], running_torque, running_rule)
    if set_to is not None:
        sources.append("running torque: FAA AC 43.13-1B 7-40 and Army TB 43-0218, by the rule named")
    turned = None
    if angle is not None:
        turned = _turned(forces[0], angle, of_thread, of_strength, screw_stiffness, joint_stiffness)
        assumptions.append("angle: elastic, from snug with all faces touching")
    held = None
    if engagement is not None:
        held = _engaged(of_thread, of_strength, engagement, tapped_strength)
        assumptions.append(
            "engagement: basic sizes; tolerances take some away; shear strength 0.6 of tensile"
        )
        sources.append("thread shear areas: FED-STD-H28/2B")
    return Answer(
        thread=of_thread,
        strength=of_strength,
        friction=friction,
        force_unit=given.unit if given.kind == _FORCE else "N" if of_thread.is_metric else "lbf",
        torque_unit=given.unit if given.kind == _TORQUE else "N·m" if of_thread.is_metric else "lbf·ft",
        torque_newton_metre=torques[0],
        torque_low_newton_metre=torques[1],
        torque_high_newton_metre=torques[2],
        preload_newton=forces[0],
        preload_low_newton=forces[1],
        preload_high_newton=forces[2],
        tolerance=room,
        judgement=judgement,
        set_to_newton_metre=set_to,
        after_angle=turned,
        angle=parse(angle, "angle") if angle else None,
        engagement=held,
        assumptions=tuple(assumptions),
        sources=tuple(dict.fromkeys(sources)),
    )


def same_number_elsewhere(said: Answer) -> tuple[tuple[str, float], ...]:
    """What share of proof load the same number would be, misread in another unit. Empty without one
    number."""
    if said.torque_newton_metre is None or said.preload_newton is None:
        return ()
    number = convert(said.torque_newton_metre, "N·m", said.torque_unit)
    per_newton_metre = said.preload_newton / said.torque_newton_metre
    return tuple(
        (unit, said.share(convert(number, unit, "N·m") * per_newton_metre))
        for unit in _OTHER_UNITS
        if unit != said.torque_unit
    )


def as_json(said: Answer) -> dict[str, object]:
    """The answer for programs; a quantity is {"value", "unit"}, a share is of one."""

    def torque(newton_metre: float | None) -> dict[str, object] | None:
        return None if newton_metre is None else _quantity(newton_metre, "N·m", said.torque_unit)

    def force(newton: float | None) -> dict[str, object] | None:
        return None if newton is None else _quantity(newton, "N", said.force_unit)

    def share(newton: float | None) -> float | None:
        return None if newton is None else round(said.share(newton), 4)

    return {
        "thread": str(said.thread),
        "strength": said.strength.name,
        "friction": said.friction.words,
        "torque": torque(said.torque_newton_metre),
        "torque_low": torque(said.torque_low_newton_metre),
        "torque_high": torque(said.torque_high_newton_metre),
        "preload": force(said.preload_newton),
        "preload_low": force(said.preload_low_newton),
        "preload_high": force(said.preload_high_newton),
        "proof_load": force(said.proof_load_newton),
        "share_of_proof": share(said.preload_newton),
        "share_of_proof_low": share(said.preload_low_newton),
        "share_of_proof_high": share(said.preload_high_newton),
        "judgement": said.judgement,
        "set_to": torque(said.set_to_newton_metre),
        "after_angle": _angle_json(said) if said.after_angle else None,
        "engagement": _engagement_json(said, said.engagement) if said.engagement else None,
        "same_number_in": [
            {"unit": unit, "share_of_proof": round(value, 4)} for unit, value in same_number_elsewhere(said)
        ],
        "assumptions": list(said.assumptions),
        "sources": list(said.sources),
    }


def _given(torque: str | None, preload: str | None) -> Quantity:
    given = parse(torque, _TORQUE) if torque is not None else parse(preload or "", _FORCE)
    if given.value <= 0:
        raise QuantityError(f'"{given}" tightens nothing; write more than 0')
    return given


def _friction(
    thread: Thread,
    nut_factor: float | None,
    condition: str | None,
    thread_friction: float | None,
    bearing_friction: float | None,
    bearing_diameter: str | None,
) -> Friction:
    coefficients = thread_friction is not None or bearing_friction is not None
    if (nut_factor is not None) + (condition is not None) + coefficients != 1:
        raise preloads.FrictionError(
            "a torque alone says nothing of preload: give a nut factor, a condition, or both frictions"
        )
    diameter = thread.diameter_millimetre
    if nut_factor is not None:
        if not 0 < nut_factor < 1:
            raise preloads.FrictionError(
                f"found a nut factor of {nut_factor:g}, expected one between 0 and 1, such as 0.2"
            )
        per = preloads.preload_by_nut_factor(1.0, nut_factor, diameter)
        return Friction(per, per, f"nut factor {nut_factor:g}", (), ("short form T = K d F",))
    if condition is not None:
        band = preloads.nut_factor_band(condition)
        return Friction(
            preloads.preload_by_nut_factor(1.0, band.high, diameter),
            preloads.preload_by_nut_factor(1.0, band.low, diameter),
            f"{band.condition}, nut factor {band.low:g} to {band.high:g}",
            ("no nut factor was given: only the published band can be said",),
            tuple(f"K {row.value:g}: {row.source} ({row.mark})" for row in band.rows),
        )
    if thread_friction is None or bearing_friction is None:
        raise preloads.FrictionError("the long form needs both, thread friction and bearing friction")
    for value in (thread_friction, bearing_friction):
        if not 0 < value < 1:
            raise preloads.FrictionError(
                f"found a friction of {value:g}, expected between 0 and 1, such as 0.12"
            )
    assumptions: tuple[str, ...] = ()
    if bearing_diameter is not None:
        bearing = parse(bearing_diameter, _LENGTH).to("mm")
    else:
        bearing = USUAL_BEARING_IN_DIAMETERS * diameter
        assumptions = (
            f"mean bearing diameter {USUAL_BEARING_IN_DIAMETERS:g} d = {bearing:.1f} mm: common practice",
        )
    per = preloads.preload_by_friction(1.0, thread, thread_friction, bearing_friction, bearing)
    return Friction(
        per,
        per,
        f"friction {thread_friction:g} in the thread, {bearing_friction:g} under the head "
        f"(nut factor {preloads.equivalent_nut_factor(1.0, per, diameter):.3f})",
        assumptions,
        ("long form of ISO 16047 and VDI 2230",),
    )


def _scatter(method: str | None, friction: Friction) -> tuple[float, tuple[str, ...]]:
    """Scatter of preload to both sides, and what to say of it. A band of friction holds its own scatter."""
    if method is None and friction.is_band:
        return 0.0, ("the band of nut factors stands for the scatter of preload",)
    row = preloads.scatter(method or "torque")
    return row.share, (f"scatter ±{row.share * 100:.0f} % for {row.method}: {row.source} ({row.mark})",)


def _set_to(
    torque_newton_metre: float | None, running_torque: str | None, rule: PrevailingRule | None
) -> float | None:
    if running_torque is None and rule is None:
        return None
    if running_torque is None or rule is None:
        raise preloads.FrictionError(
            "a locking nut needs its running torque and a rule: "
            '"always", "from one third of the target" or "never"'
        )
    if torque_newton_metre is None:
        raise preloads.FrictionError("running torque is added to one torque; give a nut factor")
    return preloads.add_running_torque(torque_newton_metre, parse(running_torque, _TORQUE).si, rule)


def _turned(
    snug_newton: float | None,
    angle: str,
    thread: Thread,
    of: Strength,
    screw_stiffness: str | None,
    joint_stiffness: str | None,
) -> angles.AngleResult:
    if screw_stiffness is None or joint_stiffness is None:
        raise QuantityError(
            'an angle needs the stiffness of screw and joint, such as "170 N/µm" and "680 N/µm"'
        )
    if snug_newton is None:
        raise preloads.FrictionError("an angle starts from one preload; give a nut factor")
    turned = parse(angle, "angle")
    if turned.value < 0:
        raise QuantityError(f'"{turned}" turns backwards; write the angle that tightens')
    stiffnesses = (parse(text, "stiffness").to("N/mm") for text in (screw_stiffness, joint_stiffness))
    screw, joint = stiffnesses
    return angles.after_angle(snug_newton, turned.si, thread, of, screw, joint)


def _engaged(
    thread: Thread, of: Strength, engagement: str, tapped_strength: str | None
) -> engagements.EngagementResult:
    if tapped_strength is None:
        raise QuantityError('engagement needs the tensile strength of the tapped part, such as "310 MPa"')
    return engagements.engagement(
        thread,
        parse(engagement, _LENGTH).to("mm"),
        of.tensile_megapascal,
        parse(tapped_strength, "pressure").to("MPa"),
    )


def _angle_json(said: Answer) -> dict[str, object] | None:
    if said.after_angle is None or said.angle is None:
        return None
    return {
        "angle": {"value": float(said.angle.value), "unit": said.angle.unit},
        "preload": _quantity(said.after_angle.preload_newton, "N", said.force_unit),
        "share_of_proof": round(said.after_angle.share_of_proof, 4),
        "margin_to_yield": round(said.after_angle.margin_to_yield, 4),
    }


def _engagement_json(said: Answer, held: engagements.EngagementResult) -> dict[str, object]:
    return {
        "in_diameters": round(held.engagement_in_diameters, 3),
        "first_to_fail": held.first_to_fail,
        "screw_breaks": _quantity(held.screw_newton, "N", said.force_unit),
        "screw_thread_strips": _quantity(held.screw_thread_newton, "N", said.force_unit),
        "tapped_thread_strips": _quantity(held.tapped_thread_newton, "N", said.force_unit),
    }


def _quantity(value: float, unit: str, shown: str) -> dict[str, object]:
    return {"value": float(f"{convert(value, unit, shown):.6g}"), "unit": shown}
