"""May this act be done now: each rule of the guard by an act that breaks it, and by one that does not."""

from __future__ import annotations

import pytest

from benchcheck.assembly import guard
from benchcheck.assembly.planned import as_found, planned_install
from benchcheck.assembly.refusal import Refusal
from benchcheck.assembly.state import Assembly
from tests.assembly.test_bars import SHAFT, TUBE
from tests.assembly.test_facing import NESTED
from tests.pumps import CAN, LOOSE, built, can_with, main_job, rules, tiny_pump


def install(now: Assembly, part: str, turn: int | None = None, angle: int | None = 0) -> list[Refusal]:
    """What the guard says to a part going home, as planned or otherwise turned."""
    after = planned_install(now, part)
    if turn is not None:
        after = now.installed(part, now.pump.planned_end(part), turn, angle)
    return list(guard.may_install(now, after, part))


# ---------------------------------------------------------------------- rings


def test_the_right_ring_goes_into_an_open_empty_groove() -> None:
    assert guard.may_fit(built(tiny_pump(CAN)), "G", "-110", "NBR") == ()
    assert guard.may_fit(built(tiny_pump(CAN)), "G", "-110", "nbr") == ()


def test_a_ring_of_another_size_or_rubber_is_refused_and_says_which() -> None:
    now = built(tiny_pump(CAN))
    (size,) = guard.may_fit(now, "G", "-111", "NBR")
    assert size.rule == "ring-of-another-size" and size.passable
    assert "-111" in size.wrong and "-110" in size.wrong and "round the mouth of the can" in size.where
    assert rules(guard.may_fit(now, "G", "-110", "FKM")) == ["ring-of-another-rubber"]
    assert len(guard.may_fit(now, "G", "-111", "FKM")) == 2


def test_a_second_ring_in_a_groove_is_refused_by_anyone() -> None:
    (refusal,) = guard.may_fit(built(tiny_pump(CAN), "G"), "G", "-110", "NBR")
    assert refusal.rule == "second-ring-in-a-groove" and not refusal.passable


def test_nothing_is_fitted_into_a_hidden_groove() -> None:
    (refusal,) = guard.may_fit(built(tiny_pump(CAN), "cover"), "G", "-110", "NBR")
    assert refusal.rule == "groove-is-hidden" and not refusal.passable
    by_group = tiny_pump(can_with(('material = "NBR"', 'material = "NBR"\nclosed_by = "F"')))
    assert rules(guard.may_fit(built(by_group, "cover"), "G", "-110", "NBR")) == ["groove-is-hidden"]


def test_the_size_is_that_of_the_variant() -> None:
    text = can_with(('takes = "-110"', 'takes = { R = "-110", L = "-210" }'))
    left = tiny_pump(text, "L", variants=["R", "L"])
    assert guard.may_fit(built(left), "G", "-210", "NBR") == ()
    assert rules(guard.may_fit(built(left), "G", "-110", "NBR")) == ["ring-of-another-size"]


def test_a_ring_is_lifted_only_out_of_an_open_groove() -> None:
    assert guard.may_lift(built(tiny_pump(CAN), "G"), "G") == ()
    (refusal,) = guard.may_lift(built(tiny_pump(CAN), "G", "cover"), "G")
    assert (refusal.rule, refusal.off, refusal.passable) == ("something-in-the-way", "cover", False)


# ---------------------------------------------------------------------- grooves that close


def test_a_groove_is_not_hidden_empty_by_anyone() -> None:
    (refusal,) = install(built(tiny_pump(CAN), "lip"), "cover")
    assert refusal.rule == "groove-left-empty" and not refusal.passable
    assert refusal.step == "cover-on", "the step that fits it"
    assert install(built(tiny_pump(CAN), "lip", "G"), "cover") == []


def test_a_groove_is_not_hidden_with_two_rings_or_a_dead_one() -> None:
    two = built(tiny_pump(CAN), "lip", "G").fitted("G", "-110", "NBR")
    assert rules(install(two, "cover")) == ["second-ring-in-a-groove"]
    dead = built(tiny_pump(CAN), "lip", "G", "cover").removed("cover")
    assert rules(install(dead, "cover")) == ["single-use-fitted-again"]
    assert not install(dead, "cover")[0].passable


def test_a_groove_that_only_tightening_presses_is_asked_for_before_it_is_hidden() -> None:
    pump = tiny_pump(can_with(('material = "NBR"', 'material = "NBR"\nclosed_by = "F"')))
    assert rules(install(built(pump, "lip"), "cover")) == ["groove-left-empty"]


