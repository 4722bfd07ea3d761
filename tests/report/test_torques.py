"""What is said of a torque or a preload, as text and for programs."""

from __future__ import annotations

import json
from typing import Any

import pytest

from benchcheck.report.torques import REFUSALS, answer, as_json, same_number_elsewhere
from benchcheck.report.torques_as_text import as_text

# Our own demonstration data: HC40 F1.
END_PLATE: dict[str, Any] = {"torque": "16 lbf·ft", "nut_factor": 0.15, "tolerance": "10 %"}


def test_a_torque_and_its_preload() -> None:
    said = answer("5/16-18 UNC", "SAE J429 8", **END_PLATE)
    numbers = as_json(said)
    json.dumps(numbers)
    assert numbers["torque"] == {"value": 16.0, "unit": "lbf·ft"}
    assert numbers["preload"] == {"value": 4096.0, "unit": "lbf"}
    assert numbers["share_of_proof"] == 0.651
    assert numbers["judgement"] == "usual"
    # 3686.4 lbf and 4505.6 lbf at the limits, ±30 % of scatter beyond
    assert numbers["preload_low"] == {"value": pytest.approx(0.9 * 4096 * 0.7, abs=0.05), "unit": "lbf"}
    assert numbers["preload_high"] == {"value": pytest.approx(1.1 * 4096 * 1.3, abs=0.05), "unit": "lbf"}
    assert numbers["sources"] == ["stress area: ASME B1.1", "strength: SAE J429 8", "short form T = K d F"]


def test_the_scale_shows_where_the_preload_lies() -> None:
    text = as_text(answer("5/16-18 UNC", "SAE J429 8", **END_PLATE, method="torque, lubricated"))
    assert text.splitlines() == [
        "5/16-18 UNC, SAE J429 8, nut factor 0.15",
        "  torque      16 lbf·ft (21.69 N·m), 14.4 to 17.6 lbf·ft with ±10 %",
        "  preload     4096 lbf, 2765 to 5632 lbf with tolerance and scatter",
        "  proof load  6292 lbf",
        "  share       65.1 % of proof load, in the usual range",
        "",
        "  0 %         25 %         50 %         75 %        100 % of proof load",
        "  -------------------------[-------------------]----|----------",
        "                        ...........#............",
        "",
        "The same number read in another unit, as a share of proof load",
        "  N·m 48 %, lbf·in 5 %, kgf·m 471 %, kgf·cm 5 %",
        "",
        "Assumed",
        "  scatter ±25 % for torque, lubricated: space agency preload criteria (from memory)",
        "",
        "Sources",
        "  stress area: ASME B1.1",
        "  strength: SAE J429 8",
        "  short form T = K d F",
    ]


def test_a_weaker_screw_is_over_proof_at_the_top() -> None:
    said = answer("5/16-18 UNC", "SAE J429 5", **END_PLATE)
    assert said.judgement == "over proof load"
    assert "OVER PROOF LOAD" in as_text(said)
    assert as_text(said).count("►") == 1


def test_a_preload_and_its_torque() -> None:
    back = answer("5/16-18 UNC", "SAE J429 8", preload="4096 lbf", nut_factor=0.15)
    assert as_json(back)["torque"] == {"value": 16.0, "unit": "lbf·ft"}
    metric = answer("M8", "8.8", preload="15 kN", nut_factor=0.15)
    # GX18 of our own demonstration data: 18 N·m, 70.6 %
    assert as_json(metric)["torque"] == {"value": 18.0, "unit": "N·m"}
    assert as_json(metric)["share_of_proof"] == pytest.approx(0.706, abs=5e-4)


def test_a_condition_gives_a_band_and_no_number() -> None:
    said = answer("M8", "8.8", torque="18 N·m", condition="oiled")
    numbers = as_json(said)
    assert numbers["preload"] is None and numbers["share_of_proof"] is None and numbers["judgement"] is None
    # 18/(0.18 · 0.008) and 18/(0.15 · 0.008)
    assert numbers["preload_low"] == {"value": 12500.0, "unit": "N"}
    assert numbers["preload_high"] == {"value": 15000.0, "unit": "N"}
    assert numbers["same_number_in"] == []
    assert "only the published band can be said" in as_text(said)
    assert "#" not in as_text(said)
    other_way = as_json(answer("M8", "8.8", preload="15 kN", condition="oiled"))
    assert other_way["torque"] is None
    assert other_way["torque_low"] == {"value": 18.0, "unit": "N·m"}
    assert other_way["torque_high"] == {"value": 21.6, "unit": "N·m"}


def test_friction_gives_the_nut_factor_it_amounts_to() -> None:
    # a textbook problem: M10, μ 0.15, D_km 13.1 mm: K 0.200 (derived)
    said = answer(
        "M10", "8.8", torque="35 N·m", thread_friction=0.15, bearing_friction=0.15, bearing_diameter="13.1 mm"
    )
    assert "(nut factor 0.200)" in said.friction.words
    assert as_json(said)["preload"] == {"value": pytest.approx(17_480, abs=20), "unit": "N"}
    assumed = answer("M10", "8.8", torque="35 N·m", thread_friction=0.15, bearing_friction=0.15)
    assert "mean bearing diameter 1.3 d = 13.0 mm: common practice" in assumed.assumptions


