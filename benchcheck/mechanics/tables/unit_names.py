"""Every unit Benchcheck knows: what it measures, how it is written, and how else people spell it.

Spellings are compared after `benchcheck.mechanics.units` has folded separators, so ``N·m`` stands for
``N.m``, ``N-m`` and ``N m`` too. SI spellings count by case (``nm`` is a length, ``mN·m`` is not ``MN·m``);
words and inch units are read in either case. The definition is what the conversion library is told; nothing
typed by a person ever reaches it.
"""

from __future__ import annotations

from typing import NamedTuple


class Unit(NamedTuple):
    """One unit: its kind, its definition for the conversion, and its spellings."""

    kind: str
    definition: str
    cased: tuple[str, ...] = ()
    uncased: tuple[str, ...] = ()


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

# Definitions of the names used below; each is exact. One pound-force is 0.45359237 kg × 9.80665 m/s²
# (NIST SP 811, appendix B), one inch 0.0254 m, one US gallon 231 cubic inches.
DEFINITIONS: tuple[str, ...] = (
    "metre = [length]",
    "second = [time]",
    "kilogram = [mass]",
    "ampere = [current]",
    "kelvin = [temperature]; offset: 0",
    "degree = [turning]",
    "drop = [drop]",
    "light_band = [light_band]",
    "one = []",
    "inch = 0.0254 * metre",
    "foot = 12 * inch",
    "minute = 60 * second",
    "pound = 0.45359237 * kilogram",
    "newton = kilogram * metre / second ** 2",
    "kilogram_force = 9.80665 * newton",
    "pound_force = 4.4482216152605 * newton",
    "pascal = newton / metre ** 2",
    "litre = 0.001 * metre ** 3",
    "gallon = 231 * inch ** 3",
    "watt = newton * metre / second",
    "revolutions_per_minute = [rotation]",
)

