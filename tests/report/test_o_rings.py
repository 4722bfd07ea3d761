"""What is said of an O-ring, as text and for programs."""

from __future__ import annotations

import json

import pytest

from benchcheck.mechanics.gland import GlandError
from benchcheck.mechanics.o_ring import UnknownSize
from benchcheck.mechanics.rubber import RubberError
from benchcheck.report.o_rings import answer, as_json, as_text


def test_a_size_alone() -> None:
    text = as_text(answer("-151"))
    assert text.startswith("AS568 -151\n")
    assert "2.987 ±0.024 in" in text and "75.87 ±0.61 mm" in text
    assert "  -150          0.125 in narrower inside; same section\n" in text
    assert "gland" not in text and "Shelf life" not in text
    assert text.endswith("\n") and not text.endswith("\n\n")


def test_a_ring_in_its_own_groove_and_in_the_neighbours() -> None:
    right = as_text(answer("-151", gland="groove OD 3.200, depth 0.077"))
    wrong = as_text(answer("-151", gland="groove OD 3.075, depth 0.077"))
    assert "It fits." in right
    assert "0.007 in smaller than the groove" in right
    assert "DOES NOT FIT: -151 is 0.118 in larger outside than its groove and would be pinched." in wrong
    assert "sizes that fit this gland: -150" in wrong


def test_the_gauge_marks_the_place_between_the_limits() -> None:
    line = next(
        line
        for line in as_text(answer("-137", gland="bore 2.250, depth 0.081")).splitlines()
        if line.startswith("  squeeze")
    )
    assert (
        line
        == "  squeeze   21.4 %      [-------#------------]      10 % to 40 %   tolerances 19.0 % to 23.6 %"
    )


def test_a_value_beyond_the_limits_stands_beyond_the_brackets() -> None:
    text = as_text(answer("-138", gland="bore 2.250, depth 0.081"))
    line = next(line for line in text.splitlines() if line.startswith("  stretch"))
    assert line.index("#") < line.index("[")
    assert "#" in as_text(answer("-151", gland="bore 75.87, depth 0.081"))


def test_rubber_and_shelf_life() -> None:
    text = as_text(
        answer("-129", material="EPDM", fluids=["petroleum grease", "soup"], cured="3Q2011", rule="ISO 2230")
    )
    assert "EPDM and petroleum grease: NEVER." in text
    assert "EPDM and soup: UNKNOWN." in text
    assert "EPDM keeps 10 years by ISO 2230, 5 more after inspection: last good day 2021-09-30" in text
    assert "from memory" in text


def test_a_rubber_without_a_limit() -> None:
    said = answer("-129", material="EPDM", cured="2011-08", rule="SAE ARP5316")
    assert "EPDM has no limit by SAE ARP5316" in as_text(said)
    life = as_json(said)["shelf_life"]
    assert isinstance(life, dict) and life["end"] is None


def test_the_rubber_sets_the_limit_of_stretch() -> None:
    where = "shaft 45.8 mm, depth 2.87 mm"
    assert "It fits." in as_text(answer("-224", gland=where, material="NBR"))
    assert "the limit is 3 %" in as_text(answer("-224", gland=where, material="FFKM"))


def test_json_keeps_its_shape() -> None:
    said = as_json(
        answer(
            "-151",
            gland="groove OD 3.075, depth 0.077",
            material="NBR",
            fluids=["oil"],
            cured="3Q2011",
            rule="SAE ARP5316",
        )
    )
    assert json.loads(json.dumps(said)) == said
    assert list(said) == [
        "size",
        "inside_diameter",
        "inside_diameter_tolerance",
        "section",
        "section_tolerance",
        "outside_diameter",
        "look_alikes",
        "fit",
        "fluids",
        "shelf_life",
        "assumptions",
        "sources",
    ]
    assert said["size"] == "-151"
    assert said["inside_diameter"] == {"value": 2.987, "unit": "in"}
    assert said["section"] == {"value": 0.103, "unit": "in"}
    fit, life = said["fit"], said["shelf_life"]
    assert isinstance(fit, dict) and isinstance(life, dict)
    assert fit["fits"] is False
    assert fit["clearance"] == {"value": -0.118, "unit": "in"}
    assert [one["misfit"] for one in fit["misfits"]] == ["pinched"]
    assert fit["sizes_that_fit"] == ["-150"]
    assert life["end"] == "2026-09-30"


def test_a_boss_has_no_squeeze_to_show() -> None:
    said = answer("-906", gland="9/16-18 boss")
    assert "It fits." in as_text(said)
    assert "memory of SAE J1926-1" in as_text(said)
    fit = as_json(said)["fit"]
    assert isinstance(fit, dict) and fit["squeeze"] is None and fit["fits"] is True


def test_refusals_pass_through() -> None:
    with pytest.raises(UnknownSize):
        answer("-179")
    with pytest.raises(GlandError):
        answer("-151", gland="hole 3")
    with pytest.raises(RubberError, match="name it"):
        answer("-151", fluids=["oil"])
    with pytest.raises(RubberError, match="cure date and a rule"):
        answer("-151", material="NBR", cured="2011-08")
