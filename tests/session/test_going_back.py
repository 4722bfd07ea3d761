"""Going back at the bench: what is owed and until when, what is void, what it costs, and what is doubted."""

from __future__ import annotations

import random

import pytest

from benchcheck.session import commands, engine
from benchcheck.session.events import (
    GroupLoosened,
    PartInstalled,
    PartRemoved,
    RingLifted,
    WentBack,
)
from benchcheck.session.going_back import BACK, Way, due, way
from benchcheck.session.kit import Shortage
from benchcheck.session.prompt import Outcome
from tests.pumps import LOOSE, THIRD, can_with, main_job, tiny_job
from tests.session.bench import Bench
from tests.session.walks import careful_way, finished_with_care


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


def back_to(bench: Bench, target: str) -> Bench:
    """The same bench, gone back, with nothing taken off yet."""
    assert bench.carry_out(commands.go_back(bench.state, target, "it is doubted", bench.now)) is None
    return bench


def all_off(bench: Bench) -> list[str]:
    """Everything that is owed taken off with care; the acts, in order."""
    acts: list[str] = []
    while bench.prompt.step == BACK:
        if bench.prompt.act not in acts:
            acts.append(bench.prompt.act.removeprefix(f"{BACK}/"))
        bench.go_on()
    return list(dict.fromkeys(acts))


def plan(bench: Bench, target: str) -> Way:
    shown = commands.plan_back(bench.state, target)
    assert isinstance(shown, Way), shown
    return shown


# ---------------------------------------------------------------------- shown, then done


def test_what_is_shown_is_what_is_done() -> None:
    bench = at("gap")
    shown = plan(bench, "lip")
    back_to(bench, "lip")
    acts = all_off(bench)
    assert acts == ["loosen:F", "remove:cover", "lift:G", "remove:lip"]
    assert acts == [f"{move.verb}:{move.thing}" for move in shown.moves]
    assert shown.dies == ("lip", "G") and shown.restarts == ("F",)
    assert bench.asked == "lip-in/install:lip face"


def test_the_event_says_what_was_doubted_why_and_what_comes_off() -> None:
    (event,) = back_to(at("gap"), "lip").events(WentBack)
    assert isinstance(event, WentBack)
    assert (event.targets, event.off, event.reason) == (("lip",), ("F", "cover", "G", "lip"), "it is doubted")


def test_nothing_is_undone_before_its_own_act_is_confirmed() -> None:
    bench = back_to(at("gap"), "lip")
    assert {"lip", "cover"} <= set(bench.state.assembly.seated) and "F" in bench.state.assembly.held
    assert bench.asked == f"{BACK}/loosen:F loose"
    bench.go_on()
    assert "F" not in bench.state.assembly.held and "cover" in bench.state.assembly.seated


def test_the_acts_of_going_back_are_events_like_any_other() -> None:
    bench = back_to(at("gap"), "lip")
    before = bench.state.number
    all_off(bench)
    kinds = [type(event) for event in bench.events() if event.number > before]
    assert kinds == [GroupLoosened, PartRemoved, RingLifted, PartRemoved]


def test_what_is_void_is_done_again_in_file_order_and_the_rest_stands() -> None:
    bench = at("gap")
    shown = plan(bench, "cover")
    assert shown.again == ("cover-on/fit:G", "cover-on/install:cover", "F-tight/start:F", "F-tight/tighten:F")
    all_off(back_to(bench, "cover"))
    assert {act.id for act in engine.open_acts(bench.state)} == {*shown.again, "gap/ask:0", "release/sign"}
    assert bench.asked.startswith("cover-on/fit"), "the lip and its depth stand"
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_a_reading_of_a_part_goes_with_the_part() -> None:
    assert "lip-in/ask:0" in plan(at("gap"), "lip").again
    assert "lip-in/ask:0" not in plan(at("gap"), "cover").again
    assert "bore/ask:0" not in plan(at("gap"), "lip").again, "the bore of the body stays as it was measured"


def test_going_back_in_the_middle_of_an_act_begins_it_again() -> None:
    bench = at("cover-on/install:cover mark")
    back_to(bench, "lip")
    assert bench.state.hand == {}
    all_off(bench)
    assert bench.until("cover-on/install:cover place")


def test_going_back_twice_is_going_back_once() -> None:
    once, twice = at("gap"), at("gap")
    back_to(once, "lip")
    back_to(back_to(twice, "lip"), "lip")
    assert all_off(once) == all_off(twice)
    assert once.state.facts.keys() == twice.state.facts.keys()
    assert once.state.assembly.dead == twice.state.assembly.dead


def test_two_targets_are_reached_one_after_the_other() -> None:
    bench = back_to(back_to(at("gap"), "lip"), "cover")
    assert bench.state.reaching == ("cover", "lip")
    assert all_off(bench) == ["loosen:F", "remove:cover", "lift:G", "remove:lip"]
    assert not bench.state.reaching


# ---------------------------------------------------------------------- stopped half way


