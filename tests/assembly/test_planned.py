"""The motions a procedure plans, and the pump as it is found."""

from __future__ import annotations

import pytest

from benchcheck.assembly.acts import Verb, acts_of
from benchcheck.assembly.guard import may_loosen, may_remove
from benchcheck.assembly.planned import as_found, order_of, over, planned, planned_install, rounds_of
from tests.pumps import CAN, LOOSE, built, can_with, main_job, tiny_pump


def test_a_planned_fitting_shows_what_it_shows_and_stands_where_its_mark_is_to_stand() -> None:
    now = planned_install(built(tiny_pump(CAN)), "cover")
    seat = now.seated["cover"]
    assert (seat.body, seat.end, seat.turn, seat.angle) == ("body", "top", -1, 0)


def test_a_part_over_a_mark_that_is_not_there_yet_has_no_angle() -> None:
    pump = main_job().pump("-05")
    assert planned_install(built(pump), "plate").seated["plate"].angle is not None
    text = can_with(('lines_up = { dot = "body: notch" }\n', ""))
    assert planned_install(built(tiny_pump(text)), "cover").seated["cover"].angle is None


@pytest.mark.parametrize(
    ("text", "read"), [("body: P cast", ("body", "P cast")), ("body:notch", ("body", "notch"))]
)
def test_a_mark_of_another_part_is_read(text: str, read: tuple[str, str]) -> None:
    assert over(text) == read


def test_the_order_is_the_files_or_that_of_the_layout() -> None:
    assert order_of(tiny_pump(CAN), "F") == (1, 3, 2, 4)
    said = can_with(
        (
            'layout = { circle = 4, seen_from = "top" }',
            'layout = { circle = 4, seen_from = "top" }\norder = [4, 2, 3, 1]',
        )
    )
    assert order_of(tiny_pump(said), "F") == (4, 2, 3, 1)
    each = can_with(
        (
            'layout = { circle = 4, seen_from = "top" }',
            'layout = { circle = 4, seen_from = "top" }\neach = true',
        )
    )
    assert order_of(tiny_pump(each), "F") == (1, 2, 3, 4)
    points = can_with(('circle = 4, seen_from = "top"', "points = [[0, 1], [1, 0], [0, -1], [-1, 0]]"))
    assert sorted(order_of(tiny_pump(points), "F")) == [1, 2, 3, 4]
    # The crossing order of six (common practice).
    assert order_of(main_job().pump("-05"), "F1") == (1, 4, 2, 5, 3, 6)


def test_a_group_without_rounds_has_one() -> None:
    assert rounds_of(tiny_pump(CAN), "F") == 2
    assert rounds_of(tiny_pump(can_with(('rounds = ["50 %", "100 %"]\n', ""))), "F") == 1


def test_a_planned_tightening_goes_through_its_rounds_and_its_pass() -> None:
    pump = tiny_pump(CAN)
    now = built(pump, "cover", "F")
    tighten = next(act for act in acts_of(pump, pump.step("F-tight")) if act.verb is Verb.TIGHTEN)
    assert planned(now, tighten).held["F"].passed


def test_the_pump_as_found_is_whole_tight_alive_and_has_run() -> None:
    for pump in (tiny_pump(CAN), tiny_pump(LOOSE), main_job().pump("-05"), main_job().pump("-07")):
        now = as_found(pump)
        assert set(now.seated) == set(pump.needed())
        assert all(hold.passed for hold in now.held.values()) and set(now.held) == set(pump.groups)
        assert all(now.closed(groove) and now.living_rings(groove) for groove in pump.grooves)
        assert not now.dead and not now.poses
        assert {f"{part}#0" for part in pump.needed()} <= now.run


def test_it_comes_apart_by_its_own_teardown() -> None:
    for pump in (tiny_pump(CAN), tiny_pump(LOOSE), main_job().pump("-05")):
        now = as_found(pump)
        for step in pump.steps:
            for act in acts_of(pump, step) if step.phase.value == "teardown" else ():
                if act.verb is Verb.REMOVE:
                    assert [each.rule for each in may_remove(now, act.target)] in ([], ["guard-missing"]), (
                        act.id
                    )
                if act.verb is Verb.LOOSEN:
                    assert may_loosen(now, act.target) == (), act.id
                if act.verb in (Verb.REMOVE, Verb.LOOSEN, Verb.LIFT, Verb.INSTALL):
                    now = planned(now, act)


def test_a_face_pair_that_ran_in_service_is_used_up_as_it_comes_out() -> None:
    now = as_found(main_job().pump("-05"))
    for thing in ("F2", "F3"):
        now = now.loosened(thing)
    for part in ("volute", "nut", "washer", "impeller", "imp-key", "shims", "head"):
        now = now.removed(part)
    assert now.is_dead("head") and now.is_dead("seat")
