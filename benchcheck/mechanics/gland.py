"""The groove an O-ring works in, and how a given size fits it: stretch, squeeze and gland fill.

Here belong the forms of gland (male, female, face, along a line, boss), their text ("bore 2.250, depth
0.081") and the fit. Which sizes exist is in o_ring.py, what a rubber bears in rubber.py.
Lengths are inches inside; the text may say mm.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from benchcheck.mechanics.o_ring import Size, all_sizes, size
from benchcheck.mechanics.tables.o_ring_glands import DYNAMIC_RADIAL, STATIC_FACE, STATIC_RADIAL

INCH_MILLIMETRE = 25.4


class GlandError(ValueError):
    """One sentence: what was found in the text of a gland, what was expected, what to write."""


class Form(StrEnum):
    """Where the groove is cut, named by the first word of its text."""

    BORE = "bore"  # male gland: groove on the inner part, the ring is stretched on it and squeezed by a bore
    SHAFT = "shaft"  # female gland: groove in the outer part, the ring is stretched on a shaft
    GROOVE_OUTSIDE = "groove OD"  # face gland, pressure from inside: the ring leans on the outer wall
    GROOVE_INSIDE = "groove ID"  # face gland, pressure from outside: the ring leans on the inner wall
    CENTRE_LINE = "centre line"  # face gland of any outline, by the length of its centre line
    BOSS = "boss"  # straight-thread boss of a tube fitting


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length and how far it may be off, either way [inch]."""

    nominal_inch: float
    tolerance_inch: float = 0.0

    @property
    def low_inch(self) -> float:
        """Smallest [inch]."""
        return self.nominal_inch - self.tolerance_inch

    @property
    def high_inch(self) -> float:
        """Largest [inch]."""
        return self.nominal_inch + self.tolerance_inch


@dataclass(frozen=True, slots=True)
class Gland:
    """One gland: `across` is the dimension that `form` names; a boss has a thread instead, or nothing.

    Raises GlandError for a boss of an unknown thread, or another form without its dimension.
    """

    form: Form
    across: Dimension | None = None
    depth: Dimension | None = None
    width: Dimension | None = None
    thread: str | None = None
    moving: bool = False

    def __post_init__(self) -> None:
        if self.thread is not None and self.thread not in BOSS_SIZES:
            raise GlandError(
                f'found a boss with thread "{self.thread}", expected one of {", ".join(BOSS_SIZES)}: '
                'write "3/4-16 boss"'
            )
        if self.across is None and self.form is not Form.BOSS:
            raise GlandError(f"a gland of the form {self.form} needs its dimension: write {_EXAMPLE}")


# Straight-thread boss: thread and the dash number of its ring, "9" and the tube's outside diameter in
# sixteenths of an inch. From memory of SAE J1926-1 and ISO 11926-1; check a print before relying on it.
BOSS_SIZES = {
    "5/16-24": "902",
    "3/8-24": "903",
    "7/16-20": "904",
    "1/2-20": "905",
    "9/16-18": "906",
    "3/4-16": "908",
    "7/8-14": "910",
    "1-1/16-12": "912",
    "1-3/16-12": "914",
    "1-5/16-12": "916",
    "1-5/8-12": "920",
    "1-7/8-12": "924",
    "2-1/2-12": "932",
}

_ITEM = re.compile(
    r"(?P<name>bore|shaft|groove OD|outside|groove ID|inside|centre line|depth|width) "
    r"(?P<value>\d{0,5}\.?\d{1,6})(?: ?± ?(?P<tolerance>\d{0,5}\.?\d{1,6}))?(?: ?(?P<unit>in|mm))?",
    re.ASCII | re.IGNORECASE,
)
_FORMS = {form.value.casefold(): form for form in Form if form is not Form.BOSS} | {
    "outside": Form.GROOVE_OUTSIDE,
    "inside": Form.GROOVE_INSIDE,
}
_EXAMPLE = '"bore 2.250 in, depth 0.081 in"'
_LONGEST_TEXT = 200