def test_a_way_stopped_half_way_goes_on_after_the_pause() -> None:
    bench = back_to(at("gap"), "lip")
    bench.go_on(2)
    bench.cut(stopped=True)
    bench.arrive()
    assert bench.state.reaching == ("lip",)
    assert bench.asked == f"{BACK}/lift:G out"
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_going_back_is_given_up_under_a_deviation_and_the_doubt_stays() -> None:
    bench = back_to(at("gap"), "lip")
    bench.go_on()
    assert bench.carry_out(engine.leave_out(bench.state, "the phone call said otherwise", bench.now)) is None
    assert bench.state.reaching == () and bench.state.suspects == ("lip",)
    assert bench.asked.startswith("F-tight/start")
    bench.decide()
    outcome = bench.answer("free")
    assert outcome is not None and outcome.refusals[0].rule == "suspect-buried" and outcome.passable


def test_a_doubt_is_not_released_with_and_mended_by_going_back() -> None:
    bench = back_to(at("gap"), "lip")
    bench.carry_out(engine.leave_out(bench.state, "in a hurry", bench.now))
    bench.until("release/sign")
    bench.decide()
    outcome = bench.answer(THIRD)
    assert outcome is not None and outcome.refusals[0].rule == "suspect-not-cleared" and not outcome.passable
    bench.mend(outcome)
    assert bench.prompt.step == BACK
    bench.to_the_end_with_decisions()
    assert bench.state.outcome == "released"


@pytest.mark.parametrize("target", ["lip", "cover", "G", "F"])
def test_a_doubt_ends_when_the_thing_is_fitted_anew(target: str) -> None:
    bench = back_to(at("gap"), target)
    assert bench.state.suspects == (target,)
    all_off(bench)
    assert bench.state.suspects == (target,)
    bench.until("gap")
    assert not bench.state.suspects


def test_a_doubt_ends_when_the_thing_is_looked_at_again() -> None:
    bench = back_to(at("gap"), "cover")
    bench.carry_out(engine.leave_out(bench.state, "in a hurry", bench.now))
    assert bench.state.suspects == ("cover",) and bench.asked.startswith("gap/ask")
    bench.say("0.02")
    assert not bench.state.suspects


# ---------------------------------------------------------------------- owed without being asked for


def test_what_died_and_is_in_is_owed_though_nobody_went_back_to_it() -> None:
    bench = Bench(main_job(), "-05").until("volute-on")
    back_to(bench, "F3")
    assert all_off(bench) == ["loosen:F3", "remove:nut"]
    assert bench.asked.startswith("nut-on/install:nut")


def test_what_is_owed_is_left_out_by_nobody() -> None:
    bench = Bench(main_job(), "-05").until("volute-on")
    back_to(bench, "F3")
    bench.until(f"{BACK}/remove:nut")
    assert not bench.state.reaching
    outcome = engine.leave_out(bench.state, "it looks good", bench.now)
    assert isinstance(outcome, Outcome) and outcome.refusals[0].rule == "may-not-be-left-out"


def test_in_teardown_what_died_is_taken_off_by_its_own_step() -> None:
    bench = at("open/lift:G")
    assert due(bench.state) == () and bench.asked == "open/lift:G out"


def test_what_is_rejected_while_it_is_in_comes_out_and_a_new_one_goes_in() -> None:
    bench = at("gap/ask", ('outside = "back to cover"', 'outside = "replace"'))
    bench.say("0.20", "replace")
    assert due(bench.state) == ("cover",)
    assert all_off(bench) == ["loosen:F", "remove:cover", "lift:G"]
    bench.until("F-tight")
    last = bench.events(PartInstalled)[-1]
    assert isinstance(last, PartInstalled) and (last.part, last.instance) == ("cover", 1)


def test_what_was_taken_off_on_the_way_is_not_taken_off_again_by_its_step() -> None:
    """Going back during teardown: the teardown steps find it off, and never take off what goes in later."""
    bench = at("open/remove:cover")
    back_to(bench, "lip")
    assert all_off(bench) == ["remove:cover", "remove:lip"]
    bench.to_the_end()
    assert bench.state.outcome == "released"
    removed = [event.part for event in bench.events(PartRemoved) if isinstance(event, PartRemoved)]
    assert sorted(removed) == ["cover", "lip"]


# ---------------------------------------------------------------------- what has to come after


GAP_FIRST = (
    ('[[step]]\nid = "cover-on"', '[[step]]\nid = "set"\nact = "measure"\nof = ["lip"]\n'
     'ask = [{ what = "gap of the lip", max = "1 mm" }]\n\n[[step]]\nid = "cover-on"\nafter = ["set"]'),
    ('of = ["cover"]', 'of = ["cover"]\nafter = ["F-tight"]'),
)  # fmt: skip


