"""The pump in motion: what dies when it is opened or disturbed, and how far a fastener group is."""

from __future__ import annotations

from benchcheck.assembly.planned import planned_install
from benchcheck.assembly.state import Assembly
from tests.pumps import CAN, built, can_with, main_job, tiny_pump


def tightened(now: Assembly, *positions: int) -> Assembly:
    for position in positions:
        now = now.tightened("F", position, rounds=2, count=4, has_pass=True)
    return now


# ---------------------------------------------------------------------- works


def test_parts_in_one_work_share_their_lowest_body() -> None:
    now = built(tiny_pump(CAN), "lip")
    assert now.root("lip") == "body"
    assert now.in_one_work("lip", "body") and not now.in_one_work("lip", "cover")
    assert now.present("lip") and not now.present("cover")
    assert list(now.chain("lip")) == ["lip", "body"]


def test_a_body_takes_along_what_it_carries() -> None:
    pump = main_job().pump("-05")
    now = built(pump, "main-lip", "excluder", "cartridge")
    assert set(now.carried_by("cartridge")) == {"main-lip", "excluder"}
    out = now.removed("cartridge")
    assert out.root("main-lip") == "cartridge"


def test_a_part_that_goes_in_loses_its_own_pose() -> None:
    now = built(tiny_pump(CAN)).turned_up("cover", "face").turned_up("body", "top")
    assert planned_install(now, "cover").poses == {"body": "top"}


# ---------------------------------------------------------------------- rings


def test_a_groove_is_closed_by_the_part_that_covers_it() -> None:
    now = built(tiny_pump(CAN), "G")
    assert not now.closed("G")
    assert planned_install(now, "cover").closed("G")


def test_a_groove_may_need_its_group_tight_to_be_closed_and_is_hidden_all_the_same() -> None:
    pump = tiny_pump(can_with(('material = "NBR"', 'material = "NBR"\nclosed_by = "F"')))
    now = built(pump, "G", "cover", "F")
    assert now.hidden("G") and not now.closed("G")
    assert tightened(now, 1, 3, 2, 4).closed("G")


def test_a_ring_dies_when_its_closed_groove_is_opened() -> None:
    now = built(tiny_pump(CAN), "G", "cover")
    assert now.living_rings("G")
    assert not now.removed("cover").living_rings("G")


def test_a_ring_lifted_before_anything_closed_on_it_was_never_used_up() -> None:
    now = built(tiny_pump(CAN), "G")
    assert not any(ring.dead for ring in now.sealed["G"])
    assert now.lifted("G").sealed == {}


def test_a_new_ring_takes_the_place_of_a_dead_one() -> None:
    now = built(tiny_pump(CAN), "G", "cover").removed("cover").fitted("G", "-110", "NBR")
    assert len(now.sealed["G"]) == 1 and now.living_rings("G")


def test_two_living_rings_stay_two() -> None:
    assert len(built(tiny_pump(CAN), "G").fitted("G", "-110", "NBR").living_rings("G")) == 2


# ---------------------------------------------------------------------- single-use parts


def test_once_disturbed_a_part_is_dead_as_it_comes_out() -> None:
    now = built(tiny_pump(CAN), "lip")
    assert not now.is_dead("lip")
    assert now.removed("lip").is_dead("lip")


def test_once_fitted_a_part_is_dead_at_once_and_right_there() -> None:
    now = built(tiny_pump(can_with(("once disturbed", "once fitted"))), "lip")
    assert now.is_dead("lip") and not now.used_up("lip")


def test_once_run_a_part_may_come_out_until_the_pump_has_run() -> None:
    now = built(tiny_pump(can_with(("once disturbed", "once run"))), "lip")
    assert not now.removed("lip").is_dead("lip")
    assert now.ran().removed("lip").is_dead("lip")


def test_a_part_that_stayed_outside_did_not_run() -> None:
    now = built(tiny_pump(can_with(("once disturbed", "once run")))).ran()
    assert not planned_install(now, "lip").removed("lip").is_dead("lip")


def test_a_new_one_is_alive() -> None:
    now = built(tiny_pump(CAN), "lip").removed("lip").replaced("lip")
    assert not now.is_dead("lip") and now.instance("lip") == 1


def test_a_set_dies_together_also_the_half_that_is_in() -> None:
    now = built(main_job().pump("-05"), "shaft", "seat", "sleeve", "head").ran().removed("head")
    assert now.is_dead("seat") and now.used_up("seat")
    assert now.replaced("head").instance("seat") == 0, "the seat is still in: the old one"