def gland(text: str) -> Gland:
    """Reads a gland: "bore 2.250, depth 0.081", "groove OD 81.28 mm, depth 1.96 mm", "3/4-16 boss".

    One of bore, shaft, groove OD (or outside), groove ID (or inside), centre line (its length); then depth,
    if wished width, and "moving" if the seal slides. Each number may have a tolerance ("±0.002") and a unit,
    in or mm; without one it is inches. Raises GlandError.
    """
    if len(text) > _LONGEST_TEXT:
        raise GlandError(f"found {len(text)} characters, expected a gland such as {_EXAMPLE}")
    words = " ".join(text.replace('"', " in ").split())
    if "boss" in words.casefold().split():
        return _boss(words)
    if re.search(r"\d,\d", words):
        raise GlandError(f'found "{words}", expected numbers with a decimal point: write {_EXAMPLE}')
    parts: dict[str, Dimension] = {}
    moving = False
    for item in words.split(","):
        if item.strip().casefold() == "moving":
            moving = True
            continue
        name, dimension = _item(item.strip())
        if name in parts:
            raise GlandError(f'"{name}" is there twice: write it once')
        parts[name] = dimension
    forms = [name for name in parts if name in _FORMS]
    if len(forms) != 1:
        raise GlandError(
            f'found "{words}", expected one of bore, shaft, groove OD, groove ID or centre line, '
            f"and the depth: write {_EXAMPLE}"
        )
    return Gland(
        form=_FORMS[forms[0]],
        across=parts[forms[0]],
        depth=parts.get("depth"),
        width=parts.get("width"),
        moving=moving,
    )


def _item(item: str) -> tuple[str, Dimension]:
    found = _ITEM.fullmatch(item)
    if found is None:
        raise GlandError(f'found "{item}", expected a dimension and its name: write {_EXAMPLE}')
    factor = 1 / INCH_MILLIMETRE if (found["unit"] or "in").casefold() == "mm" else 1.0
    value, tolerance = float(found["value"]) * factor, float(found["tolerance"] or 0) * factor
    if value <= tolerance:
        raise GlandError(f'found "{item}", expected a length above zero at its smallest')
    return found["name"].casefold(), Dimension(value, tolerance)


def _boss(words: str) -> Gland:
    thread = " ".join(word for word in words.split() if word.casefold() not in ("boss", "unf", "un"))
    return Gland(form=Form.BOSS, thread=thread or None)


@dataclass(frozen=True, slots=True)
class Band:
    """A nominal value and what the tolerances of ring and gland make of it at worst."""

    nominal: float
    low: float
    high: float


class Misfit(StrEnum):
    """How a ring can fail to fit its gland."""

    OVERSTRETCHED = "stretched too far"
    LOOSE = "loose"
    PINCHED = "pinched"
    STANDS_CLEAR = "stands clear of its wall"
    TOO_LITTLE_SQUEEZE = "too little squeeze"
    TOO_MUCH_SQUEEZE = "too much squeeze"
    OVERFILLED = "gland too full"
    WRONG_BOSS = "wrong boss"


@dataclass(frozen=True, slots=True)
class Fit:
    """How a size fits a gland. Shares are of one: a stretch of 0.019 is 1.9 %.

    `stretch`: how much longer the ring is fitted than in its bag; `stretch_limit`: how much it may be.
    `squeeze`: how much of the section the closed gland takes away.
    `fill`: ring section over gland section. `width_assumed`: the usual width was taken, for none was given.
    `clearance_inch`: groove outside diameter less ring outside diameter, where the ring leans on that wall;
    negative: the ring is the larger.
    `section_fitted_inch`: section left when the stretch has thinned it (constant volume, thin ring).
    `usual_squeeze`: what the usual gland of this section gives, tolerances and all.
    `misfits`: each with its sentence; empty when the ring fits. Judged at nominal dimensions.
    """

    size: Size
    gland: Gland
    stretch_limit: float
    stretch: Band | None = None
    squeeze: Band | None = None
    fill: Band | None = None
    width_assumed: bool = False
    clearance_inch: Band | None = None
    section_fitted_inch: float | None = None
    usual_squeeze: tuple[float, float] | None = None
    misfits: Mapping[Misfit, str] = field(default_factory=dict)