def test_every_groove_that_one_part_hides_is_looked_at() -> None:
    """Two rings in G2 and none in G3: the count is right, and the cartridge stops."""
    pump = main_job().pump("-05")
    now = built(pump, "main-lip", "excluder", "G2").fitted("G2", "-137", "NBR")
    found = {refusal.rule: refusal.wrong for refusal in install(now, "cartridge")}
    assert "G2" in found["second-ring-in-a-groove"] and "G3" in found["groove-left-empty"]
    assert guard.grooves_closing(now, planned_install(now, "cartridge")) == ("G2", "G3")


# ---------------------------------------------------------------------- one place, one time


def test_a_part_goes_in_once() -> None:
    now = built(tiny_pump(CAN), "lip")
    (refusal,) = guard.may_install(now, now, "lip")
    assert refusal.rule == "already-in" and not refusal.passable


def test_a_dead_part_does_not_go_in_again_and_a_new_one_does() -> None:
    now = built(tiny_pump(CAN), "lip").removed("lip")
    assert rules(install(now, "lip")) == ["single-use-fitted-again"]
    assert install(now.replaced("lip"), "lip") == []


# ---------------------------------------------------------------------- under, and holding


def test_a_part_goes_in_under_its_tool() -> None:
    pump = tiny_pump(SHAFT)
    refusals = install(built(pump, "gear"), "shaft")
    assert rules(refusals) == ["guard-missing"] and refusals[0].step == "all-in"
    assert install(built(pump, "gear", "guard"), "shaft") == []


def test_a_part_comes_out_under_its_tool_where_that_can_go_on() -> None:
    pump = tiny_pump(SHAFT)
    assert rules(guard.may_remove(built(pump, "shaft"), "shaft")) == ["guard-missing"]
    assert guard.may_remove(built(pump, "guard", "shaft"), "shaft") == ()
    in_the_way = built(pump, "shaft", "wheel")
    assert rules(guard.may_remove(in_the_way, "shaft")) == ["something-in-the-way"]


def test_a_part_that_holds_does_not_go_in_before_what_it_holds() -> None:
    (refusal,) = install(built(tiny_pump(TUBE)), "clip")
    assert (refusal.rule, refusal.step) == ("holds-nothing", "all-in")
    assert install(built(tiny_pump(TUBE), "deep"), "clip") == []
    assert install(built(tiny_pump(LOOSE)), "clip") == [], (
        "it goes on before its lip goes in, and rides on it"
    )


# ---------------------------------------------------------------------- left out, and covered


def test_what_belongs_under_a_part_is_in_before_it() -> None:
    refusals = install(built(tiny_pump(CAN), "G"), "cover")
    assert rules(refusals) == ["part-left-out"]
    assert refusals[0].step == "lip-in" and refusals[0].passable


def test_a_part_whose_place_is_covered_does_not_go_in() -> None:
    (refusal,) = install(built(tiny_pump(CAN), "G", "cover"), "lip")
    assert (refusal.rule, refusal.off, refusal.passable) == ("place-is-covered", "cover", False)


def test_in_a_hole_of_its_own_what_comes_before_is_in_before() -> None:
    assert rules(install(built(tiny_pump(TUBE)), "jet-cap")) == ["part-left-out"]
    assert install(built(tiny_pump(TUBE), "jet"), "jet-cap") == []


def test_a_ring_forgotten_over_the_cartridge_is_missed_when_the_shaft_comes() -> None:
    pump = main_job().pump("-05")
    now = built(pump, "main-lip", "excluder", "G2", "G3", "cartridge", "bearing", "er-shaft", "guard")
    (refusal,) = install(now, "shaft")
    assert refusal.rule == "part-left-out" and "cartridge ring" in refusal.wrong
    assert refusal.step == "ir-cart-in"


# ---------------------------------------------------------------------- faces


def test_a_part_the_wrong_way_round_is_refused_with_its_reasons_by_anyone() -> None:
    (refusal,) = install(built(tiny_pump(CAN)), "lip", turn=-1)
    assert refusal.rule == "part-faces-the-wrong-way" and not refusal.passable
    assert "because the mouth has to face the oil" in refusal.wrong
    assert refusal.chain == ("lip: its mouth points to the bottom of the body",)
    assert refusal.mend == "turn the lip over"


def test_the_act_that_makes_a_facing_false_is_the_one_refused_and_the_one_seat_that_mends_all_is_named() -> (
    None
):
    now = built(tiny_pump(NESTED), "lip", "scraper")
    refusals = install(now, "carrier", turn=-1)
    assert rules(refusals) == ["part-faces-the-wrong-way"] * 3
    assert {refusal.mend for refusal in refusals} == {"turn the carrier over"}
    assert {refusal.where for refusal in refusals} == {"the lip", "the scraper", "the carrier"}


