"""The way back to a thing: legal, complete, nothing extra; tools go on in time, what dies comes out too."""

from __future__ import annotations

import random
from functools import cache

import pytest

from benchcheck.assembly.acts import Verb
from benchcheck.assembly.state import Assembly
from benchcheck.assembly.way_back import Move, died, is_free, may_move, next_move, owed
from tests.assembly.test_bars import SHAFT
from tests.assembly.ways import built_again, gone, needless_moves, stations, targets, way_back, wrong_with_way
from tests.pumps import CAN, LOOSE, built, main_job, tiny_pump


@cache
def main_stations(variant: str) -> dict[str, Assembly]:
    return dict(stations(main_job().pump(variant)))


def off(now: Assembly, *targets: str) -> list[str]:
    """Parts and groups that come off for these, in order."""
    return [each for each in way_back(now, targets).off if each not in now.pump.grooves]


# ---------------------------------------------------------------------- on a can


def test_what_is_free_needs_no_way() -> None:
    now = built(tiny_pump(CAN), "lip")
    assert way_back(now, ("cover", "F", "G")).moves == ()
    assert next_move(now, ("cover",)) is None


def test_the_way_takes_off_what_is_in_the_way_latest_first() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover", "F")
    plan = way_back(now, ("lip",))
    assert plan.moves == (
        Move(Verb.LOOSEN, "F"),
        Move(Verb.REMOVE, "cover"),
        Move(Verb.LIFT, "G"),
        Move(Verb.REMOVE, "lip"),
    )
    assert plan.off == ("F", "cover", "G", "lip") and plan.tools == ()
    assert plan.dies == ("lip", "G") and plan.restarts == ("F",) and plan.refusals == ()


def test_a_ring_is_reached_and_one_that_was_never_pressed_does_not_die() -> None:
    now = built(tiny_pump(CAN), "lip", "G")
    assert way_back(now, ("G",)).off == ("G",) and way_back(now, ("G",)).dies == ()
    pressed = built(tiny_pump(CAN), "lip", "G", "cover")
    assert way_back(pressed, ("G",)).off == ("cover", "G") and way_back(pressed, ("G",)).dies == ("G",)


def test_a_used_up_ring_comes_out_too_though_nobody_asked_for_it() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover")
    assert way_back(now, ("cover",)).off == ("cover", "G")


def test_what_was_owed_before_is_no_part_of_another_way() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover").removed("cover")
    assert owed(now) == ("G",)
    assert way_back(now, ("lip",)).off == ("lip",)


def test_several_targets_share_one_way() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover", "F")
    assert way_back(now, ("cover", "lip")).moves == way_back(now, ("lip",)).moves


def test_what_died_is_told_by_what_was_alive() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover")
    assert died(now, now) == ()
    assert died(now, now.removed("cover").lifted("G")) == ("G",)
    assert died(built(tiny_pump(CAN), "G"), built(tiny_pump(CAN))) == ()


def test_what_may_be_fitted_once_only_is_lost_as_soon_as_it_comes_off() -> None:
    now = built(tiny_pump(CAN.replace('"once disturbed"', '"once fitted"')), "lip", "G", "cover")
    assert died(now, now.removed("cover").lifted("G").removed("lip")) == ("lip", "G")
    assert died(now, now) == ()


# ---------------------------------------------------------------------- tools


def test_a_part_that_goes_in_under_a_tool_comes_out_under_it() -> None:
    pump = tiny_pump(SHAFT)
    plan = way_back(built(pump, "shaft", "wheel"), ("shaft",))
    assert plan.moves == (
        Move(Verb.REMOVE, "wheel"),
        Move(Verb.INSTALL, "guard"),
        Move(Verb.REMOVE, "shaft"),
    )
    assert plan.tools == ("guard",) and plan.off == ("wheel", "shaft") and plan.refusals == ()


def test_a_tool_that_is_on_already_is_not_put_on_twice() -> None:
    plan = way_back(built(tiny_pump(SHAFT), "guard", "shaft"), ("shaft",))
    assert plan.moves == (Move(Verb.REMOVE, "shaft"),)


def test_a_tool_stays_on_for_what_comes_out_under_it_also_when_it_bars_another_target() -> None:
    pump = tiny_pump(SHAFT)
    now = built(pump, "seal", "guard", "shaft")
    plan = way_back(now, ("shaft", "seal"))
    assert plan.refusals == ()
    assert [move.thing for move in plan.moves][:1] == ["shaft"]
    assert is_free(gone(now, plan), "seal")


def test_a_holder_goes_on_before_the_last_one_comes_off() -> None:
    pump = tiny_pump(LOOSE)
    plan = way_back(built(pump, "lip", "S"), ("S",))
    assert plan.moves == (Move(Verb.INSTALL, "clip"), Move(Verb.LOOSEN, "S"))
    assert plan.refusals == ()
    out = way_back(built(pump, "lip", "S"), ("lip",))
    assert [move.thing for move in out.moves] == ["clip", "S", "lip"], "and rides out on what it holds"


