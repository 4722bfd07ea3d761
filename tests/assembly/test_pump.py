"""A procedure as it reads for one variant: who counts, who holds whom, and which end is to be seen."""

from __future__ import annotations

import pytest

from tests.pumps import CAN, can_with, main_job, tiny_pump

TWO_SIZES = """
[[part]]
id = "body"
ends = ["top", "bottom"]

[[part]]
id = "plug"
into = "body"
from = "side"
for = ["L"]

[[part]]
id = "cap"
ends = ["face", "rear"]
into = "body"
from = "top"
shows = { R = "face", L = "rear" }

[[groove]]
id = "G"
in = "cap"
where = "rear"
against = "body"
takes = { R = "-110", L = "-111" }
material = "NBR"

[[step]]
id = "plug-in"
part = "plug"
for = ["L"]

[[step]]
id = "cap-on"
rings = ["G"]
part = "cap"
"""


def test_what_is_for_another_variant_does_not_count() -> None:
    right, left = (tiny_pump(TWO_SIZES, each, variants=["R", "L"]) for each in ("R", "L"))
    assert "plug" not in right.parts and "plug" in left.parts
    assert [step.id for step in right.steps] == ["cap-on"]
    assert [step.id for step in left.steps] == ["plug-in", "cap-on"]
    assert (right.value(right.grooves["G"].takes), left.value(left.grooves["G"].takes)) == ("-110", "-111")
    assert (right.planned_seen["cap"], left.planned_seen["cap"]) == ("face", "rear")


def test_parts_are_held_by_their_own_group_and_by_parts_that_hold() -> None:
    pump = main_job().pump("-05")
    assert set(pump.holders["bearing"]) == {"er-shaft", "ir-brg"}
    assert pump.holders["nut"] == ("F3",)
    assert set(pump.sets["face seal pair"]) == {"seat", "head"}


def test_the_finished_pump_needs_all_but_its_body_and_the_tools() -> None:
    pump = main_job().pump("-05")
    needed = set(pump.needed())
    assert not needed & {"body", "guard"}
    assert needed | {"body", "guard"} == set(pump.parts)


def test_the_end_to_be_seen_is_worked_out_of_must_face_where_it_is_not_said() -> None:
    unsaid = tiny_pump(can_with(('shows = "mouth"\n', "")))
    assert unsaid.planned_seen["lip"] == "mouth"
    turned = tiny_pump(
        can_with(
            ('shows = "mouth"\n', ""), ('end = "mouth", toward = "top"', 'end = "mouth", toward = "bottom"')
        )
    )
    assert turned.planned_seen["lip"] == "back"


@pytest.mark.parametrize(
    ("from_end", "seen", "turn"),
    # The end that faces the fitter is the end of the body it goes in from.
    [("top", "mouth", 1), ("top", "back", -1), ("bottom", "mouth", -1), ("bottom", "back", 1)],
)
def test_a_part_is_turned_when_its_seen_end_and_the_end_it_goes_in_from_disagree(
    from_end: str, seen: str, turn: int
) -> None:
    assert tiny_pump(CAN).turn("lip", from_end, seen) == turn


def test_across_the_axis_a_part_has_no_say() -> None:
    pump = tiny_pump(TWO_SIZES, "L", variants=["R", "L"])
    assert pump.turn("plug", "side", "") == 0
    assert not pump.along_axis("plug") and pump.along_axis("cap")


def test_a_sentence_names_a_part_by_its_name() -> None:
    pump = main_job().pump("-05")
    assert pump.the("main-lip") == "the main lip seal"
    assert pump.the("G4") == "G4"
    assert pump.the("F1") == "the end plate screws"
