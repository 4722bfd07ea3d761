"""An answer about torque and preload, laid out for a person: the numbers, a scale of proof load, what was
assumed."""

from __future__ import annotations

from benchcheck.mechanics.strength import HIGHEST_USUAL_SHARE, LOWEST_USUAL_SHARE, Judgement
from benchcheck.mechanics.units import convert
from benchcheck.report.torques import Answer, same_number_elsewhere

_CELLS = 60
_TOP_SHARE = 1.2
_WORDS: dict[Judgement, str] = {
    "usual": "in the usual range",
    "low": "LOW: under 50 % it may come loose; say why, if it is meant",
    "high": "HIGH: over 90 % little is left for the load",
    "over proof load": "OVER PROOF LOAD at the top: the screw may not spring back",
}


def as_text(said: Answer) -> str:
    """The answer for a person, with its assumptions and sources."""
    blocks = [_head(said), _scale(said)]
    other = same_number_elsewhere(said)
    if other:
        readings = ", ".join(f"{unit} {_percent(share)}" for unit, share in other)
        blocks.append(["The same number read in another unit, as a share of proof load", f"  {readings}"])
    extras = _extras(said)
    if extras:
        blocks.append(extras)
    if said.assumptions:
        blocks.append(["Assumed", *(f"  {line}" for line in said.assumptions)])
    blocks.append(["Sources", *(f"  {line}" for line in said.sources)])
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _head(said: Answer) -> list[str]:
    lines = [f"{said.thread}, {said.strength.name}, {said.friction.words}"]
    if said.torque_newton_metre is not None:
        torque = f"{_torque(said, said.torque_newton_metre)}{_also(said)}"
        if said.tolerance is not None:
            torque += f", {_range(said)} {said.torque_unit} with ±{said.tolerance}"
    else:
        torque = f"{_range(said)} {said.torque_unit}"
    lines.append(f"  torque      {torque}")
    if said.preload_newton is not None:
        lines.append(
            f"  preload     {_force(said, said.preload_newton)}, {_forces(said)} with tolerance and scatter"
        )
    else:
        lines.append(f"  preload     {_forces(said)}")
    lines.append(f"  proof load  {_force(said, said.proof_load_newton)}")
    low, high = said.share(said.preload_low_newton), said.share(said.preload_high_newton)
    if said.preload_newton is not None and said.judgement is not None:
        share = f"{_percent(said.share(said.preload_newton), 1)} of proof load, {_WORDS[said.judgement]}"
    else:
        share = f"{_percent(low)} to {_percent(high)} of proof load"
    lines.append(f"  share       {share}")
    return lines


def _scale(said: Answer) -> list[str]:
    """Proof load as a line: the usual range in brackets, scatter dotted, the target marked."""
    axis = ["-"] * (_CELLS + 1)
    axis[_cell(LOWEST_USUAL_SHARE)], axis[_cell(HIGHEST_USUAL_SHARE)] = "[", "]"
    axis[_cell(1.0)] = "|"
    marks = [" "] * (_CELLS + 1)
    first, last = _cell(said.share(said.preload_low_newton)), _cell(said.share(said.preload_high_newton))
    marks[first : last + 1] = "." * (last + 1 - first)
    if said.preload_newton is not None:
        marks[_cell(said.share(said.preload_newton))] = "#"
    heads = [" "] * (_CELLS + 7)
    for share in (0.0, 0.25, 0.5, 0.75, 1.0):
        at = _cell(share)
        text = _percent(share)
        heads[at : at + len(text)] = text
    over = " ►" if said.share(said.preload_high_newton) > _TOP_SHARE else ""
    return [
        f"  {''.join(heads).rstrip()} of proof load",
        f"  {''.join(axis)}",
        f"  {''.join(marks).rstrip()}{over}",
    ]


def _extras(said: Answer) -> list[str]:
    lines = []
    if said.set_to_newton_metre is not None:
        lines.append(f"Set {_torque(said, said.set_to_newton_metre)} with the running torque")
    if said.after_angle is not None and said.angle is not None:
        turned = said.after_angle
        margin = (
            f"{_percent(turned.margin_to_yield)} left to yield" if turned.margin_to_yield > 0 else "YIELDED"
        )
        lines.append(
            f"After {said.angle}: {_force(said, turned.preload_newton)}, "
            f"{_percent(turned.share_of_proof)} of proof load, {margin}"
        )
    if said.engagement is not None:
        held = said.engagement
        lines.append(
            f"Engaged over {held.engagement_in_diameters:.2g} diameters: first the {held.first_to_fail}"
        )
        for what, newton in (
            ("screw breaks", held.screw_newton),
            ("its thread strips", held.screw_thread_newton),
            ("the tapped thread strips", held.tapped_thread_newton),
        ):
            lines.append(f"  {what:24}  at {_force(said, newton)}")
    return lines


def _cell(share: float) -> int:
    return min(max(round(share / _TOP_SHARE * _CELLS), 0), _CELLS)


def _also(said: Answer) -> str:
    """The torque in the other system, where it was not given in it."""
    if said.torque_newton_metre is None:
        return ""
    other = "lbf·ft" if said.torque_unit == "N·m" else "N·m"
    return f" ({_figures(convert(said.torque_newton_metre, 'N·m', other))} {other})"


def _torque(said: Answer, newton_metre: float) -> str:
    return f"{_figures(convert(newton_metre, 'N·m', said.torque_unit))} {said.torque_unit}"


def _range(said: Answer) -> str:
    ends = (said.torque_low_newton_metre, said.torque_high_newton_metre)
    return " to ".join(_figures(convert(end, "N·m", said.torque_unit)) for end in ends)


def _forces(said: Answer) -> str:
    ends = (said.preload_low_newton, said.preload_high_newton)
    return " to ".join(_figures(convert(end, "N", said.force_unit)) for end in ends) + f" {said.force_unit}"


def _force(said: Answer, newton: float) -> str:
    return f"{_figures(convert(newton, 'N', said.force_unit))} {said.force_unit}"


def _figures(value: float) -> str:
    """Four figures, no exponent."""
    text = f"{value:.4g}"
    return f"{float(text):.0f}" if "e+" in text else text


def _percent(share: float, places: int = 0) -> str:
    return f"{share * 100:.{places}f} %"
