"""Strengths: proof and tensile loads against the standards' tables, grades by their spellings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.strength import (
    MEGAPASCALS_PER_KSI,
    StrengthError,
    judge,
    known_grades,
    proof_load_newton,
    strength,
    tensile_load_newton,
    yield_load_newton,
)
from benchcheck.mechanics.thread import known_threads, parse_thread
from benchcheck.mechanics.units import convert
from tests.published_tables import rows


def mark(row: dict[str, str]) -> str:
    return f"{row['thread']} {row['class']}"


@pytest.mark.parametrize("row", rows("iso898_1_proof_loads_coarse"), ids=mark)
def test_proof_loads_of_iso_898_1(row: dict[str, str]) -> None:
    # EN ISO 898-1 table as a public page prints it, rounded to three figures
    thread = parse_thread(row["thread"])
    load = proof_load_newton(thread, strength(row["class"], thread.diameter_millimetre))
    assert load == pytest.approx(float(row["Fp_published_N"]), rel=0.0065)


@pytest.mark.parametrize("row", rows("iso898_1_tensile_loads_coarse"), ids=mark)
def test_tensile_loads_of_iso_898_1(row: dict[str, str]) -> None:
    # ISO 898-1 table as three public pages print it, rounded to three figures
    thread = parse_thread(row["thread"])
    load = tensile_load_newton(thread, strength(row["class"], thread.diameter_millimetre))
    assert load == pytest.approx(float(row["Fm_published_N"]), rel=0.0085)


@pytest.mark.parametrize(
    "row", rows("inch_fastener_strengths"), ids=lambda row: f"{row['spec']} {row['diameter_in']}"
)
def test_inch_grades_as_published(row: dict[str, str]) -> None:
    # A university page quoting a machine design text; A193 B7 a maker's markings; A574 from memory.
    least, most = {
        "up to 0.5": (0.112, 0.5),
        "over 0.5": (0.5625, 1.5),
        "over 2.5-4": (2.75, 4.0),
        "over 4-7": (4.5, 7.0),
    }.get(row["diameter_in"]) or tuple(map(float, row["diameter_in"].split("-")))
    grade = row["spec"].removesuffix(" alloy socket head")
    for diameter in (least, (least + most) / 2, most):
        found = strength(grade, diameter * 25.4)
        assert found.tensile_megapascal == pytest.approx(float(row["tensile_ksi"]) * MEGAPASCALS_PER_KSI)
        if row["yield_ksi"]:
            assert found.yield_megapascal == pytest.approx(float(row["yield_ksi"]) * MEGAPASCALS_PER_KSI)
        if row["proof_ksi"]:
            assert found.proof_megapascal == pytest.approx(float(row["proof_ksi"]) * MEGAPASCALS_PER_KSI)
        assert any("from memory" in each for each in found.assumptions) == (row["mark"] == "memory")


def test_the_unit_of_the_inch_tables() -> None:
    assert convert(1, "ksi", "MPa") == pytest.approx(MEGAPASCALS_PER_KSI, rel=1e-15)


def test_eight_point_eight_gets_stronger_above_sixteen_millimetres() -> None:
    # ISO 898-1: 580 MPa up to and including M16, 600 above; some web calculators take 600 throughout
    assert strength("8.8", 16).proof_megapascal == 580
    assert strength("8.8", 18).proof_megapascal == 600


def test_stainless_has_no_proof_stress_and_says_so() -> None:
    # ISO 3506-1: class number × 10 is the tensile strength (two public summaries); 450 MPa from memory
    found = strength("A4-70", 6)
    assert (found.tensile_megapascal, found.yield_megapascal, found.proof_megapascal) == (700, 450, 450)
    assert found.assumptions == (
        "ISO 3506-1 A4-70 has no proof stress; its 0.2 % proof strength stands in",
        "yield of ISO 3506-1 A4-70 from memory of the standard",
    )
    for grade in ("A2-50", "A2-70", "A4-80"):
        assert strength(grade, 8).tensile_megapascal == int(grade[-2:]) * 10


@pytest.mark.parametrize(
    ("name", "spellings"),
    [
        (
            "ISO 898-1 8.8",
            ["8.8", "ISO 898-1 8.8", "class 8.8", "ISO 898 8.8", "property class 8.8", "8.8 steel"],
        ),
        ("SAE J429 8", ["8", "SAE J429 8", "SAE J429 grade 8", "grade 8", "Gr. 8", "J429 8", "SAE 8"]),
        ("SAE J429 8.2", ["8.2", "SAE J429 8.2"]),
        ("ASTM A193 B7", ["A193 B7", "ASTM A193-B7", "A193B7", "B7", "astm a193 b7"]),
        (
            "ISO 3506-1 A4-70",
            ["A4-70", "ISO 3506-1 A4-70", "ISO 3506 A4-70", "a4-70", "A4-70 stainless", "A4–70"],
        ),
        ("ASTM A574", ["A574", "ASTM A574"]),
    ],
)
def test_spellings(name: str, spellings: list[str]) -> None:
    for spelling in spellings:
        assert strength(spelling, 8).name == name, spelling


def test_every_known_grade_reads_its_own_name() -> None:
    for name in known_grades():
        assert strength(name, 0.5 * 25.4 + 1).name == name


@pytest.mark.parametrize(
    ("grade", "diameter_millimetre", "said"),
    [
        ("10.8", 8, 'did you mean "ISO 898-1 10.9"'),
        ("A4-75", 8, '"ISO 3506-1 A4-70"'),
        ("J429 8.8", 8, '8.8 is a grade of ISO 898-1; write "ISO 898-1 8.8"'),
        ("ISO 898-1 8", 8, '8 is a grade of SAE J429; write "SAE J429 8"'),
        ("8.8", 45, "covers diameters up to 39 mm; 45 mm is outside"),
        ("9.8", 20, "covers diameters up to 16 mm; 20 mm is outside"),
        ("SAE J429 8", 4.826, "covers diameters 0.25 to 1.5 in; 0.19 in is outside"),
        ("", 8, "did you mean"),
        ("stainless", 8, "did you mean"),
        ("x" * 1000, 8, "too long"),
    ],
)
def test_refusals(grade: str, diameter_millimetre: float, said: str) -> None:
    with pytest.raises(StrengthError) as refusal:
        strength(grade, diameter_millimetre)
    assert said in str(refusal.value)


@pytest.mark.parametrize(
    ("target", "top", "judgement"),
    [
        # Our own demonstration data: HC40 F1 at 16 lbf·ft ±10 %, right and wrong
        (0.651, 0.716, "usual"),
        (0.92, 1.01, "over proof load"),
        (0.91, 0.95, "high"),
        (0.48, 0.53, "low"),
        (0.50, 1.0, "usual"),
    ],
)
def test_what_is_said_of_a_share(target: float, top: float, judgement: str) -> None:
    assert judge(target, top) == judgement


@given(st.sampled_from(known_threads()), st.sampled_from(known_grades()))
def test_proof_is_below_yield_is_below_tensile(thread: object, grade: str) -> None:
    metric = parse_thread(str(thread))
    try:
        found = strength(grade, metric.diameter_millimetre)
    except StrengthError as refusal:
        assert "is outside" in str(refusal)
        return
    assert proof_load_newton(metric, found) <= yield_load_newton(metric, found)
    assert yield_load_newton(metric, found) < tensile_load_newton(metric, found)
