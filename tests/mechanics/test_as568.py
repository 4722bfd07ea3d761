"""The O-ring table modules hold what the published tables hold, and the table is AS568's."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

from benchcheck.mechanics import o_ring
from benchcheck.mechanics.tables import as568, o_ring_glands

PUBLISHED = Path(__file__).parent.parent / "published"


@pytest.fixture(scope="module")
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_as568", PUBLISHED / "make_as568.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_modules_are_what_the_script_writes(script: ModuleType) -> None:
    assert as568.__file__ is not None and o_ring_glands.__file__ is not None
    assert Path(as568.__file__).read_text(encoding="utf-8") == script.sizes_module()
    assert Path(o_ring_glands.__file__).read_text(encoding="utf-8") == script.glands_module()


def test_each_row_of_the_published_table_is_a_size(script: ModuleType) -> None:
    rows = script.rows("as568_orings.csv")
    assert [row["dash"] for row in rows] == [size.dash for size in o_ring.all_sizes()]
    for row in rows:
        size = o_ring.size(row["dash"])
        assert size.inside_diameter_millimetre == float(row["id_mm"])
        assert size.section_inch == float(row["cs_in"])
        assert size.inside_diameter_tolerance_inch == float(row["id_tol_in"])


def test_count() -> None:
    # AS568A lists 369 sizes, 20 of them for bosses: a public summary of the standard.
    assert len(as568.SIZES) == 369
    assert sum(size.is_boss for size in o_ring.all_sizes()) == 20


@pytest.mark.parametrize(
    ("dash", "inside", "tolerance"),
    # AS568 dimensions as public tables print them [inch].
    [
        ("001", 0.029, 0.004),
        ("010", 0.239, 0.005),
        ("014", 0.489, 0.005),
        ("111", 0.424, 0.005),
        ("116", 0.737, 0.009),
        ("210", 0.734, 0.010),
        ("214", 0.984, 0.010),
        ("222", 1.484, 0.015),
        ("325", 1.475, 0.015),
        ("350", 4.600, 0.030),
        ("425", 4.475, 0.033),
        ("475", 25.940, 0.120),
    ],
)
def test_anchors(dash: str, inside: float, tolerance: float) -> None:
    size = o_ring.size(dash)
    assert (size.inside_diameter_inch, size.inside_diameter_tolerance_inch) == (inside, tolerance)


@pytest.mark.parametrize(
    ("first", "last", "section", "tolerance"),
    # Section and tolerance by series, AS568 as public tables print it [inch].
    [
        (4, 50, 0.070, 0.003),
        (102, 178, 0.103, 0.003),
        (201, 284, 0.139, 0.004),
        (309, 395, 0.210, 0.005),
        (425, 475, 0.275, 0.006),
    ],
)
def test_series(first: int, last: int, section: float, tolerance: float) -> None:
    series = [size for size in o_ring.all_sizes() if first <= int(size.dash) <= last]
    assert len(series) == last - first + 1
    assert {(size.section_inch, size.section_tolerance_inch) for size in series} == {(section, tolerance)}


def test_inch_and_millimetre_agree() -> None:
    for size in o_ring.all_sizes():
        assert size.inside_diameter_inch * 25.4 == pytest.approx(size.inside_diameter_millimetre, abs=0.0181)
        assert size.section_inch * 25.4 == pytest.approx(size.section_millimetre, abs=0.0061)
