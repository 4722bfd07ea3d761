"""Screw threads: designations, and the sizes that follow from diameter and pitch.

ISO metric and unified inch threads, right- and left-hand. What the material bears belongs to `strength`;
what a torque does to it belongs to `preload`. All lengths in millimetres, whatever the thread's own system.
"""

from __future__ import annotations

import functools
import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from fractions import Fraction

from benchcheck.mechanics.tables.thread_series import METRIC, SERIES_IN_WORDS, UNIFIED

MILLIMETRES_PER_INCH = 25.4

_COARSE = ("metric coarse", "UNC")
_LONGEST_TEXT = 40
_LEFT = re.compile(r"[\s-]*(?:LH|L\.H\.|left[\s-]*hand(?:ed)?)$", re.IGNORECASE)
_METRIC = re.compile(
    r"M ?(?P<diameter>\d{1,3}(?:\.\d{1,2})?)(?: ?[x×*] ?(?P<pitch>\d{1,3}(?:\.\d{1,3})?))?"
    r"(?:[ -]?\d[a-z]\d?[a-z]?)?",
    re.ASCII | re.IGNORECASE,
)
_UNIFIED = re.compile(
    r"(?P<number>#|no\.? ?)?(?P<size>\d[ -]\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d{1,2}(?! ?/)|\d?\.\d{2,4})"
    r"(?: ?in\.?|\")? ?- ?(?P<tpi>\d{1,2}(?:\.5)?)(?: ?-? ?(?P<series>(?:\d{1,2}-)?UN[A-Z]*))?"
    r"(?:[ -]?[123][AB])?",
    re.ASCII | re.IGNORECASE,
)
_OTHERS = {
    r"(?:G|R[cps]?|BSPP?T?)[ \d]": "a pipe thread",
    r".*N\.?P\.?[TS]": "a pipe thread",
    r"TR ?\d": "a trapezoidal thread",
    r".*(?:BSW|BSF|WHIT)": "a Whitworth thread",
    r"UN[JR]": "a thread whose size does not stand first",
}


class ThreadError(ValueError):
    """A designation that cannot be read or does not exist, in one sentence with the nearest real ones."""


class OtherThreadError(ThreadError):
    """A thread of another system, such as a pipe thread: right as it may be, nothing is known of it here."""


@dataclass(frozen=True, slots=True)
class Thread:
    """One screw thread.

    Parameters
    ----------
    size : nominal size as spoken: "M8", "5/16", "No10"
    series : "metric coarse", "metric fine", "UNC", "UNF", "UNEF", "8-UN", "12-UN" or "UNS"
    diameter_millimetre : nominal (major) diameter d [mm]
    pitch_millimetre : pitch P [mm]
    threads_per_inch : as designated; empty for metric threads
    left_hand : whether it tightens counter-clockwise
    """

    size: str
    series: str
    diameter_millimetre: float
    pitch_millimetre: float
    threads_per_inch: str = ""
    left_hand: bool = False

    @property
    def is_metric(self) -> bool:
        return not self.threads_per_inch

    def __str__(self) -> str:
        """The designation, always with its pitch: "M8x1.25", "5/16-18 UNC", "M8x1.25 LH"."""
        if self.is_metric:
            name = f"{self.size}x{self.pitch_millimetre:g}"
        else:
            series = "UN" if self.series.endswith("-UN") else self.series
            name = f"{self.size}-{self.threads_per_inch} {series}"
        return f"{name} LH" if self.left_hand else name

    @property
    def pitch_diameter_millimetre(self) -> float:
        """d2 = d − 0.75 H, with H = √3/2 P [mm]. Source: ISO 724, ASME B1.1."""
        return self.diameter_millimetre - 0.75 * self._height

    @property
    def minor_diameter_millimetre(self) -> float:
        """Basic minor diameter, of the nut thread: d1 = d − 1.25 H [mm]. Source: ISO 724, ASME B1.1."""
        return self.diameter_millimetre - 1.25 * self._height

    @property
    def root_diameter_millimetre(self) -> float:
        """Diameter at the rounded root of the screw [mm].

        Metric d3 = d1 − H/6 (ISO 898-1); inch D − 1.190786 P, the external minor diameter of printed tables.
        """
        if self.is_metric:
            return self.minor_diameter_millimetre - self._height / 6
        return self.diameter_millimetre - 1.190786 * self.pitch_millimetre

    @property
    def stress_area_square_millimetre(self) -> float:
        """Tensile stress area [mm²].

        Metric π/4 ((d2 + d3)/2)² (ISO 898-1); inch π/4 (D − 0.9743 P)² (ASME B1.1, FED-STD-H28).
        """
        return math.pi / 4 * self.stress_diameter_millimetre**2

    @property
    def stress_diameter_millimetre(self) -> float:
        """Diameter of a plain rod of the stress area, d0 [mm]: for tension and for torsion."""
        if self.is_metric:
            return (self.pitch_diameter_millimetre + self.root_diameter_millimetre) / 2
        return self.diameter_millimetre - 0.9743 * self.pitch_millimetre

    @property
    def note(self) -> str:
        """What to say of a legal thread that may not be the one meant; empty for a coarse thread."""
        coarse = _coarse_of(self.size)
        if coarse is None or str(coarse) == str(self).removesuffix(" LH"):
            return ""
        words = SERIES_IN_WORDS[self.series]
        return f"{self} is the {words} thread of this size; the coarse one is {coarse}"

    @property
    def _height(self) -> float:
        """Height of the fundamental triangle [mm]."""
        return math.sqrt(3) / 2 * self.pitch_millimetre


