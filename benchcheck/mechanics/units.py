"""Quantities: how they are written, read, converted and bounded.

The spelling is ours, from a closed table of units; text is never evaluated. Conversion is pint's, on exact
decimals, from a registry of our own that is built at the first conversion and nowhere else in the program.
Base units ("si"): N·m, N, Pa, m, m², s, kg, m³, m³/s, m/s, N/m, W, A; and, as a bench reads them, degrees for
angles, °C for temperatures, rpm for speeds, 1 for shares (10 % is 0.1). Drops and light bands are counted.
"""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from benchcheck.mechanics.tables.unit_names import DEFINITIONS, KINDS, TRAPS, UNITS

LONGEST_TEXT = 80
"""No quantity needs more characters; longer text is refused unread."""

SIGNED_KINDS = frozenset({"temperature", "angle"})
"""Kinds that may be below zero everywhere; others only where the caller asks for a signed one."""

_ALIKE = str.maketrans(
    {"μ": "µ", "″": '"', "”": '"', "“": '"', "º": "°", "˚": "°", "−": "-", "∕": "/", "⁄": "/"}
    | dict.fromkeys("\u00a0\u2007\u2009\u202f", " ")
)
_SEPARATORS = re.compile(r"[\s·⋅•∙×*.\-‐‑–]+")
_NUMBER = r"\d{1,12}(?:\.\d{1,12})?"
_FRACTION = r"(?:(?P<whole>\d{1,4})[- ])?(?P<top>\d{1,3})/(?P<bottom>2|4|8|16|32|64)"
_UNIT = r"""[A-Za-zµ°%"'].*|1/min"""
_QUANTITY = re.compile(
    rf"(?P<sign>[+-]?) ?(?:{_FRACTION}|(?P<number>{_NUMBER})) ?(?P<unit>{_UNIT})",
    re.ASCII,
)
_EXPONENT = re.compile(r"[+-]?[\d.]+[eE][+-]?\d", re.ASCII)
_BARE = re.compile(rf"(?P<sign>[+-]?) ?(?P<number>{_NUMBER})", re.ASCII)
_COMMA = re.compile(r"(?<![\d.,])(\d+),(\d+)(?![\d.,])", re.ASCII)


class QuantityError(ValueError):
    """A quantity that cannot be read or used, in one sentence: found, expected, what to write."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its unit, kept exactly as written.

    Two quantities are equal when value and unit are; 12 lbf·in and 1 lbf·ft are not. Compare sizes by `si`.

    Parameters
    ----------
    value : the number, exact
    unit : one of the units of this program in its own spelling, such as "lbf·ft"
    text : what a person wrote; empty when the program made the quantity
    """

    value: Decimal
    unit: str
    text: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        if self.unit not in UNITS:
            raise QuantityError(f'found unit "{_short(self.unit)}", expected one of {", ".join(UNITS)}')

    @property
    def kind(self) -> str:
        """What it measures: a key of `KINDS`, such as "torque"."""
        return UNITS[self.unit].kind

    @property
    def si(self) -> float:
        """The value in the base unit of its kind (see the top of this module)."""
        return float(convert_exactly(self.value, self.unit, KINDS[self.kind][1]))

    def to(self, unit: str) -> float:
        """The value in another unit of the same kind. Raises QuantityError for another kind."""
        return float(convert_exactly(self.value, self.unit, unit))

    def __str__(self) -> str:
        return f"{self.value:f}{'' if self.unit == '°' else ' '}{self.unit}"


def parse(
    text: str, kind: str | Iterable[str] | None = None, *, decimal_comma: bool = False, signed: bool = False
) -> Quantity:
    """Read a quantity such as "16 lbf·ft": a number, then its unit.

    Parameters
    ----------
    text : what was written
    kind : the kind that is expected, or several; None accepts any
    decimal_comma : whether "20,5 N·m" is read (typed by hand) or refused (in a file)
    signed : whether a sign is allowed for a kind that is otherwise never below zero

    Raises QuantityError with one sentence. Lengths in inches may be fractions: "2-3/4 in".
    """
    kinds = (kind,) if isinstance(kind, str) else tuple(kind) if kind is not None else ()
    written = _readable(text, kinds, decimal_comma)
    match = _QUANTITY.fullmatch(written)
    if match is None or _EXPONENT.match(written):
        raise QuantityError(_why_not_a_quantity(text, written, kinds))
    unit = _unit(match["unit"], text, kinds)
    found_kind = UNITS[unit].kind
    if kinds and found_kind not in kinds:
        raise QuantityError(
            f'"{_short(text)}" is {KINDS[found_kind][0]}; expected {_kinds_in_words(kinds)}: '
            f"write {_or(_usual_units(kinds))}"
        )
    if match["number"] is not None:
        value = Decimal(match["number"])
    else:
        value = Decimal(match["whole"] or 0) + Decimal(match["top"]) / Decimal(match["bottom"])
        if unit != "in":
            raise QuantityError(f'"{_short(text)}" is a fraction; write a decimal: "{value} {unit}"')
    return Quantity(_with_sign(value, match["sign"], text, signed or found_kind in SIGNED_KINDS), unit, text)