def test_where_nothing_else_can_hold_the_way_says_that_it_cannot_be_gone() -> None:
    text = LOOSE.replace('into = "lip"\nfrom = "side"\nholds = ["lip"]', 'into = "lip"\nfrom = "side"')
    plan = way_back(built(tiny_pump(text), "lip", "S"), ("S",))
    assert [refusal.rule for refusal in plan.refusals] == ["left-loose"]


def test_a_tool_is_reached_like_any_part() -> None:
    now = built(tiny_pump(SHAFT), "guard", "shaft")
    assert way_back(now, ("guard",)).moves == (Move(Verb.REMOVE, "guard"),)


# ---------------------------------------------------------------------- the main pump, worked out by hand


def test_back_to_the_head_from_the_volute() -> None:
    now = main_stations("-05")["volute-on/install:volute"]
    plan = way_back(now, ("head",))
    assert off(now, "head") == ["volute", "F3", "nut", "washer", "impeller", "imp-key", "shims", "head"]
    assert set(plan.dies) == {"G1", "nut", "washer"}, "the face pair has not run yet"
    assert plan.restarts == ("F3",)


def test_back_to_the_cartridge_from_the_last_round_of_the_end_plate() -> None:
    now = main_stations("-05")["F1-r3/tighten:F1"]
    plan = way_back(now, ("cartridge",))
    moves = [move.thing for move in plan.moves if move.thing not in now.pump.grooves]
    assert moves == [
        "F1", "plate", "tw-rear", "rotor-outer", "rotor-inner", "rotor-key", "ring", "tw-front", "ir-brg",
        "guard", "shaft", "ir-cart", "cartridge",
    ]  # fmt: skip
    assert plan.tools == ("guard",)
    assert set(plan.dies) == {"G5", "G4", "G2", "G3", "ir-brg", "ir-cart"}
    after = gone(now, plan)
    assert {"cap", "needle"} <= set(after.seated) and after.living_rings("G6") and after.living_rings("G7")
    assert {"main-lip", "excluder"} <= set(after.seated), "the lips stay in their cartridge"


def test_back_to_the_main_lip_after_the_run() -> None:
    now = main_stations("-05")["after the run"]
    plan = way_back(now, ("main-lip",))
    assert len(off(now, "main-lip")) == 24
    assert {"head", "seat"} <= set(plan.dies), "the face pair has run"
    assert {"seat", "sleeve"} <= set(plan.off), "the half that was still in comes out too"
    assert set(plan.restarts) == {"F1", "F2", "F3"}


def test_a_replaced_pair_is_opened_without_a_run_and_lives() -> None:
    now = main_stations("-05")["F2/tighten:F2"]
    assert not {"head", "seat"} & set(way_back(now, ("head",)).dies)
    assert "seat" not in way_back(now, ("head",)).off


# ---------------------------------------------------------------------- from anywhere to anything

SAMPLE = 40


@pytest.mark.parametrize("variant", ["-05", "-07"])
def test_from_anywhere_to_anything_the_way_is_legal_complete_and_comes_home(variant: str) -> None:
    """A sample; the campaign `tests.campaigns.every_way_back` goes them all."""
    pick = random.Random(7)
    places = list(main_stations(variant).items())
    for _ in range(SAMPLE):
        name, now = pick.choice(places)
        target = pick.choice(targets(now))
        assert wrong_with_way(now, target) == [], (name, target)


def test_leaving_out_a_move_leaves_something_barred() -> None:
    pick = random.Random(11)
    places = list(main_stations("-05").items())
    for _ in range(SAMPLE // 2):
        name, now = pick.choice(places)
        target = pick.choice(targets(now))
        assert needless_moves(now, target) == [], (name, target)


def test_a_way_stopped_half_done_goes_on_from_where_it_stands() -> None:
    pick = random.Random(13)
    places = list(main_stations("-05").items())
    for _ in range(SAMPLE // 2):
        _, now = pick.choice(places)
        target = pick.choice(targets(now))
        plan = way_back(now, (target,))
        done = pick.randint(0, len(plan.moves))
        half = gone(now, plan, done)
        rest = (*(each for each in owed(half) if each not in owed(now)), target)
        assert [move for move in way_back(half, rest).moves] == list(plan.moves[done:])


def test_three_ways_one_after_another_and_the_pump_is_whole_again() -> None:
    pick = random.Random(17)
    finished = main_stations("-05")["after the run"]
    for _ in range(6):
        now = finished
        for _ in range(3):
            here = targets(now)
            plan = way_back(now, (pick.choice(here),)) if here else None
            if plan is not None:
                assert plan.refusals == ()
                now = gone(now, plan, pick.randint(1, len(plan.moves)))
        for _ in range(60):  # what is owed comes out before anything goes in
            move = next_move(now, owed(now))
            if move is None:
                break
            assert may_move(now, move) == ()
            now = gone(now, way_back(now, owed(now)), 1)
        whole, refusals = built_again(now)
        assert refusals == []
        from benchcheck.assembly.guard import stands_against_release

        assert stands_against_release(whole) == ()