def test_what_comes_after_the_torque() -> None:
    # VV07 of our own demonstration data: 20 N·m, then 45°: 81 %; and a running torque that is always added
    said = answer(
        "M10", "10.9", torque="20 N·m", nut_factor=0.15,
        angle="45°", screw_stiffness="170 N/µm", joint_stiffness="680 N/µm",
        running_torque="3 N·m", running_rule="always", engagement="9 mm", tapped_strength="310 MPa",
    )  # fmt: skip
    text = as_text(said)
    assert "After 45°: 38830 N, 81 % of proof load, 29 % left to yield" in text
    assert "Set 23 N·m with the running torque" in text
    assert "Engaged over 0.9 diameters: first the tapped thread strips" in text
    numbers: Any = as_json(said)
    assert numbers["set_to"] == {"value": 23.0, "unit": "N·m"}
    assert numbers["after_angle"]["share_of_proof"] == pytest.approx(0.807, abs=5e-4)
    assert numbers["engagement"]["first_to_fail"] == "tapped thread strips"
    yielded = answer(
        "M10", "10.9", torque="20 N·m", nut_factor=0.15, angle="90°", screw_stiffness="170 N/µm",
        joint_stiffness="680 N/µm",
    )  # fmt: skip
    assert "YIELDED" in as_text(yielded)


def test_values_from_memory_are_marked() -> None:
    said = answer("M6", "A4-70", torque="5 N·m", nut_factor=0.15)
    assert "yield of ISO 3506-1 A4-70 from memory of the standard" in said.assumptions
    assert as_json(said)["share_of_proof"] == pytest.approx(0.614, abs=5e-4)


def test_an_unlikely_thread_is_said() -> None:
    said = answer("5/16-24", "SAE J429 8", torque="16 lbf·ft", nut_factor=0.15)
    assert any("the coarse one is 5/16-18 UNC" in line for line in said.assumptions)


def test_a_slip_of_unit_shows() -> None:
    shares = dict(same_number_elsewhere(answer("5/16-18", "SAE J429 8", torque="16 N·m", nut_factor=0.15)))
    assert shares["lbf·ft"] == pytest.approx(0.651, abs=1e-3)


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"torque": "16"}, "has no unit"),
        ({"torque": "0 N·m"}, "tightens nothing"),
        ({"torque": "16 kN"}, "expected a torque"),
        ({"tolerance": "10"}, 'for example "10 %"'),
        ({"tolerance": "10 mm"}, "expected a share or a torque"),
        ({"nut_factor": 2.0}, "between 0 and 1"),
        ({"nut_factor": float("nan")}, "between 0 and 1"),
        ({"nut_factor": None}, "says nothing of preload"),
        ({"condition": "oiled"}, "says nothing of preload"),
        ({"nut_factor": None, "condition": "slimy"}, "expected one of dry"),
        ({"nut_factor": None, "thread_friction": 0.1}, "needs both"),
        ({"nut_factor": None, "thread_friction": 0.1, "bearing_friction": 9.0}, "between 0 and 1"),
        ({"preload": "3 kN"}, "either a torque or a preload"),
        ({"torque": None}, "either a torque or a preload"),
        ({"method": "feeling"}, "expected one of torque, lubricated"),
        ({"running_torque": "2 N·m"}, "a rule"),
        ({"running_torque": "2 N·m", "running_rule": "maybe"}, 'found rule "maybe"'),
        (
            {"torque": None, "preload": "3 kN", "nut_factor": None, "condition": "dry", "tolerance": None,
             "running_torque": "2 N·m", "running_rule": "always"},
            "give a nut factor",
        ),
        ({"angle": "45°"}, "needs the stiffness"),
        ({"angle": "-45°", "screw_stiffness": "1 N/mm", "joint_stiffness": "1 N/mm"}, "turns backwards"),
        (
            {"nut_factor": None, "condition": "dry", "angle": "45°", "screw_stiffness": "1 N/mm",
             "joint_stiffness": "1 N/mm"},
            "give a nut factor",
        ),
        ({"angle": "45°", "screw_stiffness": "0 N/mm", "joint_stiffness": "1 N/mm"}, "stiffness of 0"),
        ({"engagement": "9 mm"}, "tensile strength of the tapped part"),
        ({"engagement": "0 mm", "tapped_strength": "310 MPa"}, "engagement of 0 mm"),
    ],
)  # fmt: skip
def test_nonsense_is_refused_in_one_sentence(changes: dict[str, Any], said: str) -> None:
    with pytest.raises(REFUSALS) as refusal:
        answer("5/16-18 UNC", "SAE J429 8", **(END_PLATE | changes))
    assert said in str(refusal.value)
    assert "\n" not in str(refusal.value)