def parse_number(text: str, decimal_comma: bool = True, *, signed: bool = False) -> Decimal:
    """Read a bare number, for a field beside which the unit already stands. Raises QuantityError."""
    written = _readable(text, None, decimal_comma)
    match = _BARE.fullmatch(written)
    if match is None:
        raise QuantityError(f'found "{_short(text)}", expected a number alone: write for example "20.5"')
    return _with_sign(Decimal(match["number"]), match["sign"], text, signed)


def convert(value: float, unit_from: str, unit_to: str) -> float:
    """Convert a number between two units of one kind, in this program's spelling. Raises QuantityError."""
    if not math.isfinite(value):
        raise QuantityError(f"found {value}, expected a finite number of {unit_from}")
    return float(convert_exactly(Decimal(repr(float(value))), unit_from, unit_to))


def convert_exactly(value: Decimal, unit_from: str, unit_to: str) -> Decimal:
    """As `convert`, on decimals, correct to 28 figures."""
    if unit_from == unit_to:
        return value
    factor, offset = _line(unit_from, unit_to)
    return value * factor + offset


def limits(target: Quantity, tolerance: Quantity) -> tuple[float, float]:
    """The lowest and highest value allowed, in the base unit of the target's kind [N·m for a torque].

    The tolerance is a share of the target ("10 %") or of the target's kind ("2 lbf·ft"), to both sides.
    The bounds are worked out on exact decimals before the one conversion, so that a reading typed in the
    target's unit and equal to a bound compares as equal. Raises QuantityError.
    """
    side = room(target, tolerance)
    base = KINDS[target.kind][1]
    low, high = (convert_exactly(target.value + each, target.unit, base) for each in (-side, side))
    return float(low), float(high)


def room(target: Quantity, tolerance: Quantity) -> Decimal:
    """What the tolerance leaves to either side of the target, in the target's unit. Raises QuantityError.

    Nothing is converted where both have one unit.
    """
    if tolerance.value <= 0:
        raise QuantityError(f'tolerance "{tolerance}" leaves no room; write more than 0, such as "10 %"')
    if tolerance.kind == "share":
        if tolerance.value >= 100:
            raise QuantityError(f'tolerance "{tolerance}" reaches down to nothing; write less than 100 %')
        return abs(target.value) * tolerance.value / 100
    if tolerance.kind != target.kind:
        raise QuantityError(
            f'tolerance "{tolerance}" is {KINDS[tolerance.kind][0]}; expected a share, such as "10 %", '
            f"or {KINDS[target.kind][0]} as the target is"
        )
    # a difference: the offset between °C and °F plays no part in it
    side = tolerance.value
    if tolerance.unit != target.unit:
        side *= _line(tolerance.unit, target.unit)[0]
    if target.kind not in SIGNED_KINDS and side > target.value > 0:
        raise QuantityError(f'tolerance "{tolerance}" is wider than the target "{target}"; write less')
    return side


@functools.cache
def _line(unit_from: str, unit_to: str) -> tuple[Decimal, Decimal]:
    """Factor and offset that turn one unit into another."""
    for unit in (unit_from, unit_to):
        if unit not in UNITS:
            raise QuantityError(f'found unit "{_short(unit)}", expected one of {", ".join(UNITS)}')
    kind_from, kind_to = UNITS[unit_from].kind, UNITS[unit_to].kind
    if kind_from != kind_to:
        raise QuantityError(
            f"{unit_from} is {KINDS[kind_from][0]} and {unit_to} is {KINDS[kind_to][0]}; "
            "neither converts to the other"
        )
    offset, one = (_through_pint(Decimal(number), unit_from, unit_to) for number in (0, 1))
    return one - offset, offset


def _through_pint(value: Decimal, unit_from: str, unit_to: str) -> Decimal:
    name_from, name_to = _defined(unit_from), _defined(unit_to)
    return Decimal(_registry().Quantity(value, name_from).to(name_to).magnitude)


@functools.cache
def _registry() -> Any:
    """The conversion library's registry, holding our definitions alone. Made once, when first needed."""
    import pint

    registry: Any = pint.UnitRegistry(None, non_int_type=Decimal)
    for line in DEFINITIONS:
        registry.define(line)
    return registry


@functools.cache
def _defined(unit: str) -> str:
    """The unit made known to the registry when first needed, and the name it has there.

    That is a plain identifier: the library gives a meaning of its own to names such as N·m or °C.
    """
    name = f"unit_{list(UNITS).index(unit)}_"
    _registry().define(f"{name} = {UNITS[unit].definition}")
    return name


