"""What is to be said of a shop's wrenches and one target: which to take, what to set, why not the others.

Here belong the words and the layout. The rule is in mechanics.wrench; the command line and the application
only hand in what was asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from benchcheck.mechanics.units import Quantity, QuantityError, convert, limits, parse
from benchcheck.mechanics.wrench import Choice, Setting, Wrench, best, share_at_wrench

_CELLS = 50


@dataclass(frozen=True, slots=True)
class Answer:
    """A target, its limits, and every wrench weighed for it: first the one asked about, or the best."""

    target: Quantity
    low_newton_metre: float
    high_newton_metre: float
    on: date
    extension: Quantity | None
    angle_degree: float
    first: Choice
    others: tuple[Choice, ...]
    was_named: bool

    @property
    def is_able(self) -> bool:
        """Whether the first one can do it."""
        return isinstance(self.first.outcome, Setting)


def answer(
    wrenches: Sequence[Wrench],
    target: str,
    tolerance: str,
    *,
    on: date,
    wrench: str | None = None,
    extension: str | None = None,
    length: str | None = None,
    angle: str | None = None,
    left_hand: bool = False,
) -> Answer:
    """Weighs the wrenches of a register for a target.

    Parameters
    ----------
    wrenches : the register
    target, tolerance : "16 lbf·ft", and "10 %" or "2 lbf·ft"
    on : the day, for calibration
    wrench : the one asked about; the best one if left out
    extension, angle : crow-foot, drive to fastener, and its angle to the wrench
    length : drive to the middle of the grip as measured, in place of the register's, for the wrench named
    left_hand : whether the screw tightens counter-clockwise

    Raises QuantityError with one sentence to show.
    """
    wanted = parse(target, "torque")
    if wanted.value <= 0:
        raise QuantityError(f'"{wanted}" tightens nothing; write more than 0')
    low, high = limits(wanted, parse(tolerance, ("share", "torque")))
    if not wrenches:
        raise QuantityError("the register holds no wrench; write one into procedures/instruments.toml")
    if wrench is not None and wrench not in {each.id for each in wrenches}:
        known = ", ".join(each.id for each in wrenches)
        raise QuantityError(f'wrench "{wrench[:40]}" is not in the register; it holds {known}')
    if length is not None:
        if wrench is None:
            raise QuantityError("a measured length belongs to one wrench: name it")
        millimetres = parse(length, "length").to("mm")
        wrenches = [
            replace(each, length_millimetre=millimetres) if each.id == wrench else each for each in wrenches
        ]
    foot = parse(extension, "length") if extension is not None else None
    turned = parse(angle, "angle").si if angle is not None else 0.0
    if angle is not None and foot is None:
        raise QuantityError("an angle belongs to an extension: give its length too")
    choices = best(
        wrenches, wanted, low, high, on=on, left_hand=left_hand, extension=foot, angle_degree=turned
    )
    first = next((choice for choice in choices if choice.wrench.id == wrench), choices[0])
    others = tuple(choice for choice in choices if choice is not first)
    return Answer(wanted, low, high, on, foot, turned, first, others, wrench is not None)


def crow_foot(target: str, extension: str, length: str, angle: str | None) -> tuple[Quantity, Quantity]:
    """Torque wanted, and what a wrench of this length has to show through this extension.

    Raises QuantityError.
    """
    wanted = parse(target, "torque")
    share = share_at_wrench(
        parse(length, "length").to("mm"),
        parse(extension, "length").to("mm"),
        parse(angle, "angle").si if angle is not None else 0.0,
    )
    shown = Quantity(Decimal(f"{float(wanted.value) * share:.5g}"), wanted.unit)
    return wanted, shown


def crow_foot_json(wanted: Quantity, shown: Quantity) -> dict[str, object]:
    """The crow-foot arithmetic for programs, in the shape of `as_json` as far as it goes."""
    return {
        "wrench": None,
        "target": {"value": float(wanted.value), "unit": wanted.unit},
        "setting": {"value": float(shown.value), "unit": shown.unit},
        "refused": None,
        "sources": ["T L / (L + E cos θ), FAA and military manuals"],
    }


def as_text(said: Answer) -> str:
    """The answer for a person: what to set, drawn on the tolerance, then the other wrenches."""
    tolerance = " to ".join(
        _shown(end, said.target.unit) for end in (said.low_newton_metre, said.high_newton_metre)
    )
    lines = [f"{said.target} wanted, {tolerance} {said.target.unit} allowed"]
    if said.extension is not None:
        lines.append(f"through {said.extension} at {said.angle_degree:g}°")
    blocks = [lines, _first_lines(said)]
    if said.others:
        width = max(len(choice.wrench.id) for choice in said.others)
        blocks.append(
            ["Others", *(f"  {choice.wrench.id:{width}}  {_outcome(choice)}" for choice in said.others)]
        )
    assumed = [f"calibration judged on {said.on.isoformat()}", "accuracy as the register says, both ways"]
    if said.extension is not None:
        assumed.append("pulled at the middle of the grip; a socket extension along the drive changes nothing")
    blocks.append(["Assumed", *(f"  {line}" for line in assumed)])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def as_json(said: Answer) -> dict[str, object]:
    """The answer for programs; a quantity is {"value", "unit"}, a share is of one."""
    return {
        **_choice_json(said, said.first),
        "target": {"value": float(said.target.value), "unit": said.target.unit},
        "allowed_low": _torque(said.low_newton_metre, said.target.unit),
        "allowed_high": _torque(said.high_newton_metre, said.target.unit),
        "others": [_choice_json(said, choice) for choice in said.others],
        "assumptions": [f"calibration judged on {said.on.isoformat()}"],
        "sources": [
            "a setting is a graduation whose true torque stays inside the limits, whatever the wrench's error"
        ],
    }


def _first_lines(said: Answer) -> list[str]:
    outcome = said.first.outcome
    if not isinstance(outcome, Setting):
        refusal = f"{said.first.wrench.id}  {outcome.why}"
        return (
            [f"REFUSED  {refusal}"]
            if said.was_named
            else ["No wrench of the register can do it", f"  {refusal}"]
        )
    verb = "pull until it shows" if said.first.wrench.indicates else "set, pull once to the click,"
    unit = said.target.unit
    ends = " to ".join(
        _shown(end, unit) for end in (outcome.true_low_newton_metre, outcome.true_high_newton_metre)
    )
    good = f"{outcome.low_mark:f} to {outcome.high_mark:f} {outcome.unit}"
    return [
        f"{said.first.wrench.id}  {verb} {outcome}",
        f"  good: {good}",
        f"  true torque: {ends} {unit}",
        *_scale(said, outcome),
    ]


def _scale(said: Answer, outcome: Setting) -> list[str]:
    """The tolerance as a line, with what the fastener may get marked on it."""
    low, high = said.low_newton_metre, said.high_newton_metre

    def cell(newton_metre: float) -> int:
        return min(max(round((newton_metre - low) / (high - low) * _CELLS), 0), _CELLS)

    marks = [" "] * (_CELLS + 1)
    first, last = cell(outcome.true_low_newton_metre), cell(outcome.true_high_newton_metre)
    marks[first : last + 1] = "=" * (last + 1 - first)
    marks[cell(said.target.si)] = "#"
    ends = [_shown(end, said.target.unit) for end in (low, high)]
    return [
        f"  {ends[0]} [{'-' * (_CELLS + 1)}] {ends[1]} {said.target.unit}",
        f"  {' ' * len(ends[0])}  {''.join(marks).rstrip()}",
    ]


def _outcome(choice: Choice) -> str:
    if isinstance(choice.outcome, Setting):
        return f"{choice.outcome}, misses by {choice.deviation * 100:.1f} % at most"
    return choice.outcome.why


def _choice_json(said: Answer, choice: Choice) -> dict[str, object]:
    outcome = choice.outcome
    if not isinstance(outcome, Setting):
        return {
            "wrench": choice.wrench.id,
            "setting": None,
            "true_torque_low": None,
            "true_torque_high": None,
            "refused": outcome.why,
        }
    return {
        "wrench": choice.wrench.id,
        "setting": {"value": float(outcome.value), "unit": outcome.unit},
        "setting_low": {"value": float(outcome.low_mark), "unit": outcome.unit},
        "setting_high": {"value": float(outcome.high_mark), "unit": outcome.unit},
        "true_torque_low": _torque(outcome.true_low_newton_metre, said.target.unit),
        "true_torque_high": _torque(outcome.true_high_newton_metre, said.target.unit),
        "worst_miss": round(choice.deviation, 4),
        "refused": None,
    }


def _torque(newton_metre: float, unit: str) -> dict[str, object]:
    return {"value": float(_shown(newton_metre, unit)), "unit": unit}


def _shown(newton_metre: float, unit: str) -> str:
    value = convert(newton_metre, "N·m", unit)
    return f"{value:.4g}" if abs(value) < 10_000 else f"{value:.0f}"
