"""What stands in the way of what: each reason by a pump that has nothing else, and all on the main one."""

from __future__ import annotations

from benchcheck.assembly.acts import all_acts
from benchcheck.assembly.bars import holding, in_the_way_of
from benchcheck.assembly.planned import BUILDS, planned
from benchcheck.assembly.state import Assembly
from tests.pumps import CAN, built, can_with, main_job, tiny_pump

TUBE = """
[[part]]
id = "body"
ends = ["top", "bottom"]

[[part]]
id = "deep"
into = "body"
from = "top"

[[part]]
id = "high"
into = "body"
from = "top"

[[part]]
id = "low"
into = "body"
from = "bottom"

[[part]]
id = "plug"
into = "body"
from = "side"

[[part]]
id = "jet"
into = "body"
from = "top"
hole = "jet"

[[part]]
id = "jet-cap"
into = "body"
from = "top"
hole = "jet"

[[part]]
id = "clip"
into = "body"
from = "bottom"
holds = ["deep"]

[[fasteners]]
id = "F-deep"
into = "body"
from = "top"
holds = ["deep"]

[[fasteners]]
id = "F-side"
into = "body"
from = "side"
holds = ["deep"]

[[fasteners]]
id = "F-jet"
into = "body"
from = "top"
hole = "jet"
holds = ["jet"]

[[step]]
id = "all-in"
parts = ["deep", "high", "low", "plug", "jet", "jet-cap", "clip"]
"""
SHAFT = """
[[part]]
id = "body"
ends = ["top", "bottom"]

[[part]]
id = "shaft"
ends = ["thread", "drive"]
into = "body"
from = "top"
shows = "drive"
through = true
under = "guard"

[[part]]
id = "gear"
into = "shaft"
from = "drive"

[[part]]
id = "wheel"
into = "shaft"
from = "thread"

[[part]]
id = "seal"
into = "body"
from = "bottom"

[[part]]
id = "guard"
into = "shaft"
from = "thread"
temporary = true

[[part]]
id = "cover"
into = "body"
from = "top"

[[step]]
id = "all-in"
parts = ["gear", "guard", "shaft", "seal", "wheel", "cover"]
"""


def ways(now: Assembly, thing: str) -> set[str]:
    return set(in_the_way_of(now, thing))


# ---------------------------------------------------------------------- 1. what holds


def test_a_group_bars_what_it_holds() -> None:
    now = built(tiny_pump(CAN), "lip", "cover")
    assert ways(now, "cover") == set()
    assert ways(now.started("F"), "cover") == {"F"}


def test_a_part_bars_what_it_holds_from_any_side() -> None:
    assert ways(built(tiny_pump(TUBE), "deep", "clip"), "deep") == {"clip"}


def test_what_came_before_the_thing_does_not_hold_it() -> None:
    assert ways(built(tiny_pump(TUBE), "clip", "deep"), "deep") == set()


def test_a_holder_that_rides_on_the_thing_does_not_bar_it() -> None:
    text = TUBE.replace(
        'id = "clip"\ninto = "body"\nfrom = "bottom"', 'id = "clip"\ninto = "deep"\nfrom = "side"'
    )
    now = built(tiny_pump(text), "deep", "clip")
    assert holding(now, "deep") == () and ways(now, "deep") == set()


# ---------------------------------------------------------------------- 2. what carries


def test_what_was_built_off_the_pump_is_taken_apart_off_the_pump() -> None:
    pump = main_job().pump("-05")
    now = built(pump, "ball", "spring", "cap")
    assert "plate" not in ways(now, "ball")
    assert "plate" in ways(built(pump, "ball", "spring", "cap", "plate"), "ball")


def test_what_was_put_on_after_its_carrier_went_in_comes_off_before_it() -> None:
    pump = main_job().pump("-05")
    assert "plate" not in ways(built(pump, "plate", "fitting-p"), "fitting-p")


def test_the_leading_end_of_a_part_that_goes_through_is_free_at_the_far_side() -> None:
    now = built(tiny_pump(SHAFT), "guard", "shaft")
    assert "shaft" not in ways(now, "guard")
    short = built(tiny_pump(SHAFT.replace("through = true\n", "")), "guard", "shaft")
    assert "shaft" in ways(short, "guard")


# ---------------------------------------------------------------------- 3. what joined later


def test_the_later_part_from_the_same_end_covers_the_earlier() -> None:
    now = built(tiny_pump(TUBE), "deep", "high")
    assert ways(now, "deep") == {"high"} and ways(now, "high") == set()


def test_from_the_other_end_or_from_the_side_nothing_covers() -> None:
    now = built(tiny_pump(TUBE), "deep", "low", "plug")
    assert ways(now, "deep") == ways(now, "low") == ways(now, "plug") == set()


def test_a_part_with_a_hole_of_its_own_covers_only_what_shares_it() -> None:
    now = built(tiny_pump(TUBE), "deep", "jet", "jet-cap")
    assert ways(now, "deep") == set()
    assert ways(now, "jet") == {"jet-cap"}


