"""Quantities: spelling, refusals, conversion against outside values, bounds."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal
from itertools import permutations

import pint
import pytest
import scipy.constants  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.tables.unit_names import KINDS, TRAPS, UNITS
from benchcheck.mechanics.units import (
    Quantity,
    QuantityError,
    convert,
    limits,
    parse,
    parse_number,
)

# Exact: 1 lbf = 0.45359237 kg × 9.80665 m/s², 1 ft = 0.3048 m, 1 in = 0.0254 m.
EXACT_NEWTON_METRE = {
    "lbf·ft": "1.3558179483314004",
    "lbf·in": "0.1129848290276167",
    "ozf·in": "0.00706155181422604375",
    "kgf·m": "9.80665",
    "kgf·cm": "0.0980665",
    "dN·m": "0.1",
    "cN·m": "0.01",
}

# NIST SP 811, appendix B, as printed (from memory of the table; the exact factors above agree with it).
PRINTED_NEWTON_METRE = {"lbf·ft": 1.355818, "lbf·in": 0.1129848, "ozf·in": 0.007061552}


@pytest.mark.parametrize(("unit", "factor"), EXACT_NEWTON_METRE.items())
def test_torque_factors_are_exact(unit: str, factor: str) -> None:
    assert convert(1, unit, "N·m") == pytest.approx(float(factor), rel=1e-15)


@pytest.mark.parametrize(("unit", "factor"), PRINTED_NEWTON_METRE.items())
def test_torque_factors_agree_with_the_printed_table(unit: str, factor: float) -> None:
    assert convert(1, unit, "N·m") == pytest.approx(factor, rel=5e-7)


def test_a_pound_inch_as_a_navy_manual_prints_it() -> None:
    # Navy manual, appendix of conversions: 0.112 985
    assert round(convert(1, "lbf·in", "N·m"), 6) == 0.112985


@pytest.mark.parametrize(
    ("one", "count", "other"),
    [
        ("lbf·ft", 12, "lbf·in"),  # Army TB 43-0218: lbf·in divided by 12
        ("lbf·ft", 192, "ozf·in"),
        ("kgf·m", 100, "kgf·cm"),
        ("N·m", 8.850745791, "lbf·in"),
        ("N·m", 0.7375621493, "lbf·ft"),
        ("N·m", 141.6119327, "ozf·in"),
        ("N·m", 10.19716213, "kgf·cm"),
    ],
)
def test_torque_identities(one: str, count: float, other: str) -> None:
    assert convert(1, one, other) == pytest.approx(count, rel=1e-9)


# TM 10-6640-238-13 table G-1 and TM 10-4320-311-14 appendix G, printed to whole units.
@pytest.mark.parametrize(
    ("pound_feet", "newton_metres"), [(8, 11), (31, 42), (75, 102), (150, 203), (270, 366), (910, 1234)]
)
def test_pairs_printed_in_army_manuals(pound_feet: float, newton_metres: int) -> None:
    assert round(convert(pound_feet, "lbf·ft", "N·m")) == newton_metres


@pytest.mark.parametrize(("pound_feet", "kilogram_metres"), [(8, 1.1064), (31, 4.2873), (75, 10.3725)])
def test_kilogram_metres_printed_in_army_manuals(pound_feet: float, kilogram_metres: float) -> None:
    # The manuals used 0.1383 for 0.138255: their column stands 0.03 % high.
    assert convert(pound_feet, "lbf·ft", "kgf·m") == pytest.approx(kilogram_metres, rel=4e-4)


def test_against_scipy_constants() -> None:
    assert convert(1, "lbf", "N") == pytest.approx(scipy.constants.lbf, rel=1e-15)
    assert convert(1, "psi", "Pa") == pytest.approx(scipy.constants.psi, rel=1e-12)
    assert convert(1, "bar", "Pa") == scipy.constants.bar
    assert convert(1, "in", "m") == scipy.constants.inch
    assert convert(1, "lb", "kg") == pytest.approx(scipy.constants.pound, rel=1e-15)
    assert convert(1, "US gal", "m³") == pytest.approx(scipy.constants.gallon, rel=1e-15)
    assert convert(1, "hp", "W") == pytest.approx(scipy.constants.hp, rel=1e-12)
    assert convert(1, "mmHg", "Pa") == pytest.approx(scipy.constants.mmHg, rel=2e-7)


# Our spelling of every unit that the conversion library knows too, and what its own registry calls it.
IN_PINTS_WORDS = {
    "N·m": "newton * meter", "kN·m": "kilonewton * meter", "mN·m": "millinewton * meter",
    "cN·m": "centinewton * meter", "dN·m": "decinewton * meter", "N·mm": "newton * millimeter",
    "N·cm": "newton * centimeter", "lbf·ft": "force_pound * foot", "lbf·in": "force_pound * inch",
    "ozf·in": "force_ounce * inch", "kgf·m": "kilogram_force * meter",
    "kgf·cm": "kilogram_force * centimeter", "gf·cm": "force_gram * centimeter",
    "N": "newton", "kN": "kilonewton", "MN": "meganewton", "kgf": "kilogram_force", "lbf": "force_pound",
    "kip": "kip", "Pa": "pascal", "hPa": "hectopascal", "kPa": "kilopascal", "MPa": "megapascal",
    "GPa": "gigapascal", "bar": "bar", "mbar": "millibar", "psi": "psi", "ksi": "ksi",
    "kgf/cm²": "kilogram_force / centimeter ** 2", "mmHg": "mmHg", "inHg": "inch_Hg",
    "m": "meter", "cm": "centimeter", "mm": "millimeter", "µm": "micrometer", "in": "inch", "ft": "foot",
    "thou": "thou", "µin": "microinch", "mm²": "millimeter ** 2", "cm²": "centimeter ** 2",
    "m²": "meter ** 2", "in²": "inch ** 2", "°": "degree", "turns": "turn",
    "s": "second", "min": "minute", "h": "hour", "d": "day", "week": "week",
    "µl": "microliter", "ml": "milliliter", "l": "liter", "m³": "meter ** 3",
    "mm³": "millimeter ** 3", "US gal": "gallon", "l/min": "liter / minute", "ml/min": "milliliter / minute",
    "ml/h": "milliliter / hour", "m³/h": "meter ** 3 / hour", "m³/s": "meter ** 3 / second",
    "US gal/min": "gallon / minute", "kg": "kilogram", "g": "gram", "lb": "pound", "oz": "ounce",
    "mm/s": "millimeter / second", "m/s": "meter / second", "in/s": "inch / second", "N/m": "newton / meter",
    "N/mm": "newton / millimeter", "N/µm": "newton / micrometer", "kN/mm": "kilonewton / millimeter",
    "lbf/in": "force_pound / inch", "W": "watt", "kW": "kilowatt", "hp": "horsepower", "A": "ampere",
    "mA": "milliampere", "%": "percent",
}  # fmt: skip
IN_NO_LIBRARY = {"1", "drops", "drops/min", "light bands", "rpm"}  # sizes of 1, by what they are
ON_A_SCALE = {"°C", "°F", "K"}  # with a zero of their own: see test_temperatures


def test_against_pints_own_registry() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    bases = {"angle": "degree", "torque": "newton * meter"}
    for unit, words in IN_PINTS_WORDS.items():
        kind = UNITS[unit].kind
        own = registry.Quantity(1.0, words)
        base = own.to(bases[kind]) if kind in bases else own.to_base_units()
        scale = 1e-3 if base.units == registry.gram else 1
        # Of mercury the registry keeps a density with seven figures.
        exact = 2e-7 if unit in ("mmHg", "inHg") else 1e-14
        assert convert(1, unit, KINDS[kind][1]) == pytest.approx(base.magnitude * scale, rel=exact), unit
    assert {*IN_PINTS_WORDS, *IN_NO_LIBRARY, *ON_A_SCALE} == set(UNITS)
    assert all(convert(1, unit, KINDS[UNITS[unit].kind][1]) == 1 for unit in IN_NO_LIBRARY)


def test_temperatures_against_pints_own_registry() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    words = {"°C": "degree_Celsius", "°F": "degree_Fahrenheit", "K": "kelvin"}
    for one, other in permutations(words, 2):
        theirs = registry.Quantity(71.6, words[one]).to(words[other]).magnitude
        assert convert(71.6, one, other) == pytest.approx(theirs, rel=1e-12), (one, other)


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(20, 68), (0, 32), (100, 212), (-40, -40), (22, 71.6)])
def test_temperatures(celsius: float, fahrenheit: float) -> None:
    # fixed points of the two scales
    assert convert(celsius, "°C", "°F") == pytest.approx(fahrenheit, abs=1e-12)
    assert convert(fahrenheit, "°F", "°C") == pytest.approx(celsius, abs=1e-12)
    assert convert(celsius, "°C", "K") == pytest.approx(celsius + 273.15)


@pytest.mark.parametrize(
    ("unit", "spellings"),
    [
        ("N·m", ["N·m", "Nm", "N.m", "N-m", "N m", "N•m", "N∙m", "N⋅m", "N*m",
         "newton-metre", "Newton meter"]),
        (
            "lbf·ft",
            ["lbf·ft", "ft·lbf", "ft-lb", "lb-ft", "ft-lbs", "ft lb", "FT-LB", "Ft. Lbs.", "lb.ft", "ft.-lb.",
             "foot-pounds",
             "pound-feet", "lb ft", "ftlb", "foot pound"],
        ),
        ("lbf·in", ["lbf·in", "in-lb", "in-lbs", "IN-LB", "in. lbs",
         "inch-pounds", "lb-in", "lbf in", "pound inches"]),
        ("ozf·in", ["ozf·in", "in-oz", "oz-in", "oz in"]),
        ("kgf·m", ["kgf·m", "kgf-m", "kgf m", "m-kgf", "kp·m"]),
        ("kgf·cm", ["kgf·cm", "kgf-cm", "kgfcm"]),
        ("cN·m", ["cN·m", "cNm", "cN-m"]),
        ("dN·m", ["dN·m", "dNm"]),
        ("in", ["in", '"', "in.", "inch", "inches", "”", "IN"]),
        ("mm", ["mm", "millimetres"]),
        ("µm", ["µm", "μm", "um", "micron"]),
        ("thou", ["thou", "mil"]),
        ("psi", ["psi", "PSI", "lbf/in²", "lbf/in2", "lbf/in^2", "lb/in²", "lbf/sq in"]),
        ("bar", ["bar", "Bar"]),
        ("MPa", ["MPa", "N/mm²", "N/mm2", "N/mm^2"]),
        ("mbar", ["mbar"]),
        ("kPa", ["kPa"]),
        ("h", ["h", "hr", "hours", "H"]),
        ("min", ["min", "mins", "minutes", "MIN"]),
        ("s", ["s", "sec", "seconds"]),
        ("d", ["d", "day", "days"]),
        ("°", ["°", "deg", "degrees", "º"]),
        ("°C", ["°C", "° C", "deg C", "degC", "C", "degrees Celsius", "ºC"]),
        ("°F", ["°F", "deg F"]),
        ("%", ["%", "percent", "per cent"]),
        ("drops", ["drops", "drop"]),
        ("drops/min", ["drops/min", "drops / min", "drop/min", "drops per minute"]),
        ("ml", ["ml", "mL", "cc", "cm³", "cm3"]),
        ("rpm", ["rpm", "RPM", "rev/min", "1/min"]),
        ("lbf", ["lbf", "LBF"]),
        ("N", ["N", "newtons"]),
        ("kN", ["kN"]),
    ],
)  # fmt: skip
def test_spellings(unit: str, spellings: list[str]) -> None:
    for spelling in spellings:
        for text in (f"20 {spelling}", f"20{spelling}", f"  20.0   {spelling} "):
            assert parse(text) == Quantity(Decimal(20), unit), text


def test_each_unit_reads_its_own_name_and_is_spelled_once() -> None:
    seen: dict[str, str] = {}
    for name, unit in UNITS.items():
        for spelling in (*unit.cased, *unit.uncased):
            assert seen.setdefault(spelling, name) == name, spelling
            assert spelling not in TRAPS
        if name != "1":
            assert parse(f"3 {name}") == Quantity(Decimal(3), name)
        assert convert(1, name, KINDS[unit.kind][1]) != 0


@pytest.mark.parametrize(
    ("text", "kind", "said"),
    [
        ("20 J", "torque", 'J is energy; a torque is written in N·m, so write "N·m"'),
        ("20 joules", None, 'write "N·m"'),
        ("20 kg·m", "torque", 'write "kgf·m"'),
        ("20 kgm", "torque", 'write "kgf·m"'),
        ("20 kg-cm", None, 'write "kgf·cm"'),
        ("20 nm", "torque", "nanometres"),
        ("20 MN·m", None, "mN·m"),
        ("20 NM", None, "capital M"),
        ("20,5 N·m", "torque", 'write a point: "20.5 N·m"'),
        ("1,000 N", "force", '"1.000 N" or "1000 N", whichever is meant'),
        ("1,000.5 N", "force", "no decimal comma"),
        ("20", "torque", 'has no unit; write it, for example "20 N·m"'),
        ("24", "time", 'has no unit; write it, for example "24 s"'),
        ("", "torque", "found nothing, expected a torque"),
        ("N·m", None, "a number and its unit"),
        ("-5 N·m", "torque", "has a sign"),
        ("+5 N·m", "torque", "has a sign"),
        ("1e3 N·m", None, "has an exponent"),
        ("2E5 Pa", None, "has an exponent"),
        ("inf N·m", None, "a number and its unit"),
        ("nan N·m", None, "a number and its unit"),
        ("2**3 N·m", None, "expected a quantity"),
        ("(20) N", None, "expected a quantity"),
        ("9**9**9", None, "expected a quantity"),
        ("1 000 N", None, "expected a quantity"),
        ("1_000 N", None, "expected a quantity"),
        ("٢٠ N", None, "expected a quantity"),
        ("0x10 N", None, 'unit "x10 N" is not known'),
        ("20 N·m 5", None, 'unit "N·m 5" is not known'),
        ("20 bar", "torque", '"20 bar" is a pressure or stress; expected a torque: write N·m, lbf·ft'),
        ("20 lbf·tf", "torque", 'did you mean "lbf·ft"?'),
        ("20 psig", "pressure", "gauge"),
        ("2 gal", "volume", "US gal"),
        ("3/4 ft", "length", 'write a decimal: "0.75 ft"'),
        ("5/16", "length", "expected a length"),
        ("20 __import__('os')", None, "expected a quantity"),
        ("20 [red]x[/red]", None, "expected a quantity"),
        ("20\x00 N", None, "expected a quantity"),
    ],
)  # fmt: skip
def test_refusals_say_what_to_write(text: str, kind: str | None, said: str) -> None:
    with pytest.raises(QuantityError) as refusal:
        parse(text, kind)
    sentence = str(refusal.value)
    assert said in sentence
    assert "\n" not in sentence
    assert sentence.isprintable()


def test_a_hand_may_type_a_comma() -> None:
    assert parse("20,5 N·m", "torque", decimal_comma=True) == Quantity(Decimal("20.5"), "N·m")
    assert parse("20.5 N·m", "torque", decimal_comma=True) == Quantity(Decimal("20.5"), "N·m")
    assert parse_number("0,012") == Decimal("0.012")
    assert parse_number(" 16.0 ") == Decimal("16.0")
    for mixed in ("1.000,5 N", "1,000.5 N", "1,000,000 N"):
        with pytest.raises(QuantityError, match="no decimal comma"):
            parse(mixed, "force", decimal_comma=True)
    with pytest.raises(QuantityError, match=r"write a point: \"20\.5\""):
        parse_number("20,5", decimal_comma=False)


@pytest.mark.parametrize("text", ["", "16 lbf", "1e3", "-3", "inf", "1,2,3", "1/2", "1 2", "."])
def test_a_bare_number_is_only_that(text: str) -> None:
    with pytest.raises(QuantityError):
        parse_number(text)


def test_signs_only_where_they_mean_something() -> None:
    assert parse("-5 °C", "temperature").value == -5
    assert parse("−5 °C").value == -5
    assert parse("-45°", "angle").value == -45
    assert parse("+9 %", "share", signed=True).value == 9
    assert parse_number("-0.003", signed=True) == Decimal("-0.003")
    with pytest.raises(QuantityError, match="has a sign"):
        parse("+9 %", "share")


def test_inches_may_be_fractions() -> None:
    assert parse("2-3/4 in") == parse("2.75 in") == parse("2 3/4 in")
    assert parse('5/16"').value == Decimal("0.3125")


def test_several_kinds_may_do() -> None:
    assert parse("2 drops", ("drops", "volume")).kind == "drops"
    assert parse("0.1 ml", ("drops", "volume")).kind == "volume"
    with pytest.raises(QuantityError, match="expected a number of drops or a volume"):
        parse("2 N", ("drops", "volume"))


def test_long_text_is_refused_unread() -> None:
    with pytest.raises(QuantityError, match="found 100001 characters"):
        parse("9" * 100_000 + "N")
    with pytest.raises(QuantityError, match="found 100000 characters"):
        parse_number("9" * 100_000)


def test_equality_is_of_value_and_unit() -> None:
    assert parse("1 lbf·ft") != parse("12 lbf·in")
    assert parse("1 lbf·ft").si == parse("12 lbf·in").si
    assert parse("16 ft-lb") == parse("16.0 lbf·ft")
    assert parse("16 ft-lb").text == "16 ft-lb"


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("16 ft-lb", "16 lbf·ft"),
        ("16.0 ft-lb", "16.0 lbf·ft"),
        ("45 deg", "45°"),
        ("30 %", "30 %"),
        ("22 C", "22 °C"),
    ],
)
def test_how_quantities_are_shown(written: str, shown: str) -> None:
    assert str(parse(written)) == shown
    assert parse(shown) == parse(written)


def test_a_drop_and_a_light_band_are_no_fixed_amounts() -> None:
    with pytest.raises(QuantityError, match="neither converts"):
        convert(2, "drops", "ml")
    with pytest.raises(QuantityError, match="neither converts"):
        convert(3, "light bands", "µm")


def test_conversion_refuses_what_it_cannot_do() -> None:
    with pytest.raises(QuantityError, match="N·m is a torque and bar is a pressure"):
        convert(1, "N·m", "bar")
    with pytest.raises(QuantityError, match='found unit "furlong"'):
        convert(1, "furlong", "m")
    with pytest.raises(QuantityError, match="finite"):
        convert(float("nan"), "N", "kN")
    with pytest.raises(QuantityError, match='found unit "Nm"'):
        Quantity(Decimal(1), "Nm")


# Bounds of our own demonstration data: HC40 F1 and F3, MC05 shell.
@pytest.mark.parametrize(
    ("target", "tolerance", "low", "high"),
    [
        ("16 lbf·ft", "10 %", "14.4 lbf·ft", "17.6 lbf·ft"),
        ("30 lbf·ft", "2 lbf·ft", "28 lbf·ft", "32 lbf·ft"),
        ("5.0 N·m", "8 %", "4.6 N·m", "5.4 N·m"),
        ("45°", "5°", "40°", "50°"),
        ("24 lbf·ft", "12 lbf·in", "23 lbf·ft", "25 lbf·ft"),
    ],
)
def test_limits(target: str, tolerance: str, low: str, high: str) -> None:
    # equal to the bit, so that a reading typed at the bound is inside
    assert limits(parse(target), parse(tolerance)) == (parse(low).si, parse(high).si)


def test_limits_of_a_temperature_are_differences() -> None:
    assert limits(parse("20 °C"), parse("9 °F")) == (15.0, 25.0)
    assert limits(parse("-5 °C"), parse("10 %")) == (-5.5, -4.5)


@pytest.mark.parametrize("tolerance", ["0 %", "100 %", "120 %", "20 N·m", "2 mm"])
def test_limits_refuse_nonsense(tolerance: str) -> None:
    with pytest.raises(QuantityError, match="tolerance"):
        limits(parse("16 N·m"), parse(tolerance))


units_of_one_kind = st.sampled_from([name for name in UNITS if UNITS[name].kind == "torque"])


@given(st.floats(1e-6, 1e6), units_of_one_kind, units_of_one_kind)
def test_there_and_back(value: float, one: str, other: str) -> None:
    assert convert(convert(value, one, other), other, one) == pytest.approx(value, rel=1e-14)


@given(st.decimals(0, 999999, places=4), st.sampled_from([name for name in UNITS if name != "1"]))
def test_what_is_shown_is_read_back(value: Decimal, unit: str) -> None:
    quantity = Quantity(abs(value), unit)
    assert parse(str(quantity)) == quantity


@given(st.text(max_size=40))
def test_any_text_gives_a_quantity_or_one_sentence(text: str) -> None:
    try:
        parse(text, decimal_comma=True, signed=True)
    except QuantityError as refusal:
        assert "\n" not in str(refusal)
        assert len(str(refusal)) < 300


def test_the_conversion_library_is_loaded_by_the_first_conversion_only() -> None:
    code = (
        "import sys; from benchcheck.mechanics.units import limits, parse\n"
        "parse('16 lbf·ft'); limits(parse('16 N·m'), parse('10 %'))\n"
        "assert 'pint' not in sys.modules\n"
        "parse('16 lbf·ft').si\n"
        "assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