def parse_thread(text: str) -> Thread:
    """Read a designation: "M8", "M8x1.25", "M40x1.5", "5/16-18 UNC", "1-1/8-7", "#10-32", "No10-32", "M8 LH".

    A tolerance class behind it ("-6g", "-2A") is read and let go. Raises ThreadError, with the nearest real
    threads, for one that does not exist.
    """
    if len(text) > _LONGEST_TEXT:
        raise ThreadError(
            f'found {len(text)} characters, expected a thread such as "M8x1.25" or "5/16-18 UNC"'
        )
    if not text.isprintable():
        raise ThreadError('found signs that cannot be printed, expected a thread such as "M8x1.25"')
    written = " ".join(text.replace("”", '"').replace("″", '"').replace("–", "-").split())
    left_hand = _LEFT.search(written) is not None
    bare = _LEFT.sub("", written)
    metric = _METRIC.fullmatch(bare)
    if metric is not None:
        return _metric(metric, text, left_hand)
    unified = _UNIFIED.fullmatch(bare)
    if unified is not None:
        return _unified(unified, text, left_hand)
    for pattern, what in _OTHERS.items():
        if re.match(pattern, bare, re.IGNORECASE):
            raise OtherThreadError(
                f'"{text}" is {what}; only ISO metric and unified threads are known here, '
                'such as "M8x1.25" or "5/16-18 UNC"'
            )
    if re.search(r"\d,\d", bare):
        raise ThreadError(f'"{text}" has a comma; write a point: "{text.replace(",", ".")}"')
    raise ThreadError(
        f'found "{text}", expected a thread such as "M8", "M8x1.25", "5/16-18 UNC" or "No10-32"'
    )


@functools.cache
def known_threads() -> tuple[Thread, ...]:
    """Every standard thread of the tables, right-hand."""
    metric = [
        Thread(f"M{size}", "metric coarse" if index == 0 else "metric fine", float(size), float(pitch))
        for size, pitches in METRIC.items()
        for index, pitch in enumerate(pitches)
        if pitch
    ]
    unified = [
        Thread(size, series, _inches(size) * MILLIMETRES_PER_INCH, MILLIMETRES_PER_INCH / float(tpi), tpi)
        for series, designations in UNIFIED.items()
        for size, _, tpi in (each.rpartition("-") for each in designations.split())
    ]
    return (*metric, *unified)


def nearest_threads(diameter_millimetre: float, pitch_millimetre: float, metric: bool) -> tuple[Thread, ...]:
    """The three standard threads of one system that differ least in diameter and pitch, the nearest first."""

    def difference(thread: Thread) -> float:
        # a wrong diameter is felt at once, a wrong pitch is not: slips are mostly in the pitch
        return 4 * abs(math.log(thread.diameter_millimetre / diameter_millimetre)) + abs(
            math.log(thread.pitch_millimetre / pitch_millimetre)
        )

    same_system = [thread for thread in known_threads() if thread.is_metric == metric]
    return tuple(sorted(same_system, key=difference)[:3])


