"""Which way things point and stand: composed along the axis and about it, judged only by what must be."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchcheck.assembly.facing import (
    direction,
    end_up,
    mark_angle,
    misfits,
    one_that_mends,
    points_to,
    seat_angle,
)
from benchcheck.assembly.state import Assembly
from benchcheck.procedure.model import MustFace, MustLineUp
from tests.pumps import CAN, built, can_with, main_job, tiny_pump

NESTED = """
must_face = [
  { part = "lip", end = "mouth", toward = "top", because = "oil" },
  { part = "scraper", end = "edge", toward = "bottom", because = "dirt" },
  { part = "carrier", end = "deep", toward = "top", because = "its lips" },
]

[[part]]
id = "body"
ends = ["top", "bottom"]

[[part]]
id = "carrier"
ends = ["deep", "shallow"]
into = "body"
from = "top"
shows = "deep"

[[part]]
id = "lip"
ends = ["mouth", "back"]
into = "carrier"
from = "deep"
shows = "mouth"

[[part]]
id = "scraper"
ends = ["edge", "heel"]
into = "carrier"
from = "shallow"
shows = "edge"

[[part]]
id = "pin"
ends = ["head", "tail"]
into = "carrier"
from = "side"

[[step]]
id = "all-in"
parts = ["lip", "scraper", "pin", "carrier"]
"""


def seated(part: str, turn: int, now: Assembly, end: str | None = None) -> Assembly:
    return now.installed(part, end or now.pump.planned_end(part), turn, None)


def test_one_turn_turns_and_two_turns_do_not() -> None:
    now = built(tiny_pump(NESTED))
    for inner in (1, -1):
        for outer in (1, -1):
            both = seated("carrier", outer, seated("lip", inner, now))
            assert direction(both, "lip", "body") == inner * outer
            assert direction(both, "body", "lip") == inner * outer
            assert points_to(both, "lip", "mouth", "body") == ("top" if inner * outer > 0 else "bottom")
            assert points_to(both, "lip", "back", "body") == ("bottom" if inner * outer > 0 else "top")


def test_across_the_axis_or_in_two_works_nothing_points() -> None:
    now = built(tiny_pump(NESTED), "lip", "pin")
    assert direction(now, "pin", "carrier") is None
    assert direction(now, "lip", "body") is None
    assert points_to(now, "lip", "mouth", "body") is None


def test_two_parts_of_one_work_are_compared_through_the_body_they_share() -> None:
    now = seated("scraper", -1, seated("lip", 1, built(tiny_pump(NESTED))))
    assert direction(now, "lip", "scraper") == -1
    assert points_to(now, "lip", "mouth", "scraper") == "heel"


def test_what_is_up_follows_from_the_pose() -> None:
    now = built(tiny_pump(NESTED), "lip", "scraper", "carrier")
    assert end_up(now, "lip") is None, "nobody has said how it lies"
    assert end_up(now.turned_up("body", "top"), "lip") == "mouth"
    assert end_up(now.turned_up("body", "bottom"), "lip") == "back"
    assert end_up(now.turned_up("body", "bottom"), "body") == "bottom"


def test_planned_the_pump_faces_as_it_must() -> None:
    assert misfits(built(tiny_pump(NESTED), "lip", "scraper", "carrier")) == ()


def test_each_kind_of_reversal_is_a_misfit_of_the_part_it_makes_wrong() -> None:
    """A part in its carrier; the carrier; a part and its carrier, wrong for the neighbour and the carrier."""
    pump = tiny_pump(NESTED)

    def wrong(lip: int, scraper: int, carrier: int) -> set[str]:
        now = seated("scraper", scraper, seated("lip", lip, built(pump)))
        return {each.must.part for each in misfits(seated("carrier", carrier, now))}

    assert wrong(1, -1, 1) == set() or wrong(1, 1, 1) == set()
    right = 1 if wrong(1, 1, 1) == set() else -1
    assert wrong(-1, right, 1) == {"lip"}
    assert wrong(1, right, -1) == {"lip", "scraper", "carrier"}
    assert wrong(-1, right, -1) == {"scraper", "carrier"}
    assert wrong(-1, -right, -1) == {"carrier"}


def test_the_one_part_that_mends_all_false_facings_is_found() -> None:
    now = built(tiny_pump(NESTED), "lip", "scraper", "carrier")
    seat = now.seated["carrier"]
    turned = replace(now, seated={**now.seated, "carrier": replace(seat, turn=-seat.turn)})
    assert one_that_mends(turned, misfits(turned)) == "carrier"
    lip = now.seated["lip"]
    lip_only = replace(now, seated={**now.seated, "lip": replace(lip, turn=-lip.turn)})
    assert one_that_mends(lip_only, misfits(lip_only)) == "lip"
    assert one_that_mends(now, ()) is None


def test_a_misfit_gives_its_reasons_seat_by_seat() -> None:
    now = seated("carrier", -1, seated("lip", 1, built(tiny_pump(NESTED))))
    lip = next(each for each in misfits(now) if each.must.part == "lip")
    assert (lip.is_toward, lip.toward, lip.of) == ("bottom", "top", "body")
    assert lip.chain == (
        "lip: its mouth points to the deep of the carrier",
        "carrier: its deep points to the bottom of the body",
    )


def test_what_is_asked_by_variant_is_looked_up_by_variant() -> None:
    text = can_with(('toward = "top"', 'toward = { R = "top", L = "bottom" }'))
    for variant, wrong in (("R", False), ("L", True)):
        now = built(tiny_pump(text, variant, variants=["R", "L"]), "lip")
        assert bool(misfits(now)) is wrong


# ---------------------------------------------------------------------- about the axis


def test_a_mark_over_another_gives_the_angle_of_the_seat() -> None:
    now = built(tiny_pump(CAN))
    # The cover is turned over: its marks run the other way round, seen from the body's first end.
    assert seat_angle(now, "cover", -1, "dot", "body", "notch") == 0
    assert seat_angle(now, "cover", -1, "arrow", "body", "notch") == 180


def test_the_angle_is_found_again_as_the_place_of_the_mark() -> None:
    now = built(tiny_pump(CAN), "cover")
    assert mark_angle(now, "cover", "dot", "body") == 0
    assert mark_angle(now, "cover", "arrow", "body") == 180


def test_a_mark_elsewhere_is_a_misfit_that_says_what_stands_there() -> None:
    now = built(tiny_pump(CAN))
    turned = now.installed("cover", "top", -1, 180)
    (wrong,) = misfits(turned)
    assert isinstance(wrong.must, MustLineUp)
    assert (wrong.is_toward, wrong.toward) == ("180 degrees off", "notch")
    assert one_that_mends(turned, misfits(turned)) is None, "turning it over mends no mark"


def test_without_marks_nothing_is_known_about_the_axis() -> None:
    now = built(tiny_pump(CAN)).installed("cover", "top", -1, None)
    assert mark_angle(now, "cover", "dot", "body") is None
    assert misfits(now) == ()


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 359), st.integers(0, 359), st.sampled_from([1, -1]), st.integers(0, 359))
def test_any_mark_put_over_any_other_stands_over_it(dot: int, notch: int, turn: int, arrow: int) -> None:
    pump = tiny_pump(
        can_with(("dot = 0, arrow = 180", f"dot = {dot}, arrow = {arrow}"), ("notch = 0", f"notch = {notch}"))
    )
    angle = seat_angle(built(pump), "cover", turn, "dot", "body", "notch")
    now = built(pump).installed("cover", "top", turn, angle)
    assert mark_angle(now, "cover", "dot", "body") == notch


# ---------------------------------------------------------------------- the main pump


@pytest.mark.parametrize("variant", ["-05", "-07"])
def test_every_facing_of_the_main_pump_can_be_worked_out_in_the_finished_pump(variant: str) -> None:
    from benchcheck.assembly.planned import as_found

    now = as_found(main_job().pump(variant))
    assert misfits(now) == ()
    for must in now.pump.faces:
        assert isinstance(must, MustFace)
        assert points_to(now, must.part, must.end, must.of or now.pump.main) == must.toward
    assert len(now.pump.faces) >= 15


def test_the_cartridge_in_backwards_makes_both_its_lips_wrong() -> None:
    from benchcheck.assembly.planned import as_found

    now = as_found(main_job().pump("-05"))
    seat = now.seated["cartridge"]
    turned = replace(now, seated={**now.seated, "cartridge": replace(seat, turn=-seat.turn)})
    assert {each.must.part for each in misfits(turned)} == {"main-lip", "excluder", "cartridge"}
    assert one_that_mends(turned, misfits(turned)) == "cartridge"