@functools.cache
def _spellings() -> tuple[dict[str, str], dict[str, str]]:
    """Each spelling and the unit it means: those that count by case, and those that do not."""
    cased: dict[str, str] = {}
    uncased: dict[str, str] = {}
    for name, unit in UNITS.items():
        cased |= dict.fromkeys(unit.cased, name)
        uncased |= dict.fromkeys(unit.uncased, name)
    return cased, uncased


def _unit(written: str, text: str, kinds: tuple[str, ...]) -> str:
    cased, uncased = _spellings()
    folded = _folded(written)
    unit = cased.get(folded) or uncased.get(folded.casefold())
    if unit is not None:
        return unit
    if folded in TRAPS:
        raise QuantityError(f'"{_short(text)}": {TRAPS[folded]}')
    import difflib

    known = [*cased, *uncased]
    near = difflib.get_close_matches(folded.casefold(), known, n=1, cutoff=0.75)
    meant = (cased.get(near[0]) or uncased[near[0]]) if near else None
    expected = _or(_usual_units(kinds)) if kinds else "one such as N·m, lbf·ft, mm, bar, min or °C"
    hint = f'; did you mean "{meant}"?' if meant and (not kinds or UNITS[meant].kind in kinds) else ""
    raise QuantityError(f'"{_short(text)}": unit "{_short(written)}" is not known; expected {expected}{hint}')


def _folded(written: str) -> str:
    """A unit as the tables spell it: one dot between its parts, real powers, no brackets."""
    dotted = _SEPARATORS.sub("·", re.sub(r"[()]", " ", written.replace("^", ""))).strip("·")
    closed = re.sub("·?/·?", "/", dotted)
    return re.sub(r"(?<=[a-z])2$", "²", re.sub(r"(?<=m)3(?=/|$)", "³", closed))


def _readable(text: str, kinds: tuple[str, ...] | None, decimal_comma: bool) -> str:
    """The text with look-alike characters and blanks made plain, and its comma judged.

    `kinds`: those expected, none for any; None for a bare number.
    """
    if len(text) > LONGEST_TEXT:
        raise QuantityError(
            f'found {len(text)} characters starting "{_short(text)}", expected a quantity: '
            f'write "{_example(kinds)}"'
        )
    written = " ".join(text.translate(_ALIKE).split())
    if "," not in written:
        return written
    with_point = _COMMA.sub(r"\1.\2", written, count=1)
    if "," in with_point:
        raise QuantityError(
            f'"{_short(text)}" has a comma that is no decimal comma; write "{_example(kinds)}"'
        )
    if decimal_comma:
        return with_point
    grouped = re.search(r"\.\d{3}(?!\d)", with_point)
    or_grouped = f' or "{_short(written.replace(",", ""))}", whichever is meant' if grouped else ""
    raise QuantityError(f'"{_short(text)}" has a comma; write a point: "{_short(with_point)}"{or_grouped}')


def _with_sign(value: Decimal, sign: str, text: str, allowed: bool) -> Decimal:
    if sign and not allowed:
        raise QuantityError(f'"{_short(text)}" has a sign; write the number alone, without + or -')
    return -value if sign == "-" and value else value


def _why_not_a_quantity(text: str, written: str, kinds: tuple[str, ...]) -> str:
    example = _example(kinds)
    if not written:
        return f'found nothing, expected {_kinds_in_words(kinds)}: write for example "{example}"'
    if _BARE.fullmatch(written):
        with_unit = f"{_short(written)} {_usual_units(kinds)[0]}"
        return f'"{_short(text)}" has no unit; write it, for example "{with_unit}"'
    if _EXPONENT.match(written):
        return f'"{_short(text)}" has an exponent; write the number in full, for example "{example}"'
    return (
        f'found "{_short(text)}", expected {_kinds_in_words(kinds)}, a number and its unit: '
        f'write for example "{example}"'
    )


def _kinds_in_words(kinds: tuple[str, ...]) -> str:
    return _or([KINDS[kind][0] for kind in kinds]) if kinds else "a quantity"


def _usual_units(kinds: tuple[str, ...]) -> list[str]:
    return [unit for kind in kinds or ("torque",) for unit in KINDS[kind][2]]


def _example(kinds: tuple[str, ...] | None) -> str:
    return "20.5" if kinds is None else str(Quantity(Decimal(20), _usual_units(kinds)[0]))


def _or(words: list[str]) -> str:
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def _short(text: str) -> str:
    """At most 24 characters of somebody's text, safe to put into a sentence."""
    plain = "".join(character if character.isprintable() else "?" for character in text[:25])
    return plain[:23] + "…" if len(text) > 24 else plain