def test_fasteners_that_were_tight_and_are_single_use_die_when_they_come_loose() -> None:
    pump = main_job().pump("-05")
    now = built(pump, "shaft", "impeller", "washer", "nut", "F3")
    assert not now.loosened("F3").is_dead("nut"), "only run in by hand"
    tight = now.tightened("F3", 1, rounds=1, count=1, has_pass=False)
    assert tight.loosened("F3").is_dead("nut")


def test_what_was_never_in_does_not_die_by_being_struck_from_the_record() -> None:
    now = built(tiny_pump(CAN), "lip").never_in("lip")
    assert "lip" not in now.seated and not now.is_dead("lip")


def test_a_rejected_part_is_replaced_at_once_unless_it_is_in() -> None:
    now = built(tiny_pump(CAN)).rejected("lip")
    assert now.instance("lip") == 1 and not now.is_dead("lip")
    held = built(tiny_pump(CAN), "lip").rejected("lip")
    assert held.instance("lip") == 0 and held.used_up("lip")


# ---------------------------------------------------------------------- fasteners


def test_a_round_is_complete_when_each_position_is_done() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), 1, 3, 2)
    assert (now.held["F"].rounds, now.held["F"].done) == (0, (1, 3, 2))
    assert (tightened(now, 4).held["F"].rounds, tightened(now, 4).held["F"].done) == (1, ())


def test_a_group_with_a_pass_is_through_only_after_it() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), *(1, 3, 2, 4) * 2)
    assert now.held["F"].rounds == 2 and not now.held["F"].passed
    for position in (1, 2, 3, 4):
        assert not now.held["F"].passed
        now = now.checked("F", position, moved=False, count=4)
    assert now.held["F"].passed


def test_one_that_moved_begins_the_pass_again_from_itself() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), *(1, 3, 2, 4) * 2)
    for position in (1, 2, 3):
        now = now.checked("F", position, moved=False, count=4)
    now = now.checked("F", 4, moved=True, count=4)
    assert now.held["F"].checked == (4,) and not now.held["F"].passed
    for position in (1, 2, 3):
        now = now.checked("F", position, moved=False, count=4)
    assert now.held["F"].passed


def test_a_pass_of_one_position_goes_on_until_it_stands() -> None:
    now = built(main_job().pump("-05"), "shaft", "impeller", "washer", "nut", "F3")
    now = now.tightened("F3", 1, rounds=1, count=1, has_pass=True)
    now = now.checked("F3", 1, moved=True, count=1)
    assert now.held["F3"].checked == () and not now.held["F3"].passed
    assert now.checked("F3", 1, moved=False, count=1).held["F3"].passed


def test_a_position_disposed_of_counts_as_done_in_every_round() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), 1, 3)
    now = now.position_disposed("F", 2, rounds=2, count=4, has_pass=True)
    assert now.held["F"].rounds == 0
    now = tightened(now, 4, 1, 3, 4)
    assert now.held["F"].rounds == 2


def test_the_last_open_position_disposed_of_completes_the_round_and_the_pass() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), 1, 3, 2)
    now = now.position_disposed("F", 4, rounds=2, count=4, has_pass=True)
    assert (now.held["F"].rounds, now.held["F"].done) == (1, ())
    now = tightened(now, 1, 3, 2)
    for position in (1, 2, 3):
        now = now.checked("F", position, moved=False, count=4)
    assert now.held["F"].passed


def test_with_all_positions_disposed_of_nothing_is_left_to_do() -> None:
    now = built(tiny_pump(CAN), "cover", "F")
    for position in (1, 2, 3, 4):
        assert not now.held["F"].passed
        now = now.position_disposed("F", position, rounds=2, count=4, has_pass=True)
    assert now.held["F"].passed


def test_a_restarted_round_begins_at_its_first_position_and_keeps_the_rounds_before() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), 1, 3, 2, 4, 1, 3).round_restarted("F")
    assert (now.held["F"].rounds, now.held["F"].done) == (1, ())


def test_the_last_position_can_be_undone() -> None:
    now = tightened(built(tiny_pump(CAN), "cover", "F"), 1, 3).last_position_undone("F")
    assert now.held["F"].done == (1,)


def test_no_motion_changes_the_assembly_it_starts_from() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover", "F")
    before = (dict(now.seated), dict(now.sealed), dict(now.held), now.dead, dict(now.instances))
    now.loosened("F").removed("cover").lifted("G").removed("lip").replaced("lip").ran()
    assert before == (now.seated, now.sealed, now.held, now.dead, now.instances)
