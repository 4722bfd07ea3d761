"""Minimum strengths of screws by standard, grade and diameter.

ISO 898-1: proof stresses agree with the 139 published proof loads and tensile strengths with the 171
published tensile loads that the tests hold; the yields of 4.8 to 6.8 and 9.8 are from memory of the
standard. SAE J429 and ASTM: a university page that quotes a machine design text; A193 B7 a maker's grade
markings; A574 from memory. ISO 3506-1: tensile strengths from two public summaries, 0.2 % proof strengths
from memory.
"""

from __future__ import annotations

from typing import NamedTuple


class StrengthRow(NamedTuple):
    """One row: diameters above `above` up to `up_to` [mm or in], stresses [MPa or ksi]; memory names its
    columns."""

    standard: str
    grade: str
    above: float
    up_to: float
    proof: float | None
    yield_: float
    tensile: float
    memory: tuple[str, ...] = ()


METRIC_STRENGTHS: tuple[StrengthRow, ...] = (
    StrengthRow("ISO 898-1", "4.6", 0, 39, 225, 240, 400),
    StrengthRow("ISO 898-1", "4.8", 0, 39, 310, 340, 420, ("yield",)),
    StrengthRow("ISO 898-1", "5.6", 0, 39, 280, 300, 500, ("yield",)),
    StrengthRow("ISO 898-1", "5.8", 0, 39, 380, 420, 520, ("yield",)),
    StrengthRow("ISO 898-1", "6.8", 0, 39, 440, 480, 600, ("yield",)),
    StrengthRow("ISO 898-1", "8.8", 0, 16, 580, 640, 800),
    StrengthRow("ISO 898-1", "8.8", 16, 39, 600, 660, 830),
    StrengthRow("ISO 898-1", "9.8", 0, 16, 650, 720, 900, ("yield",)),
    StrengthRow("ISO 898-1", "10.9", 0, 39, 830, 940, 1040),
    StrengthRow("ISO 898-1", "12.9", 0, 39, 970, 1100, 1220),
    StrengthRow("ISO 3506-1", "A2-50", 0, 39, None, 210, 500, ("yield",)),
    StrengthRow("ISO 3506-1", "A4-50", 0, 39, None, 210, 500, ("yield",)),
    StrengthRow("ISO 3506-1", "A2-70", 0, 39, None, 450, 700, ("yield",)),
    StrengthRow("ISO 3506-1", "A4-70", 0, 39, None, 450, 700, ("yield",)),
    StrengthRow("ISO 3506-1", "A2-80", 0, 39, None, 600, 800, ("yield",)),
    StrengthRow("ISO 3506-1", "A4-80", 0, 39, None, 600, 800, ("yield",)),
)

INCH_STRENGTHS: tuple[StrengthRow, ...] = (
    StrengthRow("SAE J429", "1", 0.249, 1.5, 33, 36, 60),
    StrengthRow("SAE J429", "2", 0.249, 0.75, 55, 57, 74),
    StrengthRow("SAE J429", "2", 0.75, 1.5, 33, 36, 60),
    StrengthRow("SAE J429", "4", 0.249, 1.5, 65, 100, 115),
    StrengthRow("SAE J429", "5", 0.249, 1, 85, 92, 120),
    StrengthRow("SAE J429", "5", 1, 1.5, 74, 81, 105),
    StrengthRow("SAE J429", "5.2", 0.249, 1, 85, 92, 120),
    StrengthRow("SAE J429", "7", 0.249, 1.5, 105, 115, 133),
    StrengthRow("SAE J429", "8", 0.249, 1.5, 120, 130, 150),
    StrengthRow("SAE J429", "8.2", 0.249, 1, 120, 130, 150),
    StrengthRow("ASTM", "A307", 0.249, 1.5, 33, 36, 60),
    StrengthRow("ASTM", "A354 BD", 0.249, 4, 120, 130, 150),
    StrengthRow("ASTM", "A449", 0.249, 1, 85, 92, 120),
    StrengthRow("ASTM", "A449", 1, 1.5, 74, 81, 105),
    StrengthRow("ASTM", "A449", 1.5, 3, 55, 58, 90),
    StrengthRow("ASTM", "A490", 0.499, 1.5, 120, 130, 150),
    StrengthRow("ASTM", "A193 B7", 0.249, 2.5, None, 105, 125),
    StrengthRow("ASTM", "A193 B7", 2.5, 4, None, 95, 115),
    StrengthRow("ASTM", "A193 B7", 4, 7, None, 75, 100),
    StrengthRow("ASTM", "A574", 0, 0.5, 140, 153, 180, ("proof", "yield", "tensile")),
    StrengthRow("ASTM", "A574", 0.5, 4, 135, 153, 170, ("proof", "yield", "tensile")),
)