def test_two_reversals_that_cancel_for_one_part_do_not_for_its_neighbour() -> None:
    now = built(tiny_pump(NESTED), "scraper").installed("lip", "deep", -1, None)
    wrong = {refusal.where for refusal in install(now, "carrier", turn=-1)}
    assert wrong == {"the scraper", "the carrier"}


def test_a_facing_that_cannot_be_worked_out_yet_refuses_nothing() -> None:
    assert rules(install(built(tiny_pump(NESTED)), "lip", turn=-1)) == ["part-faces-the-wrong-way"], (
        "not as shown"
    )
    text = NESTED.replace('shows = "mouth"\n', "")
    # Nothing says how the lip goes into its carrier but the finished pump, and that is not there yet.
    assert [refusal.passable for refusal in install(built(tiny_pump(text)), "lip", turn=-1)] == [True]


def test_a_part_not_as_it_is_to_be_seen_is_refused_but_may_be_passed_where_no_facing_is_false() -> None:
    text = can_with(
        (
            '  { part = "lip", end = "mouth", toward = "top", because = "the mouth has to face the oil" },\n',
            "",
        )
    )
    (refusal,) = install(built(tiny_pump(text)), "lip", turn=-1)
    assert refusal.rule == "part-faces-the-wrong-way" and refusal.passable
    assert "you see the back" in refusal.wrong


def test_a_mark_elsewhere_is_refused_by_anyone() -> None:
    (refusal,) = install(built(tiny_pump(CAN), "lip", "G"), "cover", turn=-1, angle=180)
    assert refusal.rule == "marks-do-not-line-up" and not refusal.passable
    assert "180 degrees off" in refusal.wrong and "because the ports have to meet" in refusal.wrong


# ---------------------------------------------------------------------- coming out


def test_nothing_comes_out_through_something_else() -> None:
    now = built(tiny_pump(CAN), "lip", "G", "cover", "F")
    for thing, bar in (("lip", "cover"), ("cover", "F")):
        (refusal,) = guard.may_remove(now, thing)
        assert (refusal.rule, refusal.off, refusal.passable) == ("something-in-the-way", bar, False)
    assert guard.may_loosen(now, "F") == ()


def test_what_is_not_in_does_not_come_out() -> None:
    now = built(tiny_pump(CAN))
    assert rules(guard.may_remove(now, "lip")) == ["not-in"]
    assert rules(guard.may_loosen(now, "F")) == ["not-on"]


def test_the_last_holder_of_what_may_never_be_loose_stays() -> None:
    pump = tiny_pump(LOOSE)
    now = built(pump, "lip", "S")
    (refusal,) = guard.may_loosen(now, "S")
    assert refusal.rule == "left-loose" and not refusal.passable
    with_clip = built(pump, "lip", "clip", "S")
    assert guard.may_loosen(with_clip, "S") == ()
    assert guard.may_remove(with_clip, "clip") == ()
    assert rules(guard.may_remove(with_clip.loosened("S"), "clip")) == ["left-loose"]


def test_what_may_never_be_loose_comes_out_itself_with_the_clip_on_it() -> None:
    now = built(tiny_pump(LOOSE), "lip", "clip")
    assert guard.may_remove(now, "lip") == ()


# ---------------------------------------------------------------------- fasteners


def test_a_group_holds_only_what_is_in() -> None:
    (refusal,) = guard.may_start(built(tiny_pump(CAN)), "F")
    assert (refusal.rule, refusal.step, refusal.passable) == ("fastener-holds-nothing", "cover-on", False)
    assert guard.may_start(built(tiny_pump(CAN), "cover"), "F") == ()
    assert rules(guard.may_start(built(tiny_pump(CAN), "cover", "F"), "F")) == ["already-started"]


def test_a_fastener_that_was_tight_and_is_still_there_is_not_run_in_again() -> None:
    now = built(main_job().pump("-05"), "shaft", "impeller", "washer", "nut", "F3")
    now = now.tightened("F3", 1, rounds=1, count=1, has_pass=False).loosened("F3")
    (refusal,) = guard.may_start(now, "F3")
    assert (refusal.rule, refusal.off, refusal.passable) == ("single-use-fitted-again", "nut", False)


def tight(now: Assembly, *positions: int) -> Assembly:
    for position in positions:
        now = now.tightened("F", position, rounds=2, count=4, has_pass=True)
    return now