# Squeeze and stretch: seal suppliers' guides. Fill: handbooks, from memory. The share by which a face ring
# may miss the wall it leans on: common practice.
STRETCH_LIMIT = 0.05
SQUEEZE_LIMITS = (0.10, 0.40)
SQUEEZE_LIMIT_MOVING = 0.30
FILL_LIMIT = 0.85
WALL_LIMIT = 0.01


def fit(ring: Size, where: Gland, *, stretch_limit: float = STRETCH_LIMIT) -> Fit:
    """Stretch, squeeze and fill of a ring in a gland, with what the tolerances make of them.

    `stretch_limit`: largest share by which this rubber may stay stretched (rubber.stretch_limit).
    Raises GlandError where the depth leaves no groove.
    Source: geometry; constant volume for the thinned section; limits as named beside them.
    """
    if where.across is None:
        return Fit(ring, where, stretch_limit, misfits=_boss_misfits(ring, where))
    stretch = _stretch(ring, where, where.across)
    clearance = _clearance(ring, where.across) if where.form is Form.GROOVE_OUTSIDE else None
    squeeze = _squeeze(ring, where.depth) if where.depth else None
    usual = _usual(ring, where)
    width = where.width or (Dimension(usual[2] / INCH_MILLIMETRE) if usual else None)
    fill = _fill(ring, where.depth, width) if where.depth and width else None
    return Fit(
        ring,
        where,
        stretch_limit,
        stretch=stretch,
        squeeze=squeeze,
        fill=fill,
        width_assumed=fill is not None and where.width is None,
        clearance_inch=clearance,
        section_fitted_inch=ring.section_inch / math.sqrt(1 + stretch.nominal) if stretch else None,
        usual_squeeze=(usual[3] / 100, usual[4] / 100) if usual else None,
        misfits=_misfits(ring, where, stretch, squeeze, fill, clearance, stretch_limit),
    )


def fitting_sizes(where: Gland, *, stretch_limit: float = STRETCH_LIMIT) -> tuple[Size, ...]:
    """The AS568 sizes that fit a gland without a misfit, in the order of their dash numbers."""
    if where.form is Form.BOSS and where.thread:
        return (size(BOSS_SIZES[where.thread]),)
    return tuple(ring for ring in all_sizes() if not fit(ring, where, stretch_limit=stretch_limit).misfits)


def percent(share: float, digits: int = 1) -> str:
    """A share of one in words: 0.252 is "25.2 %"."""
    return f"{100 * share:.{digits}f} %"


def _stretch(ring: Size, where: Gland, across: Dimension) -> Band | None:
    """Share by which the ring is longer on its seat than in its bag; none where no seat stretches it."""
    inside = Dimension(ring.inside_diameter_inch, ring.inside_diameter_tolerance_inch)
    seat = across
    if where.form is Form.GROOVE_OUTSIDE:
        return None
    if where.form is Form.BORE:
        if where.depth is None:
            return None
        seat = Dimension(
            across.nominal_inch - 2 * where.depth.nominal_inch,
            across.tolerance_inch + 2 * where.depth.tolerance_inch,
        )
        if seat.low_inch <= 0:
            raise GlandError("the depth is more than half the bore: no groove is left")
    elif where.form is Form.CENTRE_LINE:
        seat = Dimension(across.nominal_inch / math.pi, across.tolerance_inch / math.pi)
        inside = Dimension(
            ring.inside_diameter_inch + ring.section_inch,
            ring.inside_diameter_tolerance_inch + ring.section_tolerance_inch,
        )
    return Band(
        seat.nominal_inch / inside.nominal_inch - 1,
        seat.low_inch / inside.high_inch - 1,
        seat.high_inch / inside.low_inch - 1,
    )


def _clearance(ring: Size, across: Dimension) -> Band:
    tolerance = ring.inside_diameter_tolerance_inch + 2 * ring.section_tolerance_inch + across.tolerance_inch
    nominal = across.nominal_inch - ring.outside_diameter_inch
    return Band(nominal, nominal - tolerance, nominal + tolerance)


