"""Threads: designations and suggestions; sizes against published tables."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.thread import Thread, ThreadError, known_threads, nearest_threads, parse_thread
from tests.published_tables import rows

SQUARE_INCH = 25.4**2

# The page's root diameters of these two stand 0.0007 in off the formula that all 21 other rows follow.
MISPRINTED_ROOTS = {"3/4-16", "1-12"}


def mark(row: dict[str, str]) -> str:
    return f"{row['thread']}"


@pytest.mark.parametrize("row", rows("iso_metric_threads"), ids=mark)
def test_metric_sizes(row: dict[str, str]) -> None:
    # Diameters: computed once from ISO 68-1, ISO 724 and ISO 898-1, printed to 0.0001 mm (derived).
    thread = parse_thread(row["thread"])
    assert thread.pitch_millimetre == float(row["pitch_mm"])
    assert thread.series == f"metric {row['series']}"
    assert thread.pitch_diameter_millimetre == pytest.approx(float(row["d2_mm"]), abs=1e-4)
    assert thread.minor_diameter_millimetre == pytest.approx(float(row["d1_mm"]), abs=1e-4)
    assert thread.root_diameter_millimetre == pytest.approx(float(row["d3_mm"]), abs=1e-4)


@pytest.mark.parametrize("row", rows("iso_metric_threads"), ids=mark)
def test_metric_stress_areas_as_published(row: dict[str, str]) -> None:
    # Coarse: ISO 898-1 as several public pages print it. Fine: from memory of ISO 898-1. Three figures each.
    area = parse_thread(row["thread"]).stress_area_square_millimetre
    assert area == pytest.approx(float(row["As_published_mm2"]), rel=4e-3)


def test_the_short_formula_for_the_metric_stress_area() -> None:
    # π/4 (d − 0.938194187 P)², as tribology tables and ISO 898-1 give it
    for thread in known_threads():
        if thread.is_metric:
            short = math.pi / 4 * (thread.diameter_millimetre - 0.938194187 * thread.pitch_millimetre) ** 2
            assert thread.stress_area_square_millimetre == pytest.approx(short, rel=1e-8)


@pytest.mark.parametrize("row", rows("unified_threads"), ids=mark)
def test_unified_sizes_as_published(row: dict[str, str]) -> None:
    # UNF: a public page's thread table. UNC areas: two further public pages. Printed to two to four figures.
    thread = parse_thread(row["thread"])
    assert thread.series == row["series"]
    assert thread.diameter_millimetre / 25.4 == pytest.approx(float(row["D_in"]), abs=1e-9)
    assert thread.stress_area_square_millimetre / SQUARE_INCH == pytest.approx(
        float(row["At_published_in2"]), rel=2.3e-3
    )
    assert thread.pitch_diameter_millimetre / 25.4 == pytest.approx(float(row["pitch_dia_in"]), abs=6e-5)
    if row["minor_dia_ext_in"] and row["thread"] not in MISPRINTED_ROOTS:
        assert thread.root_diameter_millimetre / 25.4 == pytest.approx(
            float(row["minor_dia_ext_in"]), abs=1e-4
        )


def test_number_sizes() -> None:
    # 0.060 in + 0.013 in × number: No4 0.112, No10 0.190
    assert parse_thread("#4-40").diameter_millimetre == pytest.approx(0.112 * 25.4)
    assert parse_thread("No10-32").diameter_millimetre == pytest.approx(0.190 * 25.4)


def test_every_known_thread_reads_its_own_name() -> None:
    for thread in known_threads():
        assert parse_thread(str(thread)) == thread
        assert 0 < thread.root_diameter_millimetre < thread.pitch_diameter_millimetre
        assert thread.pitch_diameter_millimetre < thread.diameter_millimetre


def test_no_designation_stands_twice() -> None:
    names = [str(thread) for thread in known_threads()]
    assert len(names) == len(set(names))


@pytest.mark.parametrize(
    ("name", "spellings"),
    [
        ("M8x1.25", ["M8", "M8x1.25", "M8 x 1.25", "M8×1.25", "m8X1.25", "M8-6g", "M8x1.25-6g", "M8.0"]),
        ("M40x1.5", ["M40x1.5", "M40 × 1.5"]),
        ("M8x1.25 LH", ["M8 LH", "M8x1.25 LH", "M8-LH", "M8 left-hand", "M8 left hand"]),
        ("5/16-18 UNC", ["5/16-18 UNC", "5/16-18", "5/16-18UNC-2A", "5/16 - 18", '5/16"-18', ".3125-18 UNC"]),
        ("1-1/8-7 UNC", ["1-1/8-7", "1 1/8-7 UNC", "1.125-7"]),
        ("1-8 UNC", ["1-8", "1.00-8"]),
        ("No10-32 UNF", ["#10-32", "No10-32", "No. 10-32 UNF", "10-32", "no 10-32", "10-32 UNRF"]),
        ("No1-72 UNF", ["1-72", "#1-72"]),
        ("1-12 UNF", ["1-12"]),
        ("2-4.5 UNC", ["2-4.5"]),
        ("1-1/8-8 UN", ["1-1/8-8 UN", "1-1/8-8", "1-1/8-8 8-UN"]),
        ("1/2-20 UNF LH", ["1/2-20 UNF LH"]),
    ],
)
def test_spellings(name: str, spellings: list[str]) -> None:
    for spelling in spellings:
        assert str(parse_thread(spelling)) == name, spelling
    assert parse_thread(name).left_hand == name.endswith("LH")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("M8x1.3", 'did you mean "M8x1.25", "M8x1" or "M9x1.25"?'),
        ("M13", 'did you mean "M14x2", "M12x1.75"'),
        ("M40", 'has no coarse pitch; write "M40x3", "M40x2" or "M40x1.5"'),
        ("M8x60", 'if 60 is a length, the thread is "M8" alone'),
        ("M8x1,25", 'write a point: "M8x1.25"'),
        ("5/16-20", 'did you mean "5/16-18 UNC", "5/16-24 UNF"'),
        ("5/16-24 UNC", "5/16-24 is UNF, not UNC; the UNC thread is 5/16-18 UNC"),
        ("5/8-18 UNEF", "5/8-18 is UNF, not UNEF; the UNEF thread is 5/8-24 UNEF"),
        ("G1/2", "is a pipe thread"),
        ("1/2-14 NPT", "is a pipe thread"),
        ("Tr 20x4", "is a trapezoidal thread"),
        ("3/8-16 BSW", "is a Whitworth thread"),
        ("M0", "diameter above 0"),
        ("1/0-18", "expected a thread"),
        ("5/16-00", "expected a thread"),
        ("", "expected a thread"),
        ("bolt", "expected a thread"),
        ("M8\n", "cannot be printed"),
        ("M8" + "x" * 100_000, "found 100002 characters"),
    ],
)
def test_refusals(text: str, said: str) -> None:
    with pytest.raises(ThreadError) as refusal:
        parse_thread(text)
    assert said in str(refusal.value)
    assert str(refusal.value).isprintable()


def test_a_legal_thread_that_may_not_be_the_one_meant_is_said() -> None:
    assert parse_thread("5/16-24").note == (
        "5/16-24 UNF is the fine thread of this size; the coarse one is 5/16-18 UNC"
    )
    assert parse_thread("M10x1.25 LH").note.endswith("the coarse one is M10x1.5")
    assert parse_thread("5/16-18").note == ""
    assert parse_thread("M8 LH").note == ""
    assert parse_thread("M40x1.5").note == ""


@given(st.sampled_from(known_threads()), st.floats(0.985, 1.015))
def test_the_nearest_thread_of_a_slightly_wrong_pitch_is_the_right_one(thread: Thread, slip: float) -> None:
    near = nearest_threads(thread.diameter_millimetre, thread.pitch_millimetre * slip, thread.is_metric)
    assert thread in near[:2]


@given(st.text(max_size=45))
def test_any_text_gives_a_thread_or_one_sentence(text: str) -> None:
    try:
        parse_thread(text)
    except ThreadError as refusal:
        assert str(refusal).isprintable()


@given(st.from_regex(r"(M\d{1,3}(x\d\.\d{1,2})?|\d/\d{1,2}-\d{1,2})( LH)?", fullmatch=True))
def test_any_designation_gives_a_thread_or_one_sentence(text: str) -> None:
    try:
        assert parse_thread(text).left_hand == text.endswith("LH")
    except ThreadError as refusal:
        assert len(str(refusal)) < 200