def _metric(match: re.Match[str], text: str, left_hand: bool) -> Thread:
    diameter = match["diameter"]
    size = f"{Decimal(diameter).normalize():f}"
    pitch = match["pitch"]
    if size in METRIC:
        pitches = [each for each in METRIC[size] if each]
        if pitch is None and METRIC[size][0]:
            pitch = METRIC[size][0]
        elif pitch is None:
            raise ThreadError(
                f'"{text}" has no coarse pitch; write {_or(f"M{size}x{each}" for each in pitches)}'
            )
        if any(Decimal(pitch) == Decimal(each) for each in pitches):
            coarse = METRIC[size][0] != "" and Decimal(pitch) == Decimal(METRIC[size][0])
            series = "metric coarse" if coarse else "metric fine"
            return Thread(f"M{size}", series, float(size), float(pitch), left_hand=left_hand)
        if Decimal(pitch) >= 8:
            raise ThreadError(
                f'"{text}" has a pitch of {pitch} mm; if {pitch} is a length, the thread is "M{size}" alone'
            )
    if not float(diameter):
        raise ThreadError(f'found "{text}", expected a diameter above 0')
    near = nearest_threads(float(diameter), float(pitch or 0) or float(diameter) * 0.15, metric=True)
    raise ThreadError(f'"{text}" is no standard thread; did you mean {_or(map(str, near))}?')


def _unified(match: re.Match[str], text: str, left_hand: bool) -> Thread:
    size, tpi = match["size"], match["tpi"]
    # "10-32" is a number size: no screw of 10 inches has 32 threads to the inch
    is_number = match["number"] is not None or (size.isdigit() and float(tpi) >= 24)
    size = f"No{int(size)}" if is_number and size.isdigit() else _as_fraction(size)
    # a rounded root ("UNR...") changes none of the sizes used here
    series = (match["series"] or "").upper().replace("UNR", "UN")
    try:
        diameter = _inches(size) * MILLIMETRES_PER_INCH
        pitch = MILLIMETRES_PER_INCH / float(tpi)
    except (ValueError, ZeroDivisionError, InvalidOperation):
        raise ThreadError(f'found "{text}", expected a thread such as "5/16-18 UNC" or "No10-32"') from None
    if diameter <= 0:
        raise ThreadError(f'found "{text}", expected a diameter above 0')
    matches = [
        thread
        for thread in known_threads()
        if thread.size == size and thread.threads_per_inch and float(thread.threads_per_inch) == float(tpi)
    ]
    if not matches:
        near = nearest_threads(diameter, pitch, metric=False)
        raise ThreadError(f'"{text}" is no standard thread; did you mean {_or(map(str, near))}?')
    thread = matches[0]
    if series and series not in {thread.series, "UN", thread.series.partition("-")[2]}:
        same = [each for each in known_threads() if each.size == size and each.series == series]
        meant = f"; the {series} thread is {same[0]}" if same else ""
        raise ThreadError(f'"{text}": {size}-{tpi} is {thread.series}, not {series}{meant}')
    return Thread(thread.size, thread.series, diameter, pitch, thread.threads_per_inch, left_hand)


def _coarse_of(size: str) -> Thread | None:
    return next((each for each in known_threads() if each.size == size and each.series in _COARSE), None)


def _as_fraction(size: str) -> str:
    """Decimal inches as the fraction they stand for: ".250" → "1/4"."""
    if "." not in size:
        return size.replace(" ", "-")
    value = Fraction(size)
    whole, rest = divmod(value, 1)
    part = f"{rest.numerator}/{rest.denominator}" if rest else ""
    return "-".join(filter(None, [str(whole) if whole else "", part])) or "0"


def _inches(size: str) -> float:
    """Nominal diameter: number sizes are 0.060 + 0.013 × number (ASME B1.1)."""
    if size.startswith("No"):
        return round(0.060 + 0.013 * int(size.removeprefix("No")), 3)
    whole, _, part = size.rpartition("-")
    return float(Fraction(part) + (int(whole) if whole else 0))


def _or(words: Iterable[str]) -> str:
    listed = [f'"{word}"' for word in words]
    return " or ".join([", ".join(listed[:-1]), listed[-1]] if len(listed) > 1 else listed)