def test_a_part_without_a_hole_covers_also_what_has_one() -> None:
    assert ways(built(tiny_pump(TUBE), "jet", "high"), "jet") == {"high"}


def test_a_part_that_came_with_its_carrier_does_not_cover_the_carrier_does() -> None:
    """The valve in the end plate is no bar to the rotors under it: the plate is."""
    pump = main_job().pump("-05")
    now = built(pump, "ring", "rotor-outer", "ball", "spring", "cap", "plate")
    assert ways(now, "rotor-outer") == {"plate"}


def test_what_joined_with_its_carrier_joined_when_the_carrier_did() -> None:
    """A lip pressed into its cartridge first, and a ring over the cartridge later."""
    pump = main_job().pump("-05")
    now = built(pump, "main-lip", "cartridge", "ir-cart")
    assert ways(now, "cartridge") == {"ir-cart"}
    assert "cartridge" in ways(now, "main-lip")


# ---------------------------------------------------------------------- 4. what was put on at the far end


def test_a_shaft_is_held_by_what_is_on_its_far_end() -> None:
    now = built(tiny_pump(SHAFT), "gear", "shaft", "wheel")
    assert ways(now, "shaft") == {"wheel"}, "the gear rides on the end that comes out first"


def test_the_tool_that_a_part_comes_out_under_rides_on_it() -> None:
    assert ways(built(tiny_pump(SHAFT), "shaft", "guard"), "shaft") == set()


# ---------------------------------------------------------------------- 5. groups, and rings


def test_a_group_is_covered_at_its_end_like_a_part() -> None:
    now = built(tiny_pump(TUBE), "deep", "F-deep", "high")
    assert ways(now, "F-deep") == {"high"}
    assert ways(built(tiny_pump(TUBE), "deep", "high", "F-deep"), "F-deep") == set()


def test_a_group_at_the_side_is_never_covered_and_one_in_a_hole_by_its_hole() -> None:
    assert ways(built(tiny_pump(TUBE), "deep", "F-side", "high"), "F-side") == set()
    assert ways(built(tiny_pump(TUBE), "jet", "F-jet", "jet-cap"), "F-jet") == {"jet-cap"}


def test_a_ring_bars_nothing_and_is_reached_through_the_part_that_hid_it() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover")
    assert ways(now, "lip") == {"cover"}
    assert ways(now, "G") == {"cover"}
    assert ways(built(tiny_pump(CAN), "lip", "G"), "G") == set()


def test_a_ring_is_hidden_behind_its_part_also_while_the_group_that_presses_it_is_slack() -> None:
    pump = tiny_pump(can_with(('material = "NBR"', 'material = "NBR"\nclosed_by = "F"')))
    assert ways(built(pump, "G", "cover", "F").loosened("F"), "G") == {"cover"}


def test_a_ring_is_reached_through_whatever_brought_its_sides_together_last() -> None:
    """G5 lies in the plate, against the rotor ring: whichever came last hid it."""
    pump = main_job().pump("-05")
    assert ways(built(pump, "ring", "G5", "plate"), "G5") == {"plate"}
    assert ways(built(pump, "G6", "needle", "plate"), "G6") == {"needle"}, (
        "in one work since the needle went in"
    )


def test_what_is_not_in_place_has_nothing_in_its_way() -> None:
    now = built(tiny_pump(CAN), "lip")
    assert ways(now, "cover") == ways(now, "F") == ways(now, "G") == set()


# ---------------------------------------------------------------------- all of them


def test_what_bars_is_always_later_than_what_it_bars_at_every_act_of_the_main_pump() -> None:
    """So that taking apart in reverse is always legal, and there is no circle."""
    pump = main_job().pump("-05")
    now = Assembly(pump)
    for act in all_acts(pump):
        if act.phase not in BUILDS or (act.target in now.seated and act.verb.value == "install"):
            continue
        now = planned(now, act)
        order = {part: seat.sequence for part, seat in now.seated.items()}
        order |= {group: hold.sequence for group, hold in now.held.items()}
        for thing, place in order.items():
            assert all(order[bar] > place for bar in in_the_way_of(now, thing)), (act.id, thing)


def test_the_stack_of_the_finished_main_pump_is_what_bars_what() -> None:
    from benchcheck.assembly.planned import as_found

    now = as_found(main_job().pump("-05"))
    assert ways(now, "volute") == {"F2"}
    assert ways(now, "nut") == {"volute", "F3"}
    assert "volute" in ways(now, "F3")
    assert ways(now, "plate") == {"F1"}
    assert ways(now, "fitting-p") == {"F5"}
    assert {"nut", "impeller", "sleeve", "head"} <= ways(now, "shaft"), "on its far end"
    assert "seat" not in ways(now, "shaft"), "the seat stays in the body"
