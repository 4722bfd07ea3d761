"""Every unit Benchcheck knows: what it measures, how it is written, and how else people spell it.

Spellings are compared after `benchcheck.mechanics.units` has folded separators, so ``N·m`` stands for
``N.m``, ``N-m`` and ``N m`` too. SI spellings count by case (``nm`` is a length, ``mN·m`` is not ``MN·m``);
words and inch units are read in either case. Sizes are exact: ratios of whole numbers.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class Unit(NamedTuple):
    """One unit: its kind, its size, its spellings, and where its scale begins; both in the base unit."""

    kind: str
    size: Fraction | int
    cased: tuple[str, ...] = ()
    uncased: tuple[str, ...] = ()
    zero: Fraction | int = 0


# How a kind is spoken of in a sentence, the unit its numbers are stored in, and what to suggest.
# Angles are kept in degrees, temperatures in degrees Celsius and speeds in turns a minute, because everyone
# at a bench reads them so; all other base units are SI. A drop and a light band convert to nothing else.
KINDS: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "torque": ("a torque", "N·m", ("N·m", "lbf·ft", "lbf·in", "kgf·m")),
    "force": ("a force", "N", ("N", "kN", "lbf", "kgf")),
    "pressure": ("a pressure or stress", "Pa", ("bar", "kPa", "MPa", "psi")),
    "length": ("a length", "m", ("mm", "µm", "in", "ft")),
    "area": ("an area", "m²", ("mm²", "in²")),
    "angle": ("an angle", "°", ("°", "turns")),
    "time": ("a time", "s", ("s", "min", "h", "d")),
    "temperature": ("a temperature", "°C", ("°C", "°F")),
    "share": ("a share", "1", ("%",)),
    "volume": ("a volume", "m³", ("ml", "l", "US gal")),
    "drops": ("a number of drops", "drops", ("drops",)),
    "flow": ("a flow", "m³/s", ("l/min", "ml/min", "US gal/min")),
    "drip": ("a drip rate", "drops/min", ("drops/min",)),
    "mass": ("a mass", "kg", ("g", "kg", "lb")),
    "speed": ("a speed of rotation", "rpm", ("rpm",)),
    "velocity": ("a velocity", "m/s", ("mm/s", "m/s")),
    "stiffness": ("a stiffness", "N/m", ("N/mm", "kN/mm", "lbf/in")),
    "power": ("a power", "W", ("W", "kW", "hp")),
    "current": ("a current", "A", ("A",)),
    "bands": ("a number of light bands", "light bands", ("light bands",)),
}

KILO, MEGA, GIGA = 10**3, 10**6, 10**9
DECI, CENTI, MILLI, MICRO = (Fraction(1, power) for power in (10, 10**2, 10**3, 10**6))
MINUTE, HOUR = 60, 3600

# Each is exact. One pound-force is 0.45359237 kg × 9.80665 m/s² (NIST SP 811, appendix B), one inch 0.0254 m,
# one US gallon 231 cubic inches, one horsepower 550 ft·lbf a second. The columns of mercury are conventional.
INCH = Fraction("0.0254")
FOOT = 12 * INCH
POUND = Fraction("0.45359237")
KILOGRAM_FORCE = Fraction("9.80665")
POUND_FORCE = POUND * KILOGRAM_FORCE
BAR = 10**5
LITRE = Fraction(1, 1000)
GALLON = 231 * INCH**3

UNITS: dict[str, Unit] = {
    # torque: named by spelling, because a dimension cannot tell a torque from an energy
    "N·m": Unit("torque", 1, ("N·m", "Nm"), ("newton·metre", "newton·meter")),
    "kN·m": Unit("torque", KILO, ("kN·m", "kNm")),
    "mN·m": Unit("torque", MILLI, ("mN·m", "mNm")),
    "cN·m": Unit("torque", CENTI, ("cN·m", "cNm")),
    "dN·m": Unit("torque", DECI, ("dN·m", "dNm")),
    "N·mm": Unit("torque", MILLI, ("N·mm", "Nmm")),
    "N·cm": Unit("torque", CENTI, ("N·cm", "Ncm")),
    "lbf·ft": Unit(
        "torque",
        POUND_FORCE * FOOT,
        uncased=(
            *("lbf·ft", "ft·lbf", "lb·ft", "ft·lb", "lbs·ft", "ft·lbs", "lbfft", "ftlbf", "lbft", "ftlb"),
            *("ftlbs", "foot·pound", "foot·pounds", "pound·foot", "pound·feet", "pounds·feet", "ft·pounds"),
            *("foot·lb", "foot·lbs", "lb·foot", "lbs·foot", "pounds·foot", "pound·force·foot", "ft·lbsf"),
        ),
    ),
    "lbf·in": Unit(
        "torque",
        POUND_FORCE * INCH,
        uncased=(
            *("lbf·in", "in·lbf", "lb·in", "in·lb", "lbs·in", "in·lbs", "lbfin", "inlbf", "lbin", "inlb"),
            *("inlbs", "inch·pound", "inch·pounds", "pound·inch", "pounds·inch", "pound·inches", "inch·lb"),
            *(
                "inch·lbs",
                "lb·inch",
                "lbs·inch",
                "in·pounds",
                "pounds·inches",
                "pound·force·inch",
                "inch·lbf",
            ),
        ),
    ),
    "ozf·in": Unit(
        "torque",
        POUND_FORCE * INCH / 16,
        uncased=(
            "ozf·in",
            "in·ozf",
            "oz·in",
            "in·oz",
            "ozin",
            "inoz",
            "ounce·inch",
            "inch·ounce",
            "ounce·inches",
        ),
    ),
    "kgf·m": Unit("torque", KILOGRAM_FORCE, ("kgf·m", "m·kgf", "kgfm", "kp·m", "kpm")),
    "kgf·cm": Unit("torque", KILOGRAM_FORCE * CENTI, ("kgf·cm", "cm·kgf", "kgfcm", "kp·cm")),
    "gf·cm": Unit("torque", KILOGRAM_FORCE * MILLI * CENTI, ("gf·cm", "cm·gf")),
    # force
    "N": Unit("force", 1, ("N",), ("newton", "newtons")),
    "kN": Unit("force", KILO, ("kN",), ("kilonewton", "kilonewtons")),
    "MN": Unit("force", MEGA, ("MN",)),
    "kgf": Unit("force", KILOGRAM_FORCE, ("kgf", "kp")),
    "lbf": Unit("force", POUND_FORCE, uncased=("lbf", "lbsf", "pound·force", "pounds·force")),
    "kip": Unit("force", KILO * POUND_FORCE, uncased=("kip", "kips")),
    # pressure and stress
    "Pa": Unit("pressure", 1, ("Pa",), ("pascal",)),
    "hPa": Unit("pressure", 100, ("hPa",)),
    "kPa": Unit("pressure", KILO, ("kPa", "kN/m²")),
    "MPa": Unit("pressure", MEGA, ("MPa", "N/mm²")),
    "GPa": Unit("pressure", GIGA, ("GPa", "kN/mm²")),
    "bar": Unit("pressure", BAR, uncased=("bar", "bars")),
    "mbar": Unit("pressure", 100, ("mbar",), ("millibar",)),
    "psi": Unit("pressure", POUND_FORCE / INCH**2, uncased=("psi", "lbf/in²", "lb/in²", "lbf/sq·in")),
    "ksi": Unit("pressure", KILO * POUND_FORCE / INCH**2, uncased=("ksi", "kpsi")),
    "kgf/cm²": Unit("pressure", KILOGRAM_FORCE / CENTI**2, ("kgf/cm²", "kp/cm²")),
    "mmHg": Unit("pressure", Fraction("133.322387415"), uncased=("mmhg", "mm·hg")),
    "inHg": Unit("pressure", Fraction("3386.388640341"), uncased=("inhg", "in·hg")),
    # length
    "m": Unit("length", 1, ("m",), ("metre", "metres", "meter", "meters")),
    "cm": Unit("length", CENTI, ("cm",), ("centimetre", "centimeter")),
    "mm": Unit("length", MILLI, ("mm",), ("millimetre", "millimetres", "millimeter", "millimeters")),
    "µm": Unit("length", MICRO, ("µm", "um"), ("micron", "microns", "micrometre", "micrometer")),
    "in": Unit("length", INCH, ('"',), ("in", "inch", "inches", "ins")),
    "ft": Unit("length", FOOT, uncased=("ft", "foot", "feet")),
    "thou": Unit("length", MILLI * INCH, uncased=("thou", "mil", "mils", "thousandths")),
    "µin": Unit("length", MICRO * INCH, ("µin", "uin"), ("microinch", "microinches")),
    # area
    "mm²": Unit("area", MILLI**2, ("mm²", "sq·mm")),
    "cm²": Unit("area", CENTI**2, ("cm²",)),
    "m²": Unit("area", 1, ("m²",)),
    "in²": Unit("area", INCH**2, uncased=("in²", "sq·in", "square·inches", "square·inch")),
    # angle
    "°": Unit("angle", 1, ("°",), ("deg", "degs", "degree", "degrees")),
    "turns": Unit("angle", 360, uncased=("turn", "turns", "rev", "revs")),
    # time
    "s": Unit("time", 1, ("s",), ("sec", "secs", "second", "seconds")),
    "min": Unit("time", MINUTE, uncased=("min", "mins", "minute", "minutes")),
    "h": Unit("time", HOUR, uncased=("h", "hr", "hrs", "hour", "hours")),
    "d": Unit("time", 24 * HOUR, uncased=("d", "day", "days")),
    "week": Unit("time", 7 * 24 * HOUR, uncased=("week", "weeks", "wk", "wks")),
    # temperature
    "°C": Unit(
        "temperature",
        1,
        ("°C", "°·C", "C"),
        ("deg·c", "degc", "celsius", "degrees·celsius"),
    ),
    "°F": Unit(
        "temperature",
        Fraction(5, 9),
        ("°F", "°·F", "F"),
        ("deg·f", "degf", "fahrenheit"),
        zero=Fraction(-160, 9),
    ),
    "K": Unit("temperature", 1, ("K",), ("kelvin",), zero=Fraction("-273.15")),
    # share; "1" is what it is stored in and nobody may type it
    "%": Unit("share", CENTI, ("%",), ("percent", "per·cent", "pct")),
    "1": Unit("share", 1),
    # volume and drops
    "µl": Unit("volume", MICRO * LITRE, ("µl", "µL", "ul", "uL")),
    "ml": Unit(
        "volume", MILLI * LITRE, ("ml", "mL", "cm³", "cc"), ("millilitre", "millilitres", "milliliter")
    ),
    "l": Unit("volume", LITRE, ("l", "L"), ("litre", "litres", "liter", "liters")),
    "m³": Unit("volume", 1, ("m³",)),
    "mm³": Unit("volume", MILLI**3, ("mm³",)),
    "US gal": Unit("volume", GALLON, uncased=("us·gal", "us·gallon", "us·gallons")),
    "drops": Unit("drops", 1, uncased=("drops", "drop")),
    # flow
    "l/min": Unit("flow", LITRE / MINUTE, ("l/min", "L/min"), ("lpm",)),
    "ml/min": Unit("flow", MILLI * LITRE / MINUTE, ("ml/min", "mL/min", "cm³/min", "cc/min")),
    "ml/h": Unit("flow", MILLI * LITRE / HOUR, ("ml/h", "mL/h", "cm³/h")),
    "m³/h": Unit("flow", Fraction(1, HOUR), ("m³/h",)),
    "m³/s": Unit("flow", 1, ("m³/s",)),
    "US gal/min": Unit("flow", GALLON / MINUTE, uncased=("us·gal/min", "us·gpm", "gpm", "gal/min")),
    "drops/min": Unit("drip", 1, uncased=("drops/min", "drop/min", "drops/minute", "drops·per·minute")),
    # mass
    "kg": Unit("mass", 1, ("kg",), ("kilogram", "kilograms")),
    "g": Unit("mass", MILLI, ("g",), ("gram", "grams")),
    "lb": Unit("mass", POUND, uncased=("lb", "lbs", "pound", "pounds")),
    "oz": Unit("mass", POUND / 16, uncased=("oz", "ounce", "ounces")),
    # motion, stiffness, power, current
    "rpm": Unit("speed", 1, ("1/min", "r/min"), ("rpm", "rev/min", "turns/min")),
    "mm/s": Unit("velocity", MILLI, ("mm/s",)),
    "m/s": Unit("velocity", 1, ("m/s",)),
    "in/s": Unit("velocity", INCH, uncased=("in/s", "ips", "in/sec")),
    "N/m": Unit("stiffness", 1, ("N/m",)),
    "N/mm": Unit("stiffness", KILO, ("N/mm",)),
    "N/µm": Unit("stiffness", MEGA, ("N/µm", "N/um")),
    "kN/mm": Unit("stiffness", MEGA, ("kN/mm",)),
    "lbf/in": Unit("stiffness", POUND_FORCE / INCH, uncased=("lbf/in", "lb/in")),
    "W": Unit("power", 1, ("W",), ("watt", "watts")),
    "kW": Unit("power", KILO, ("kW",), ("kilowatt",)),
    "hp": Unit("power", 550 * POUND_FORCE * FOOT, uncased=("hp", "bhp")),
    "A": Unit("current", 1, ("A",), ("amp", "amps")),
    "mA": Unit("current", MILLI, ("mA",)),
    "light bands": Unit("bands", 1, uncased=("light·bands", "light·band", "bands")),
}

# Spellings that look right and are not, with what to write instead.
TRAPS: dict[str, str] = {
    "J": 'J is energy; a torque is written in N·m, so write "N·m"',
    "kJ": 'kJ is energy; a torque is written in N·m, so write "N·m"',
    "joule": 'joule is energy; a torque is written in N·m, so write "N·m"',
    "joules": 'joules are energy; a torque is written in N·m, so write "N·m"',
    "kg·m": 'kg·m is a mass times a length; write "kgf·m" if kilogram-force is meant',
    "m·kg": 'm·kg is a mass times a length; write "kgf·m" if kilogram-force is meant',
    "kgm": 'kgm is a mass times a length; write "kgf·m" if kilogram-force is meant',
    "mkg": 'mkg is a mass times a length; write "kgf·m" if kilogram-force is meant',
    "kg·cm": 'kg·cm is a mass times a length; write "kgf·cm" if kilogram-force is meant',
    "cm·kg": 'cm·kg is a mass times a length; write "kgf·cm" if kilogram-force is meant',
    "kgcm": 'kgcm is a mass times a length; write "kgf·cm" if kilogram-force is meant',
    "g·cm": 'g·cm is a mass times a length; write "gf·cm" if gram-force is meant',
    "kg/cm²": 'kg/cm² is a mass on an area; write "kgf/cm²" if kilogram-force is meant',
    "nm": 'nm is nanometres; write "N·m" if newton metres are meant',
    "n·m": 'n·m has a small n; write "N·m" if newton metres are meant',
    "NM": 'NM has a capital M; write "N·m" if newton metres are meant',
    "N·M": 'N·M has a capital M; write "N·m" if newton metres are meant',
    "MN·m": 'MN·m is meganewton metres, which no screw here needs; write "mN·m" or "N·m"',
    "psig": 'psig holds the reference in the unit; write "psi" and say "gauge" in the text',
    "psia": 'psia holds the reference in the unit; write "psi" and say "absolute" in the text',
    "barg": 'barg holds the reference in the unit; write "bar" and say "gauge" in the text',
    "bara": 'bara holds the reference in the unit; write "bar" and say "absolute" in the text',
    "bar·abs": 'bar abs holds the reference in the unit; write "bar" and say "absolute" in the text',
    "gal": 'a gallon differs between countries; write "US gal" or litres',
    "gallons": 'a gallon differs between countries; write "US gal" or litres',
    "'": """' may be feet or minutes; write "ft" or "min\"""",
}
