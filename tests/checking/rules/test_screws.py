"""Screws in their holes, and what an angle makes of them: too long, too short, turned too far."""

from __future__ import annotations

import pytest

from benchcheck.assembly.tightening import after_its_angle
from benchcheck.checking.screws import length_in
from benchcheck.procedure.finding import Finding, Severity
from tests.checking.small_pump import assert_as_marked, changed, findings, parsed, rules_found, small_pump
from tests.pumps import ROOT

SCREWS = 'screws = [{ item = "M6 x 20" }]'
TORQUE = 'torque = { target = "7 N·m", tolerance = "10 %" }'
GEAR, VANE = (
    (ROOT / "procedures" / name).read_text(encoding="utf-8")
    for name in ("xmpl-gx18-b.toml", "xmpl-vv07-a.toml")
)


def screwed(item: str, grip: str, hole: str, mark: str = "") -> str:
    return small_pump((SCREWS, f'screws = [{{ item = "{item}", grip = "{grip}" }}]{mark}\ntapped = {hole}'))


def one(text: str, *consequences: str) -> Finding:
    (finding,) = assert_as_marked(text, *consequences)
    return finding


# The length follows the thread: in millimetres behind a metric one, else in inches.
@pytest.mark.parametrize(
    ("item", "millimetre"),
    [
        ("M8 x 60", 60),
        ("M6x20", 20),
        ("M6x1x20", 20),
        ("M10 x 90, 10.9", 90),
        ("hexagon screw M6 × 25, 8.8", 25),
        ("5/16-18 x 2-3/4", 2.75 * 25.4),
        ("5/16-18 x 3", 3 * 25.4),
        ("1/4-20 UNC x 3/4", 0.75 * 25.4),
        ("M6", None),
        ("nut M10, A4-70", None),
        ("cover screw", None),
        ("M40 x 1.5", None),
    ],
)
def test_the_length_that_the_stores_tell(item: str, millimetre: float | None) -> None:
    assert length_in(item) == (pytest.approx(millimetre) if millimetre is not None else None)


def test_a_screw_on_the_bottom_of_its_hole() -> None:
    mark = '  # ← screw-bottoms at "M6 x 30"'
    finding = one(screwed("M6 x 30", "10 mm", '{ depth = "14 mm" }', mark))
    assert finding.severity is Severity.ERROR and "20 mm into `body`" in finding.message


def test_a_screw_that_does_not_reach_its_thread() -> None:
    mark = '  # ← thread-engagement-short at "M6 x 20"'
    finding = one(screwed("M6 x 20", "20 mm", '{ depth = "14 mm" }', mark))
    assert finding.severity is Severity.ERROR and "does not reach" in finding.message


# A hole that shears 0.875 · π d L (FED-STD-H28/2B) at 0.6 of its tensile strength holds a screw of 20.1 mm²
# and 800 MPa (ISO 898-1) on 16.1 kN / (16.5 mm · 0.6 · 250 MPa) = 6.5 mm.
@pytest.mark.parametrize(
    ("grip", "hole", "short"),
    [
        ("13 mm", '{ depth = "14 mm", tensile_strength = "250 MPa" }', False),
        ("14 mm", '{ depth = "14 mm", tensile_strength = "250 MPa" }', True),
        ("12 mm", '{ depth = "14 mm", tensile_strength = "150 MPa" }', True),
        # without a strength: one diameter, common practice
        ("14 mm", '{ depth = "14 mm" }', False),
        ("14.5 mm", '{ depth = "14 mm" }', True),
        ("6 mm", '{ depth = "14 mm" }', False),
    ],
)
def test_a_thread_that_strips_before_the_screw_breaks(grip: str, hole: str, short: bool) -> None:
    mark = '  # ← thread-engagement-short at "M6 x 20"' if short else ""
    for finding in assert_as_marked(screwed("M6 x 20", grip, hole, mark)):
        assert finding.severity is Severity.WARNING


@pytest.mark.parametrize("screws", [SCREWS, 'screws = [{ item = "cover screw", grip = "10 mm" }]'])
def test_what_is_not_told_is_not_judged(screws: str) -> None:
    assert rules_found(small_pump((SCREWS, f'{screws}\ntapped = {{ depth = "1 mm" }}'))) == []


def test_long_and_short_screws_exchanged_on_the_gear_pump() -> None:
    corner, middle = '"M8 x 60", at = [1, 4, 5, 8]', '"M8 x 75", at = [2, 3, 6, 7]'
    text = changed(GEAR, (corner, corner.replace("60", "75  ").strip()), (middle, middle.replace("75", "60")))
    found = findings(text.replace("75  ", "75"))
    assert [each.rule for each in found] == ["screw-bottoms", "thread-engagement-short"]
    # 60 mm through 56 mm
    assert "goes 4 mm into" in found[1].message


# Screw 170 N/µm, joint four times as stiff, pitch 1.5 mm: 45° add 25.5 kN to the 13.3 kN of 20 N·m, together
# 81 % of 48.1 kN (our own demonstration data; proof load: ISO 898-1).
@pytest.mark.parametrize(("degree", "share"), [("45", 0.807), ("50", 0.866), ("60", 0.984)])
def test_what_the_screws_of_the_vane_pump_bear_after_their_angle(degree: str, share: float) -> None:
    group = parsed(changed(VANE, ('add = "45 °"', f'add = "{degree} °"'))).model.fasteners[0]
    predicted = after_its_angle(group)
    assert predicted is not None
    least, planned, most = predicted
    assert planned.share_of_proof == pytest.approx(share, abs=0.003)
    assert least.share_of_proof < share < most.share_of_proof
    assert planned.margin_to_yield == pytest.approx(1 - planned.preload_newton / (940 * 58.0), abs=0.003)


@pytest.mark.parametrize(
    ("degree", "severity", "said"),
    [("60", Severity.WARNING, "98 %"), ("90", Severity.ERROR, "beyond what makes it yield")],
)
def test_an_angle_that_is_too_large(degree: str, severity: Severity, said: str) -> None:
    told = f'add = "{degree} °", tolerance = "5 °", stiffness_ratio = 4.0 }}'
    mark = f'  # ← angle-too-large at "{degree} °"'
    text = changed(VANE, ('add = "45 °", tolerance = "5 °", stiffness_ratio = 4.0 }', told + mark))
    finding = one(text)
    assert finding.severity is severity and said in finding.message


def test_an_angle_that_makes_too_little_says_why() -> None:
    told = 'add = "15 °", tolerance = "5 °", stiffness_ratio = 4.0 }'
    mark = '  # ← angle-too-small at "15 °"'
    old = 'add = "45 °", tolerance = "5 °", stiffness_ratio = 4.0 }'
    # 13.3 kN and a third of 25.5 kN: 45 %
    assert "45 %" in one(changed(VANE, (old, told + mark))).message
    why = '\nlow_because = "the soft cover is the limit"'
    assert rules_found(changed(VANE, (old, told + why))) == []


@pytest.mark.parametrize(
    ("old", "new", "missing"),
    [('grip = "70 mm", ', "", "`grip`"), (", stiffness_ratio = 4.0", "", "`stiffness_ratio`")],
)
def test_an_angle_that_nothing_proves(old: str, new: str, missing: str) -> None:
    text = changed(VANE, (old, new), ('add = "45 °"', 'add = "45 °"'))
    (line,) = [each for each in text.splitlines() if each.startswith("angle = ")]
    finding = one(changed(text, (line, f'{line}  # ← angle-not-judged at "45 °"')))
    assert finding.severity is Severity.ADVICE and missing in finding.remedy
