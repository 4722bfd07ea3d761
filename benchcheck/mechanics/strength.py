"""What a screw bears: grades by their standards, proof load, and how much of it a preload takes.

The numbers stand in `tables.strengths`, each with its origin. Which thread bears them is in `thread`, what
a torque makes of it in `preload`, and the hole it is screwed into in `engagement`.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from benchcheck.mechanics.tables.strengths import INCH_STRENGTHS, METRIC_STRENGTHS, StrengthRow
from benchcheck.mechanics.thread import MILLIMETRES_PER_INCH, Thread

MEGAPASCALS_PER_KSI = 6.894757293168361

# Design of this program: over 100 % of proof load at the top of the tolerance is an error; a target under
# 50 % or over
# 90 % is worth a warning.
LOWEST_USUAL_SHARE = 0.50
HIGHEST_USUAL_SHARE = 0.90

Judgement = Literal["over proof load", "high", "usual", "low"]

_TABLES = ((METRIC_STRENGTHS, 1.0, 1.0), (INCH_STRENGTHS, MILLIMETRES_PER_INCH, MEGAPASCALS_PER_KSI))
_FILLERS = re.compile(
    r"\b(?:ISO|SAE|ASTM|EN|DIN|J ?429|898(?:-1)?|3506(?:-1)?|grade|gr|class|property|stainless|steel)\b\.?",
    re.I,
)


class StrengthError(ValueError):
    """A grade that is unknown or does not cover a diameter, in one sentence."""


@dataclass(frozen=True, slots=True)
class Strength:
    """Minimum strengths of one grade at one diameter.

    Parameters
    ----------
    name : standard and grade, such as "SAE J429 8"
    proof_megapascal : stress the screw must bear without lasting stretch [MPa]; where the standard gives
    none, yield yield_megapascal : yield or 0.2 % proof strength [MPa]
    tensile_megapascal : tensile strength [MPa]
    assumptions : what to say beside a number made from these, such as a value from memory
    """

    name: str
    proof_megapascal: float
    yield_megapascal: float
    tensile_megapascal: float
    assumptions: tuple[str, ...] = ()


def strength(text: str, diameter_millimetre: float) -> Strength:
    """The strengths of a grade as written, at a diameter.

    Parameters
    ----------
    text : "8.8", "ISO 898-1 10.9", "SAE J429 8", "grade 5", "ASTM A193 B7", "A4-70"
    diameter_millimetre : nominal diameter [mm]; some grades are weaker when thick

    Raises StrengthError for an unknown grade, with the nearest known, or a diameter it does not cover.
    Source: see `tables.strengths`.
    """
    name = _grade_named(text)
    for table, length_unit, stress_unit in _TABLES:
        rows = [row for row in table if (row.standard, row.grade) == name]
        for row in rows:
            # a hair of room: 3/8 in is 9.525 mm, and M16 belongs to "up to 16"
            if row.above * length_unit + 1e-6 < diameter_millimetre <= row.up_to * length_unit + 1e-6:
                return _strength(row, stress_unit)
        if rows:
            unit = "mm" if length_unit == 1.0 else "in"
            least, most = min(row.above for row in rows), max(row.up_to for row in rows)
            at_least = f"{'over ' if unit == 'mm' else ''}{round(least, 2):g} to " if least else "up to "
            raise StrengthError(
                f"{' '.join(name)} covers diameters {at_least}{most:g} {unit}; "
                f"{diameter_millimetre / length_unit:.4g} {unit} is outside"
            )
    raise AssertionError(name)


def known_grades() -> tuple[str, ...]:
    """Every grade of the tables, with its standard."""
    rows = (row for table, _, _ in _TABLES for row in table)
    return tuple(dict.fromkeys(f"{row.standard} {row.grade}" for row in rows))


def proof_load_newton(thread: Thread, of: Strength) -> float:
    """Proof load [N]: stress area times proof stress. Source: ISO 898-1, SAE J429."""
    return thread.stress_area_square_millimetre * of.proof_megapascal


def yield_load_newton(thread: Thread, of: Strength) -> float:
    """Load at yield in pure tension [N]: stress area times yield strength."""
    return thread.stress_area_square_millimetre * of.yield_megapascal


def tensile_load_newton(thread: Thread, of: Strength) -> float:
    """Least load at which the screw breaks [N]: stress area times tensile strength. Source: ISO 898-1."""
    return thread.stress_area_square_millimetre * of.tensile_megapascal


def judge(share_at_target: float, share_at_top: float) -> Judgement:
    """What to say of a preload, as a share of proof load at the target and at the top of the tolerance.

    "over proof load" is an error; "high" (over 90 %) and "low" (under 50 %) are worth a warning. The bounds
    are this program's own.
    """
    if share_at_top > 1:
        return "over proof load"
    if share_at_target > HIGHEST_USUAL_SHARE:
        return "high"
    return "low" if share_at_target < LOWEST_USUAL_SHARE else "usual"


def _strength(row: StrengthRow, stress_unit: float) -> Strength:
    assumptions = []
    if row.proof is None:
        what = "0.2 % proof strength" if row.standard.startswith("ISO") else "yield strength"
        assumptions.append(f"{row.standard} {row.grade} has no proof stress; its {what} stands in")
    if row.memory:
        assumptions.append(
            f"{', '.join(row.memory)} of {row.standard} {row.grade} from memory of the standard"
        )
    return Strength(
        f"{row.standard} {row.grade}",
        (row.yield_ if row.proof is None else row.proof) * stress_unit,
        row.yield_ * stress_unit,
        row.tensile * stress_unit,
        tuple(assumptions),
    )


def _grade_named(text: str) -> tuple[str, str]:
    """Standard and grade of a grade as written."""
    if len(text) > 40 or not text.isprintable():
        raise StrengthError('found too long a text, expected a grade such as "ISO 898-1 8.8" or "SAE J429 8"')
    written = " ".join(text.replace("–", "-").split())
    bare = " ".join(_FILLERS.sub(" ", written).upper().split())
    grades = _grades()
    folded = _folded(bare)
    matches = [pair for pair, spellings in grades.items() if bare and folded in spellings]
    stated = [pair for pair in matches if _standard_fits(written, pair[0])]
    if stated:
        return stated[0]
    if matches:
        raise StrengthError(f'"{text}": {bare} is a grade of {matches[0][0]}; write "{" ".join(matches[0])}"')
    near = difflib.get_close_matches(bare, [grade for _, grade in grades], n=3, cutoff=0.5)
    meant = [f"{standard} {grade}" for close in near for standard, grade in grades if grade == close]
    expected = meant or ["ISO 898-1 8.8", "SAE J429 8", "ISO 3506-1 A4-70"]
    raise StrengthError(f'grade "{text}" is not known; did you mean {_or(expected)}?')


@cache
def _grades() -> dict[tuple[str, str], tuple[str, str]]:
    """Every standard and grade, with the grade in full and by its last word: "A193 B7" and "B7"."""
    return {
        (row.standard, row.grade): (_folded(row.grade), _folded(row.grade.rpartition(" ")[2]))
        for table, _, _ in _TABLES
        for row in table
    }


def _folded(grade: str) -> str:
    return re.sub("[ -]", "", grade.upper())


def _standard_fits(written: str, standard: str) -> bool:
    """Whether the standard named in the text, if any, is this one."""
    named = re.search(r"J ?429|898|3506|ASTM", written, re.I)
    return named is None or named[0].upper().replace(" ", "") in standard.upper().replace(" ", "")


def _or(words: list[str]) -> str:
    listed = [f'"{word}"' for word in words]
    return " or ".join([", ".join(listed[:-1]), listed[-1]] if len(listed) > 1 else listed)