def test_a_setting_corrected_under_what_stands_on_it_brings_that_off() -> None:
    bench = at("F-tight", *GAP_FIRST)
    number = next(event.number for event in bench.events() if getattr(event, "act", "") == "set/ask:0")
    corrected = commands.correct(bench.state, number, "the feeler was bent", bench.now)
    assert bench.carry_out(corrected) is None
    assert set(due(bench.state)) == {"cover", "G"}
    assert all_off(bench) == ["remove:cover", "lift:G"]
    assert bench.asked.startswith("set/ask")
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_readings_that_came_after_what_is_void_are_void_too() -> None:
    bench = at("release", *GAP_FIRST)
    assert bench.state.fact("gap/ask:0") is not None
    back_to(bench, "F")
    all_off(bench)
    assert bench.state.fact("gap/ask:0") is None


# ---------------------------------------------------------------------- tools


def test_a_tool_goes_on_first_and_comes_off_by_its_own_step() -> None:
    bench = Bench(tiny_job(LOOSE)).until("gap")
    shown = plan(bench, "S")
    assert shown.tools == ("clip",) and shown.off == ("S",)
    back_to(bench, "S")
    assert bench.asked.startswith(f"{BACK}/install:clip")
    assert all_off(bench) == ["install:clip", "loosen:S"]
    assert bench.until("S-tight/start")
    bench.until("clip-off/remove:clip")
    bench.to_the_end()
    assert bench.state.outcome == "released" and "clip" not in bench.state.assembly.seated


def test_a_tool_put_on_for_a_way_that_is_given_up_comes_off_again() -> None:
    bench = back_to(Bench(tiny_job(LOOSE)).until("gap"), "S")
    bench.until(f"{BACK}/loosen:S")
    assert bench.carry_out(engine.leave_out(bench.state, "in a hurry", bench.now)) is None
    assert bench.asked == "clip-off/remove:clip out"


def test_a_way_that_cannot_be_gone_is_refused_before_it_is_begun() -> None:
    text = LOOSE.replace('holds = ["lip"]\ntemporary', "temporary")
    bench = Bench(tiny_job(text.replace('"S", "lip", "clip"', '"clip"'))).until("gap")
    outcome = commands.go_back(bench.state, "S", "it is slack", bench.now)
    assert isinstance(outcome, Outcome) and [each.rule for each in outcome.refusals] == ["left-loose"]


def test_the_bullet_sleeve_goes_on_before_the_shaft_comes_out_and_home_after_it_is_in() -> None:
    bench = back_to(Bench(main_job(), "-05").until("spin-2"), "cartridge")
    acts = all_off(bench)
    assert acts[acts.index("remove:shaft") - 1] == "install:guard"
    assert not bench.until("shaft-in").asked.startswith("guard-sleeve"), "it is on already"
    bench.until("guard-off/remove:guard")
    bench.until("spin-2")
    assert "guard" not in bench.state.assembly.seated


# ---------------------------------------------------------------------- what it costs


def test_the_kit_that_is_short_is_told_with_the_act_that_will_miss_it() -> None:
    shown = plan(at("gap"), "lip")
    # One ring and one lip in a kit that is not described, both fitted already.
    assert shown.short == (Shortage("lip", "lip-in/install:lip"), Shortage("-110 NBR", "cover-on/fit:G"))
    assert plan(at("cover-on"), "lip").short == (Shortage("lip", "lip-in/install:lip"),)


def test_a_kit_with_spares_is_not_short() -> None:
    spare = (
        '[kit]\nholds = [{ ring = "-110", count = 2 }, { part = "lip", count = 2 }]\n\n[[step]]\nid = "open"'
    )
    assert plan(at("gap", ('[[step]]\nid = "open"', spare)), "lip").short == ()


def test_groups_and_clocks_that_begin_again_are_told() -> None:
    bench = Bench(main_job(), "-05").until("F2")
    shown = plan(bench, "head")
    assert shown.restarts == ("F3",) and shown.clocks == ("F3 cure",)
    assert {"nut", "washer", "G1"} == set(shown.dies)


def test_inspection_of_a_part_is_asked_again_for_the_one_that_takes_its_place() -> None:
    bench = Bench(main_job(), "-05").until("spin-1")
    back_to(bench, "bearing")
    all_off(bench)
    assert bench.asked.startswith("bearing-feel"), "the new bearing is felt before it is fitted"
    bench.go_on(2)
    assert bench.asked.startswith("bearing-on")


# ---------------------------------------------------------------------- any number of times


@pytest.mark.parametrize("seed", range(4))
def test_three_ways_back_stopped_anywhere_and_the_main_pump_comes_home(seed: int) -> None:
    pick = random.Random(seed)
    bench = pick.choice(careful_way(main_job, "-07")[120:]).copied()
    for _ in range(3):
        now = bench.state.assembly
        target = pick.choice([*now.seated, *now.held, *now.sealed])
        began = commands.go_back(bench.state, target, "it is doubted", bench.now)
        assert bench.carry_out(began) is None
        bench.go_on(pick.randint(0, 25))
    assert finished_with_care(bench, lambda bench: None) == "released"


def test_a_way_shown_is_pure() -> None:
    bench = at("gap")
    before = repr(bench.state.assembly)
    assert way(bench.state, ("lip",)) == way(bench.state, ("lip",))
    assert repr(bench.state.assembly) == before
