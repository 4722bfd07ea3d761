"""How an instrument writes a reading on its line: literal text with named parts in braces.

"{value} {unit}" reads "16.2 Nm"; "{},{value},{unit}" reads "0007,16.2,Nm" and leaves the first part out. A
blank stands for any blanks, or none. Nothing here reads a line: that is for whoever holds the device.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from benchcheck.mechanics.units import Quantity, QuantityError, parse, parse_number

_PARTS = {"value": r"(?P<value>[+-]?\d+(?:[.,]\d+)?)", "unit": r"(?P<unit>[^\d\s,;]+)", "": r"[^,;]*?"}
_BRACES = re.compile(r"\{([^{}]*)\}")


@dataclass(frozen=True)
class LineFormat:
    """One way of writing readings. Raises QuantityError where it cannot be one.

    Parameters
    ----------
    pattern : the line, with `{value}`, `{unit}` and `{}` for what does not matter
    unit : the unit of every reading, where the line does not name it
    units : words of the line for units, such as Nm, each with the unit it means
    """

    pattern: str
    unit: str = ""
    units: Mapping[str, str] | None = None

    def __post_init__(self) -> None:
        parts = _BRACES.findall(self.pattern)
        unknown = next((each for each in parts if each not in _PARTS), None)
        if unknown is not None:
            raise QuantityError(f'"{{{unknown}}}" is no part of a line; write {{value}}, {{unit}} or {{}}')
        if parts.count("value") != 1 or parts.count("unit") > 1:
            raise QuantityError(f'"{self.pattern}" has to hold {{value}} once, and {{unit}} at most once')
        if ("unit" in parts) == bool(self.unit):
            raise QuantityError("the unit stands on the line as {unit}, or beside the pattern as unit")
        for unit in (*([self.unit] if self.unit else []), *(self.units or {}).values()):
            parse(f"1 {unit}", "torque")

    @cached_property
    def _expression(self) -> re.Pattern[str]:
        found, end = "", 0
        for braces in _BRACES.finditer(self.pattern):
            found += _literal(self.pattern[end : braces.start()]) + _PARTS[braces[1]]
            end = braces.end()
        return re.compile(found + _literal(self.pattern[end:]))

    def read(self, line: str) -> Quantity | None:
        """The reading on a line; None for a line that is none."""
        match = self._expression.fullmatch(line.strip())
        if match is None:
            return None
        word = match.groupdict().get("unit")
        try:
            value = parse_number(match["value"], signed=True)
            if word is None:
                return Quantity(value, self.unit)
            return _in_unit(value, (self.units or {}).get(word, word))
        except QuantityError:
            return None


def _in_unit(value: Decimal, unit: str) -> Quantity:
    return Quantity(value, parse(f"1 {unit}", "torque").unit)


def _literal(text: str) -> str:
    return r"\s*".join(re.escape(each) for each in re.split(r"\s+", text))
