"""O-rings by size: the 369 dash numbers of AS568, and the sizes that the eye takes one for.

Here belongs the ring as it lies in its bag. Its fit in a groove is in gland.py, what it is made of in
rubber.py. Lengths are inches unless the name says otherwise: AS568 is an inch standard.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from benchcheck.mechanics.tables.as568 import SIZES


class UnknownSize(ValueError):
    """One sentence: what was found, what a size looks like, and the nearest sizes."""


@dataclass(frozen=True, slots=True)
class Size:
    """One AS568 size: nominal dimensions and their tolerances, either way [inch and millimetre]."""

    dash: str
    inside_diameter_inch: float
    inside_diameter_tolerance_inch: float
    section_inch: float
    section_tolerance_inch: float
    inside_diameter_millimetre: float
    inside_diameter_tolerance_millimetre: float
    section_millimetre: float
    section_tolerance_millimetre: float

    @property
    def designation(self) -> str:
        """As it stands on the bag: "-151"."""
        return f"-{self.dash}"

    @property
    def outside_diameter_inch(self) -> float:
        """Inside diameter and two sections [inch]."""
        return self.inside_diameter_inch + 2 * self.section_inch

    @property
    def is_boss(self) -> bool:
        """Whether it belongs to the 9xx series, for straight-thread tube fittings."""
        return self.dash.startswith("9")


class Resemblance(StrEnum):
    """Why one size is taken for another."""

    NEXT_DIAMETER = "same section, next inside diameter"
    NEXT_BOSS = "boss series, next size"
    NEXT_SECTION = "same inside diameter, next section"
    METRIC = "metric near-miss"


@dataclass(frozen=True, slots=True)
class LookAlike:
    """A size that is taken for the one asked about, and what tells them apart.

    `designation` is "-150" for an AS568 size, which `size` reads, and "76 × 2.5 mm" for a metric one, which
    it does not; `difference` is told from the size asked about: "0.125 in narrower inside; same section".
    """

    designation: str
    resemblance: Resemblance
    inside_diameter_inch: float
    section_inch: float
    difference: str

    @property
    def is_metric(self) -> bool:
        """Whether it is no AS568 size."""
        return self.resemblance is Resemblance.METRIC


_WRITTEN = re.compile(r"(?:AS\s*568[A-H]?)?\s*[-–−]?\s*(\d{1,3})", re.ASCII | re.IGNORECASE)


def size(dash: str) -> Size:
    """The AS568 size of a dash number, written "-151", "151" or "AS568-151"; leading zeros may be left out.

    Raises UnknownSize with the nearest numbers where there is no such size.
    Source: AS568, as in tables/as568.py.
    """
    found = _WRITTEN.fullmatch(dash.strip()[:40])
    if found is None:
        shown = dash.strip()[:24]
        raise UnknownSize(f'found "{shown}", expected an AS568 size: write a dash number such as -151')
    number = found[1].zfill(3)
    if number not in SIZES:
        nearest = " and ".join(f"-{other}" for other in _nearest_numbers(number))
        raise UnknownSize(f"AS568 has no size -{number}; the nearest are {nearest}")
    return _size(number)


@cache
def _size(number: str) -> Size:
    return Size(number, *SIZES[number])


def _nearest_numbers(number: str) -> list[str]:
    below = [other for other in SIZES if other < number]
    above = [other for other in SIZES if other > number]
    return below[-1:] + above[:1] if below and above else (below[-2:] or above[:2])


@cache
def all_sizes() -> tuple[Size, ...]:
    """The 369 sizes in the order of their dash numbers."""
    return tuple(_size(number) for number in SIZES)


# Sections farther apart than this are told apart by eye. The widest step between neighbouring sections of
# the 0xx to 4xx series is 0.210/0.139.
_SECTION_RATIO = 1.52
# Sections in which metric rings are stocked [millimetre]. From memory: common practice, and ISO 3601-1:1988.
_METRIC_SECTIONS = (1.0, 1.5, 1.8, 2.0, 2.5, 2.65, 3.0, 3.5, 3.55, 4.0, 5.0, 5.3, 5.7, 6.0, 7.0)
_METRIC_SECTION_SHARE = 0.08
_METRIC_DIAMETER_SHARE = 0.015


@cache
def look_alikes(of: Size) -> tuple[LookAlike, ...]:
    """The sizes that are taken for this one, nearest inside diameter first within each kind.

    Same section and the next inside diameter either way (in the boss series, where nearly each size has a
    section of its own, the next size); an inside diameter within the two tolerances and a neighbouring
    section; metric rings in whole millimetres with a section within 8 %, and an inside diameter within 1.5 %
    or within the tolerance. The limits are common practice: nobody publishes what an eye mistakes.
    """
    return (*_next_diameters(of), *_next_sections(of), *_metric(of))


def _next_diameters(of: Size) -> list[LookAlike]:
    family = [
        other
        for other in all_sizes()
        if (other.is_boss if of.is_boss else other.section_inch == of.section_inch and not other.is_boss)
    ]
    family.sort(key=lambda other: other.inside_diameter_inch)
    at = family.index(of)
    neighbours = family[max(at - 1, 0) : at] + family[at + 1 : at + 2]
    resemblance = Resemblance.NEXT_BOSS if of.is_boss else Resemblance.NEXT_DIAMETER
    return [_look_alike(of, other, resemblance) for other in neighbours]


def _next_sections(of: Size) -> list[LookAlike]:
    found = []
    for other in all_sizes():
        thick, thin = max(of.section_inch, other.section_inch), min(of.section_inch, other.section_inch)
        apart = abs(of.inside_diameter_inch - other.inside_diameter_inch)
        both_tolerances = of.inside_diameter_tolerance_inch + other.inside_diameter_tolerance_inch
        # The table's inch values are rounded to 0.001 in, hence the half of it.
        if thick != thin and thick / thin <= _SECTION_RATIO and apart <= both_tolerances + 0.0005:
            found.append(other)
    found.sort(key=lambda other: abs(of.inside_diameter_inch - other.inside_diameter_inch))
    return [
        _look_alike(of, other, Resemblance.NEXT_SECTION)
        for other in found
        if not (of.is_boss and other.is_boss)
    ]


def _metric(of: Size) -> list[LookAlike]:
    found = []
    inside_millimetre = of.inside_diameter_millimetre
    allowed = max(of.inside_diameter_tolerance_millimetre, _METRIC_DIAMETER_SHARE * inside_millimetre)
    for section in _METRIC_SECTIONS:
        inside = float(round(inside_millimetre))
        if (
            abs(section - of.section_millimetre) <= _METRIC_SECTION_SHARE * of.section_millimetre
            and abs(inside - inside_millimetre) <= allowed
        ):
            found.append(
                LookAlike(
                    f"{inside:g} × {section:g} mm",
                    Resemblance.METRIC,
                    inside / 25.4,
                    section / 25.4,
                    _difference(inside - inside_millimetre, section - of.section_millimetre, "mm", 2),
                )
            )
    return found


def _look_alike(of: Size, other: Size, resemblance: Resemblance) -> LookAlike:
    return LookAlike(
        other.designation,
        resemblance,
        other.inside_diameter_inch,
        other.section_inch,
        _difference(
            other.inside_diameter_inch - of.inside_diameter_inch,
            other.section_inch - of.section_inch,
            "in",
            3,
        ),
    )


def _difference(wider: float, thicker: float, unit: str, digits: int) -> str:
    inside = "same inside diameter"
    if round(wider, digits):
        inside = f"{abs(wider):.{digits}f} {unit} {'wider' if wider > 0 else 'narrower'} inside"
    section = "same section"
    if round(thicker, digits):
        section = f"{abs(thicker):.{digits}f} {unit} {'thicker' if thicker > 0 else 'thinner'}"
    return f"{inside}; {section}"