UNITS: dict[str, Unit] = {
    # torque: named by spelling, because a dimension cannot tell a torque from an energy
    "N·m": Unit("torque", "newton * metre", ("N·m", "Nm"), ("newton·metre", "newton·meter")),
    "kN·m": Unit("torque", "1000 * newton * metre", ("kN·m", "kNm")),
    "mN·m": Unit("torque", "0.001 * newton * metre", ("mN·m", "mNm")),
    "cN·m": Unit("torque", "0.01 * newton * metre", ("cN·m", "cNm")),
    "dN·m": Unit("torque", "0.1 * newton * metre", ("dN·m", "dNm")),
    "N·mm": Unit("torque", "0.001 * newton * metre", ("N·mm", "Nmm")),
    "N·cm": Unit("torque", "0.01 * newton * metre", ("N·cm", "Ncm")),
    "lbf·ft": Unit(
        "torque",
        "pound_force * foot",
        uncased=(
            *("lbf·ft", "ft·lbf", "lb·ft", "ft·lb", "lbs·ft", "ft·lbs", "lbfft", "ftlbf", "lbft", "ftlb"),
            *("ftlbs", "foot·pound", "foot·pounds", "pound·foot", "pound·feet", "pounds·feet", "ft·pounds"),
            *("foot·lb", "foot·lbs", "lb·foot", "lbs·foot", "pounds·foot", "pound·force·foot", "ft·lbsf"),
        ),
    ),
    "lbf·in": Unit(
        "torque",
        "pound_force * inch",
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
        "pound_force * inch / 16",
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
    "kgf·m": Unit("torque", "kilogram_force * metre", ("kgf·m", "m·kgf", "kgfm", "kp·m", "kpm")),
    "kgf·cm": Unit("torque", "0.01 * kilogram_force * metre", ("kgf·cm", "cm·kgf", "kgfcm", "kp·cm")),
    "gf·cm": Unit("torque", "0.00001 * kilogram_force * metre", ("gf·cm", "cm·gf")),
    # force
    "N": Unit("force", "newton", ("N",), ("newton", "newtons")),
    "kN": Unit("force", "1000 * newton", ("kN",), ("kilonewton", "kilonewtons")),
    "MN": Unit("force", "1000000 * newton", ("MN",)),
    "kgf": Unit("force", "kilogram_force", ("kgf", "kp")),
    "lbf": Unit("force", "pound_force", uncased=("lbf", "lbsf", "pound·force", "pounds·force")),
    "kip": Unit("force", "1000 * pound_force", uncased=("kip", "kips")),
    # pressure and stress
    "Pa": Unit("pressure", "pascal", ("Pa",), ("pascal",)),
    "hPa": Unit("pressure", "100 * pascal", ("hPa",)),
    "kPa": Unit("pressure", "1000 * pascal", ("kPa", "kN/m²")),
    "MPa": Unit("pressure", "1000000 * pascal", ("MPa", "N/mm²")),
    "GPa": Unit("pressure", "1000000000 * pascal", ("GPa", "kN/mm²")),
    "bar": Unit("pressure", "100000 * pascal", uncased=("bar", "bars")),
    "mbar": Unit("pressure", "100 * pascal", ("mbar",), ("millibar",)),
    "psi": Unit("pressure", "pound_force / inch ** 2", uncased=("psi", "lbf/in²", "lb/in²", "lbf/sq·in")),
    "ksi": Unit("pressure", "1000 * pound_force / inch ** 2", uncased=("ksi", "kpsi")),
    "kgf/cm²": Unit("pressure", "10000 * kilogram_force / metre ** 2", ("kgf/cm²", "kp/cm²")),
    "mmHg": Unit("pressure", "133.322387415 * pascal", uncased=("mmhg", "mm·hg")),
    "inHg": Unit("pressure", "3386.388640341 * pascal", uncased=("inhg", "in·hg")),
    # length
    "m": Unit("length", "metre", ("m",), ("metre", "metres", "meter", "meters")),
    "cm": Unit("length", "0.01 * metre", ("cm",), ("centimetre", "centimeter")),
    "mm": Unit(
        "length", "0.001 * metre", ("mm",), ("millimetre", "millimetres", "millimeter", "millimeters")
    ),
    "µm": Unit("length", "0.000001 * metre", ("µm", "um"), ("micron", "microns", "micrometre", "micrometer")),
    "in": Unit("length", "inch", ('"',), ("in", "inch", "inches", "ins")),
    "ft": Unit("length", "foot", uncased=("ft", "foot", "feet")),
    "thou": Unit("length", "0.001 * inch", uncased=("thou", "mil", "mils", "thousandths")),
    "µin": Unit("length", "0.000001 * inch", ("µin", "uin"), ("microinch", "microinches")),
    # area
    "mm²": Unit("area", "0.000001 * metre ** 2", ("mm²", "sq·mm")),
    "cm²": Unit("area", "0.0001 * metre ** 2", ("cm²",)),
    "m²": Unit("area", "metre ** 2", ("m²",)),
    "in²": Unit("area", "inch ** 2", uncased=("in²", "sq·in", "square·inches", "square·inch")),
    # angle
    "°": Unit("angle", "degree", ("°",), ("deg", "degs", "degree", "degrees")),
    "turns": Unit("angle", "360 * degree", uncased=("turn", "turns", "rev", "revs")),
    # time
    "s": Unit("time", "second", ("s",), ("sec", "secs", "second", "seconds")),
    "min": Unit("time", "60 * second", uncased=("min", "mins", "minute", "minutes")),
    "h": Unit("time", "3600 * second", uncased=("h", "hr", "hrs", "hour", "hours")),
    "d": Unit("time", "86400 * second", uncased=("d", "day", "days")),
    "week": Unit("time", "604800 * second", uncased=("week", "weeks", "wk", "wks")),
    # temperature
    "°C": Unit(
        "temperature",
        "kelvin; offset: 273.15",
        ("°C", "°·C", "C"),
        ("deg·c", "degc", "celsius", "degrees·celsius"),
    ),
    "°F": Unit(
        "temperature",
        "5 / 9 * kelvin; offset: 233.15 + 200 / 9",
        ("°F", "°·F", "F"),
        ("deg·f", "degf", "fahrenheit"),
    ),
    "K": Unit("temperature", "kelvin", ("K",), ("kelvin",)),
    # share; "1" is what it is stored in and nobody may type it
    "%": Unit("share", "0.01 * one", ("%",), ("percent", "per·cent", "pct")),
    "1": Unit("share", "one"),
    # volume and drops
    "µl": Unit("volume", "0.000001 * litre", ("µl", "µL", "ul", "uL")),
    "ml": Unit(
        "volume", "0.001 * litre", ("ml", "mL", "cm³", "cc"), ("millilitre", "millilitres", "milliliter")
    ),
    "l": Unit("volume", "litre", ("l", "L"), ("litre", "litres", "liter", "liters")),
    "m³": Unit("volume", "metre ** 3", ("m³",)),
    "mm³": Unit("volume", "0.000000001 * metre ** 3", ("mm³",)),
    "US gal": Unit("volume", "gallon", uncased=("us·gal", "us·gallon", "us·gallons")),
    "drops": Unit("drops", "drop", uncased=("drops", "drop")),
    # flow
    "l/min": Unit("flow", "litre / minute", ("l/min", "L/min"), ("lpm",)),
    "ml/min": Unit("flow", "0.001 * litre / minute", ("ml/min", "mL/min", "cm³/min", "cc/min")),
    "ml/h": Unit("flow", "0.001 * litre / (60 * minute)", ("ml/h", "mL/h", "cm³/h")),
    "m³/h": Unit("flow", "metre ** 3 / (60 * minute)", ("m³/h",)),
    "m³/s": Unit("flow", "metre ** 3 / second", ("m³/s",)),
    "US gal/min": Unit("flow", "gallon / minute", uncased=("us·gal/min", "us·gpm", "gpm", "gal/min")),
    "drops/min": Unit("drip", "drop", uncased=("drops/min", "drop/min", "drops/minute", "drops·per·minute")),
    # mass
    "kg": Unit("mass", "kilogram", ("kg",), ("kilogram", "kilograms")),
    "g": Unit("mass", "0.001 * kilogram", ("g",), ("gram", "grams")),
    "lb": Unit("mass", "pound", uncased=("lb", "lbs", "pound", "pounds")),
    "oz": Unit("mass", "pound / 16", uncased=("oz", "ounce", "ounces")),
    # motion, stiffness, power, current
    "rpm": Unit("speed", "revolutions_per_minute", ("1/min", "r/min"), ("rpm", "rev/min", "turns/min")),
    "mm/s": Unit("velocity", "0.001 * metre / second", ("mm/s",)),
    "m/s": Unit("velocity", "metre / second", ("m/s",)),
    "in/s": Unit("velocity", "inch / second", uncased=("in/s", "ips", "in/sec")),
    "N/m": Unit("stiffness", "newton / metre", ("N/m",)),
    "N/mm": Unit("stiffness", "1000 * newton / metre", ("N/mm",)),
    "N/µm": Unit("stiffness", "1000000 * newton / metre", ("N/µm", "N/um")),
    "kN/mm": Unit("stiffness", "1000000 * newton / metre", ("kN/mm",)),
    "lbf/in": Unit("stiffness", "pound_force / inch", uncased=("lbf/in", "lb/in")),
    "W": Unit("power", "watt", ("W",), ("watt", "watts")),
    "kW": Unit("power", "1000 * watt", ("kW",), ("kilowatt",)),
    "hp": Unit("power", "550 * pound_force * foot / second", uncased=("hp", "bhp")),
    "A": Unit("current", "ampere", ("A",), ("amp", "amps")),
    "mA": Unit("current", "0.001 * ampere", ("mA",)),
    "light bands": Unit("bands", "light_band", uncased=("light·bands", "light·band", "bands")),
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
