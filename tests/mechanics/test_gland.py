"""Stretch, squeeze and fill against published gland tables, and the refusals of a gland's text."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.mechanics.gland import BOSS_SIZES, Form, Gland, GlandError, Misfit, fit, fitting_sizes, gland
from benchcheck.mechanics.o_ring import Size, all_sizes, size
from tests.published_tables import rows

# One AS568 size of each section of the gland tables.
SIZE_OF_SECTION = {
    "1.02": "001",
    "1.27": "002",
    "1.52": "003",
    "1.78": "014",
    "2.62": "151",
    "3.53": "214",
    "5.33": "325",
    "6.99": "425",
}


# The printed squeeze goes from the thinnest ring in the deepest gland to the thickest in the shallowest. With
# the section tolerances of AS568 all 48 printed values come out within 0.7 of their whole per cents.
@pytest.mark.parametrize(
    ("kind", "depth", "squeeze"),
    [("static", "d_r", "sq_r_p"), ("static", "d_a", "sq_a_p"), ("dynamic", "d", "sq_p")],
)
def test_squeeze_of_the_published_gland_tables(kind: str, depth: str, squeeze: str) -> None:
    for row in rows(f"oring_gland_{kind}"):
        low, high = float(row[f"{depth}_min"]), float(row[f"{depth}_max"])
        form = "bore 200 mm" if depth == "d_r" else "groove OD 200 mm"
        text = f"{form}, depth {(low + high) / 2:.4f} ±{(high - low) / 2:.4f} mm"
        found = fit(size(SIZE_OF_SECTION[row["w"]]), gland(text)).squeeze
        assert found is not None
        assert found.low * 100 == pytest.approx(float(row[f"{squeeze}_min"]), abs=0.7), row["w"]
        assert found.high * 100 == pytest.approx(float(row[f"{squeeze}_max"]), abs=0.7), row["w"]


def test_the_214_in_a_static_radial_gland() -> None:
    # Static radial row of 3.53 mm: depth 2.79 to 2.95, width 4.57, squeeze 14 to 23 %. Derived from it and
    # from AS568: fill 72.6 to 76.8 % at nominal section; stretch on a 25.80 mm groove 3.24 %, thinned to
    # 3.474 mm.
    deep = fit(size("-214"), gland("shaft 25.80 mm, depth 2.95 mm, width 4.57 mm"))
    shallow = fit(size("-214"), gland("shaft 25.80 mm, depth 2.79 mm, width 4.57 mm"))
    assert deep.squeeze and deep.fill and deep.stretch and shallow.squeeze and shallow.fill
    assert deep.squeeze.nominal == pytest.approx(0.1643, abs=5e-4)
    assert shallow.squeeze.nominal == pytest.approx(0.2096, abs=5e-4)
    assert deep.squeeze.low == pytest.approx(0.140, abs=2e-3)
    assert shallow.squeeze.high == pytest.approx(0.231, abs=2e-3)
    assert deep.fill.nominal == pytest.approx(0.726, abs=1e-3)
    assert shallow.fill.nominal == pytest.approx(0.768, abs=1e-3)
    assert deep.stretch.nominal == pytest.approx(0.0324, abs=2e-4)
    assert deep.section_fitted_inch is not None
    assert deep.section_fitted_inch * 25.4 == pytest.approx(3.474, abs=1e-3)
    assert deep.usual_squeeze == (0.14, 0.23)
    assert not deep.misfits


# Grooves of our own demonstration pumps: stretch and squeeze worked out by hand from the AS568 dimensions.
@pytest.mark.parametrize(
    ("dash", "text", "stretch", "squeeze"),
    [
        ("-259", "bore 6.500, depth 0.111", 0.7, 20),
        ("-137", "bore 2.250, depth 0.081", 1.9, 21),
        ("-012", "bore 0.469, depth 0.050", 1.4, 29),
        ("-127", "bore 1.625, depth 0.081", 2.7, 21),
        ("-016", "shaft 0.625, depth 0.050", 1.8, 29),
        ("-224", "shaft 45 mm", 2.2, None),
        ("-242", "bore 4.331, depth 0.111", 3.1, 20),
        ("-129", "bore 1.750, depth 0.081", 2.5, 21),
        ("-160", "bore 5.500, depth 0.081", 1.9, 21),
        ("-156", "centre line 350 mm, depth 2.0 mm", 1.1, 24),
    ],
)
def test_demonstration_grooves(dash: str, text: str, stretch: float, squeeze: float | None) -> None:
    found = fit(size(dash), gland(text))
    assert found.stretch is not None
    assert found.stretch.nominal * 100 == pytest.approx(stretch, abs=0.05)
    if squeeze is None:
        assert found.squeeze is None
    else:
        assert found.squeeze is not None
        assert round(found.squeeze.nominal * 100) == squeeze
    assert found.misfits == {}


@pytest.mark.parametrize(("dash", "groove"), [("-151", "3.200"), ("-150", "3.075")])
def test_demonstration_face_grooves(dash: str, groove: str) -> None:
    found = fit(size(dash), gland(f"groove OD {groove}, depth 0.077"))
    assert found.clearance_inch is not None and found.squeeze is not None
    assert found.clearance_inch.nominal == pytest.approx(0.007, abs=1e-9)
    assert round(found.squeeze.nominal * 100) == 25
    assert found.misfits == {}


def test_exchanged_face_rings() -> None:
    clear = fit(size("-150"), gland("groove OD 3.200, depth 0.077")).misfits
    pinched = fit(size("-151"), gland("groove OD 3.075, depth 0.077")).misfits
    assert clear == {
        Misfit.STANDS_CLEAR: "-150 stands 0.132 in on the diameter clear of the wall it has to lean on"
    }
    assert pinched == {Misfit.PINCHED: "-151 is 0.118 in larger outside than its groove and would be pinched"}


@pytest.mark.parametrize(
    ("dash", "text", "misfit"),
    [
        ("-136", "bore 2.250, depth 0.081", Misfit.OVERSTRETCHED),
        ("-138", "bore 2.250, depth 0.081", Misfit.LOOSE),
        ("-137", "bore 2.262, depth 0.095", Misfit.TOO_LITTLE_SQUEEZE),
        ("-137", "bore 2.300, depth 0.110", Misfit.TOO_LITTLE_SQUEEZE),
        ("-137", "bore 2.190, depth 0.060", Misfit.TOO_MUCH_SQUEEZE),
        ("-137", "bore 2.222, depth 0.070, moving", Misfit.TOO_MUCH_SQUEEZE),
        ("-137", "bore 2.250, depth 0.081, width 0.110", Misfit.OVERFILLED),
        ("-906", "3/4-16 boss", Misfit.WRONG_BOSS),
        ("-016", "boss", Misfit.WRONG_BOSS),
        ("-151", "groove ID 2.900, depth 0.077", Misfit.LOOSE),
    ],
)
def test_misfits(dash: str, text: str, misfit: Misfit) -> None:
    assert misfit in fit(size(dash), gland(text)).misfits


def test_a_millimetre_typed_without_its_unit_is_pointed_at() -> None:
    found = fit(size("-137"), gland("bore 57.15, depth 2.06")).misfits
    assert "read as inches" in found[Misfit.OVERSTRETCHED]


def test_stretch_limit_of_the_rubber() -> None:
    where = gland("shaft 45.8 mm, depth 2.87 mm")
    assert Misfit.OVERSTRETCHED in fit(size("-224"), where, stretch_limit=0.03).misfits
    assert fit(size("-224"), where).misfits == {}


def test_sizes_that_fit() -> None:
    found = [ring.designation for ring in fitting_sizes(gland("groove OD 3.200, depth 0.077"))]
    assert found == ["-151"]
    assert [ring.designation for ring in fitting_sizes(gland("3/4-16 boss"))] == ["-908"]
    assert len(fitting_sizes(gland("boss"))) == 20


def test_each_boss_ring_slips_over_its_thread_relief() -> None:
    # The pairs are from memory of SAE J1926-1; what must hold: the ring is smaller inside than the thread,
    # and by no more than the thread is deep and the ring may be stretched.
    for thread, dash in BOSS_SIZES.items():
        diameter, _, pitch = thread.rpartition("-")
        whole, _, fraction = diameter.rpartition("-")
        numerator, denominator = fraction.split("/")
        major = int(whole or 0) + int(numerator) / int(denominator)
        inside = size(dash).inside_diameter_inch
        assert inside < major < inside + 1.9 / int(pitch) + 0.05 * inside, thread


def test_units_and_spellings() -> None:
    assert gland('bore 2.250", depth 0.081"') == gland("bore 2.250 in, depth 0.081 in")
    assert gland("Groove od 3.2, Depth 0.077").form is Form.GROOVE_OUTSIDE
    assert gland("depth 0.081, bore 2.250") == gland("bore 2.250, depth 0.081")
    metric = gland("bore 57.15 mm, depth 2.0574 ± 0.05 mm")
    assert metric.across is not None and metric.depth is not None
    assert metric.across.nominal_inch == pytest.approx(2.250)
    assert metric.depth.tolerance_inch == pytest.approx(0.05 / 25.4)
    assert gland("outside 3.2, depth 0.077") == gland("groove OD 3.2, depth 0.077")
    assert gland("inside 3 in") == gland("groove ID 3 in")
    assert gland("9/16-18 UNF boss") == gland("boss 9/16-18")


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "expected"),
        ("bore 2,250, depth 0,081", "decimal point"),
        ("bore, depth 0.081", 'found "bore"'),
        ("bore 2.250, bore 2.251", "twice"),
        ("bore 2.250, shaft 0.625", "expected one of bore"),
        ("depth 0.081", "expected one of bore"),
        ("bore 0, depth 0.081", "above zero"),
        ("bore 2.250 ±3, depth 0.081", "above zero"),
        ("bore -2, depth 0.081", 'found "bore -2"'),
        ("bore 2.250 cm", 'found "bore 2.250 cm"'),
        ("bore 1e3", 'found "bore 1e3"'),
        ("bore nan", 'found "bore nan"'),
        ("5/8-18 boss", "3/4-16"),
        ("bore " + "9" * 100_000, "characters"),
    ],
)
def test_nonsense_is_refused_in_one_sentence(text: str, part: str) -> None:
    with pytest.raises(GlandError) as refusal:
        gland(text)
    assert part in str(refusal.value)
    assert len(str(refusal.value)) < 260


def test_a_gland_is_whole_or_refused() -> None:
    with pytest.raises(GlandError, match="needs its dimension"):
        Gland(Form.BORE)
    with pytest.raises(GlandError, match="3/4-16"):
        Gland(Form.BOSS, thread="1/4-20")


def test_a_groove_deeper_than_its_part_is_refused() -> None:
    with pytest.raises(GlandError, match="no groove is left"):
        fit(size("-016"), gland("bore 0.2, depth 0.1"))


@given(
    st.sampled_from(all_sizes()),
    st.floats(0.25, 20),
    st.floats(0.02, 0.09),
    st.floats(0, 0.01),
    st.sampled_from(["bore", "shaft", "groove OD", "groove ID", "centre line"]),
)
def test_nominal_lies_between_what_the_tolerances_reach(
    ring: Size, across: float, depth: float, tolerance: float, form: str
) -> None:
    found = fit(ring, gland(f"{form} {across:.4f} ±{tolerance:.4f}, depth {depth:.4f} ±{tolerance:.4f}"))
    for band in (found.stretch, found.squeeze, found.fill, found.clearance_inch):
        assert band is None or band.low <= band.nominal <= band.high
    assert found.fill is None or math.isfinite(found.fill.high)