def test_positions_go_in_their_order_once_each_round_after_round() -> None:
    now = built(tiny_pump(CAN), "cover", "F")
    # A circle of four goes 1-3-2-4 (common practice).
    for done, due in (((), 1), ((1,), 3), ((1, 3), 2), ((1, 3, 2), 4), ((1, 3, 2, 4), 1)):
        here = tight(now, *done)
        round_number = 2 if len(done) == 4 else 1
        assert guard.next_position(here, "F") == due
        for position in (1, 2, 3, 4):
            found = rules(guard.may_tighten(here, "F", position, round_number))
            twice = ["position-done-twice"] if round_number == 1 and position in done else []
            assert found == twice + (["position-out-of-order"] if position != due else [])
    assert guard.next_position(tight(now, *(1, 3, 2, 4) * 2), "F") is None


def test_what_may_be_passed_of_a_tightening_and_what_may_not() -> None:
    now = tight(built(tiny_pump(CAN), "cover", "F"), 1)
    (order,) = guard.may_tighten(now, "F", 2, 1)
    assert order.passable, "another order is a deviation"
    twice, _ = guard.may_tighten(now, "F", 1, 1)
    assert not twice.passable
    (skipped, *_rest) = guard.may_tighten(now, "F", 3, 2)
    assert skipped.rule == "round-out-of-order" and not skipped.passable


@pytest.mark.parametrize("position", [0, 5, -1])
def test_a_position_that_the_group_does_not_have(position: int) -> None:
    now = built(tiny_pump(CAN), "cover", "F")
    assert rules(guard.may_tighten(now, "F", position, 1)) == ["no-such-position"]


def test_nothing_is_tightened_that_was_not_run_in() -> None:
    (refusal,) = guard.may_tighten(built(tiny_pump(CAN), "cover"), "F", 1, 1)
    assert refusal.rule == "not-run-in" and not refusal.passable


def test_a_position_disposed_of_is_passed_over() -> None:
    now = built(tiny_pump(CAN), "cover", "F").position_disposed("F", 3, rounds=2, count=4, has_pass=True)
    assert guard.next_position(tight(now, 1), "F") == 2


# ---------------------------------------------------------------------- doubts, and release


def test_what_is_doubted_is_not_buried() -> None:
    pump = tiny_pump(CAN)
    after = planned_install(built(pump, "lip", "G"), "cover")
    (refusal,) = guard.buried(after, "cover", ("lip",))
    assert (refusal.rule, refusal.off) == ("suspect-buried", "lip")
    assert guard.buried(after, "cover", ("cover",)) == ()
    assert guard.buried(after, "cover", ()) == ()
    (of_a_group,) = guard.buried(after.started("F"), "F", ("cover",))
    assert of_a_group.rule == "suspect-buried"
    assert rules(guard.buried(after, "cover", ("G",))) == ["suspect-buried"]


def finished() -> Assembly:
    return as_found(tiny_pump(CAN))


def test_the_finished_pump_has_nothing_against_it() -> None:
    assert guard.stands_against_release(finished()) == ()
    for variant in ("-05", "-07"):
        assert guard.stands_against_release(as_found(main_job().pump(variant))) == ()


def test_what_stands_against_release_nobody_may_pass() -> None:
    slack = finished().loosened("F")
    for now, rule in (
        (slack, "fastener-not-tight"),
        (slack.removed("cover"), "groove-left-empty"),
        (slack.removed("cover").removed("lip"), "part-left-out"),
        (slack.removed("cover").fitted("G", "-110", "NBR"), "groove-left-open"),
        (finished().rejected("lip"), "single-use-fitted-again"),
        (finished().rejected("cover"), "single-use-fitted-again"),
        (slack.removed("cover").installed("cover", "top", 1, 0), "part-faces-the-wrong-way"),
        (slack.removed("cover").installed("cover", "top", -1, 180), "marks-do-not-line-up"),
    ):
        against = guard.stands_against_release(now)
        assert rule in rules(against)
        assert not any(refusal.passable for refusal in against)


def test_a_tool_left_inside_stands_against_release() -> None:
    pump = tiny_pump(LOOSE)
    now = planned_install(as_found(pump), "clip")
    (refusal,) = guard.stands_against_release(now)
    assert (refusal.rule, refusal.off) == ("tool-left-inside", "clip")


def test_a_refusal_reads_as_lines() -> None:
    (refusal,) = install(built(tiny_pump(CAN)), "lip", turn=-1)
    assert refusal.as_text().splitlines() == [
        "wrong: the mouth of the lip would point to the bottom of the body; it has to point to the top, "
        "because the mouth has to face the oil",
        "   so: lip: its mouth points to the bottom of the body",
        "where: the lip",
        " mend: turn the lip over",
        "       nobody may pass this",
    ]