def _squeeze(ring: Size, depth: Dimension) -> Band:
    section = Dimension(ring.section_inch, ring.section_tolerance_inch)
    return Band(
        1 - depth.nominal_inch / section.nominal_inch,
        1 - depth.high_inch / section.low_inch,
        1 - depth.low_inch / section.high_inch,
    )


def _fill(ring: Size, depth: Dimension, width: Dimension) -> Band:
    section = Dimension(ring.section_inch, ring.section_tolerance_inch)
    return Band(
        math.pi / 4 * section.nominal_inch**2 / (depth.nominal_inch * width.nominal_inch),
        math.pi / 4 * section.low_inch**2 / (depth.high_inch * width.high_inch),
        math.pi / 4 * section.high_inch**2 / (depth.low_inch * width.low_inch),
    )


def _usual(ring: Size, where: Gland) -> tuple[float, float, float, float, float] | None:
    """The usual gland of this section; none for the sections that only the boss series has."""
    radial = where.form in (Form.BORE, Form.SHAFT)
    table = STATIC_FACE if not radial else DYNAMIC_RADIAL if where.moving else STATIC_RADIAL
    return table.get(ring.section_millimetre)


def _boss_misfits(ring: Size, where: Gland) -> dict[Misfit, str]:
    if where.thread and ring.dash != BOSS_SIZES[where.thread]:
        expected = BOSS_SIZES[where.thread]
        return {
            Misfit.WRONG_BOSS: f"{ring.designation} is not the ring of a {where.thread} boss: -{expected} is"
        }
    if not ring.is_boss:
        return {Misfit.WRONG_BOSS: f"{ring.designation} is no ring for a boss: those are -901 to -932"}
    return {}


def _misfits(
    ring: Size,
    where: Gland,
    stretch: Band | None,
    squeeze: Band | None,
    fill: Band | None,
    clearance: Band | None,
    stretch_limit: float,
) -> dict[Misfit, str]:
    """Which limits the nominal fit breaks, each in a sentence that names the number and the limit."""
    found: dict[Misfit, str] = {}
    name = ring.designation
    if stretch and stretch.nominal > stretch_limit:
        found[Misfit.OVERSTRETCHED] = (
            f"{name} would stay stretched by {percent(stretch.nominal)}; "
            f"the limit is {percent(stretch_limit, 0)}"
            + (" (a length without a unit is read as inches)" if stretch.nominal > 5 else "")
        )
    if stretch and stretch.nominal < 0:
        found[Misfit.LOOSE] = (
            f"{name} is {percent(-stretch.nominal)} too long for its seat and lies loose on it"
        )
    if clearance and clearance.nominal > WALL_LIMIT * ring.outside_diameter_inch:
        found[Misfit.STANDS_CLEAR] = (
            f"{name} stands {clearance.nominal:.3f} in on the diameter clear of the wall it has to lean on"
        )
    if clearance and clearance.nominal < -WALL_LIMIT * ring.outside_diameter_inch:
        found[Misfit.PINCHED] = (
            f"{name} is {-clearance.nominal:.3f} in larger outside than its groove and would be pinched"
        )
    if squeeze:
        low, high = SQUEEZE_LIMITS[0], SQUEEZE_LIMIT_MOVING if where.moving else SQUEEZE_LIMITS[1]
        if squeeze.nominal < low:
            found[Misfit.TOO_LITTLE_SQUEEZE] = (
                f"{name} is squeezed by {percent(squeeze.nominal)}; at least {percent(low, 0)} is wanted"
                if squeeze.nominal > 0
                else f"{name} is thinner than the gland is deep and would not be squeezed"
            )
        if squeeze.nominal > high:
            found[Misfit.TOO_MUCH_SQUEEZE] = (
                f"{name} is squeezed by {percent(squeeze.nominal)}; the limit is {percent(high, 0)}"
            )
    if fill and fill.nominal > FILL_LIMIT:
        found[Misfit.OVERFILLED] = (
            f"{name} fills {percent(fill.nominal, 0)} of its gland; the limit is {percent(FILL_LIMIT, 0)}"
        )
    return found
