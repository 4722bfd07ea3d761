"""Cures, second passes and the clocks a procedure names: when they start, what they bar, what stops them."""

from __future__ import annotations

from datetime import timedelta

import pytest

from benchcheck.session import commands, engine
from benchcheck.session.clocks import ends, running
from benchcheck.session.events import WaitOver
from benchcheck.session.prompt import Form
from tests.pumps import CAN, can_with, main_job, tiny_job
from tests.session.bench import Bench

LOCKER = (
    "torque = {",
    'threadlocker = { strength = "low", amount = "1 drop", where = "tip", handling = "10 min", cure = "3 h", '
    'bars = "test" }\ntorque = {',
)
CURE = (
    '[[step]]\nid = "gap"',
    '[[step]]\nid = "cure"\nphase = "test"\nact = "wait"\nclock = "F cure"\n\n'
    '[[step]]\nid = "spin"\nphase = "test"\nact = "check"\n'
    'ask = [{ what = "drag", one_of = ["free", "stiff"] }]\n\n'
    '[[step]]\nid = "gap"',
)


def clock(keys: str) -> tuple[str, str]:
    return ('[[step]]\nid = "open"', f'[[clock]]\nid = "soak"\n{keys}\n\n[[step]]\nid = "open"')


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


# ---------------------------------------------------------------------- thread-locker


def test_the_cure_starts_with_the_last_position_of_the_last_pass() -> None:
    bench = at("F-tight/tighten:F reading 4", LOCKER, CURE)
    assert "F cure" not in bench.state.clocks
    bench.go_on()
    assert bench.state.clocks["F cure"].at == bench.state.at
    assert [rule.id for rule, _ in running(bench.state, bench.now)] == ["F cure"]


def test_a_cure_cut_short_by_a_minute_is_refused_by_anyone() -> None:
    bench = at("cure/wait", LOCKER, CURE)
    assert bench.prompt.form is Form.WAIT and bench.prompt.until is not None
    bench.now = bench.prompt.until - timedelta(minutes=1)
    outcome = bench.answer("", over="it is warm in here")
    assert outcome is not None and not outcome.passable
    assert outcome.refusals[0].rule == "clock-still-runs" and "0 h 01 min" in outcome.refusals[0].wrong
    bench.now += timedelta(minutes=1)
    bench.say("")
    (over,) = bench.events(WaitOver)
    assert isinstance(over, WaitOver) and over.clock == "F cure"


def test_what_a_clock_bars_is_not_begun_before_it_is_over_also_where_no_wait_stands() -> None:
    no_wait = (
        CURE[0],
        CURE[1].replace('[[step]]\nid = "cure"\nphase = "test"\nact = "wait"\nclock = "F cure"\n\n', ""),
    )
    bench = at("spin", LOCKER, no_wait)
    assert bench.prompt.question == "clock" and bench.prompt.form is Form.WAIT
    assert bench.refused("") == ["clock-still-runs"]
    assert bench.prompt.until is not None
    bench.now = bench.prompt.until
    assert bench.asked == "spin/ask:0 ask"


def test_a_clock_that_nothing_started_is_not_waited_for() -> None:
    wait = '[[step]]\nid = "cure"\nphase = "test"\nact = "wait"\nclock = "F cure"\n\n'
    early = ('[[step]]\nid = "lip-in"', wait + '[[step]]\nid = "lip-in"')
    bench = at("cure", LOCKER, early)
    assert bench.refused("") == ["clock-not-started"]


def test_a_loosened_group_stops_its_cure_and_a_new_one_starts_it_again() -> None:
    bench = at("cure", LOCKER, CURE)
    first = bench.state.clocks["F cure"].at
    bench.carry_out(commands.go_back(bench.state, "cover", "it leaks", bench.now))
    bench.go_on()
    assert "F cure" not in bench.state.clocks
    bench.now += timedelta(hours=1)
    bench.until("cure")
    assert bench.state.clocks["F cure"].at > first
    end = ends(bench.state, next(rule for rule, _ in running(bench.state, bench.now)))
    assert end == bench.state.clocks["F cure"].at + timedelta(hours=3)


def test_a_clock_goes_on_while_the_program_does_not_run() -> None:
    bench = at("cure", LOCKER, CURE)
    end = bench.prompt.until
    bench.cut()
    bench.now += timedelta(hours=3, minutes=1)
    bench.arrive()
    assert bench.prompt.until == end
    bench.say("")
    assert bench.asked.startswith("spin")


# ---------------------------------------------------------------------- clocks of the file


def test_a_clock_starts_when_its_step_is_done_and_bars_a_step_or_a_phase() -> None:
    for bars in ("F-tight", "release"):
        bench = at("cover-on", clock(f'starts = "lip-in"\nleast = "30 min"\nbars = "{bars}"'))
        assert "soak" in bench.state.clocks
        assert bench.until(bars).prompt.question == "clock"


def test_a_step_of_several_acts_starts_its_clock_with_the_last() -> None:
    bench = at("lip-in/ask", clock('starts = "lip-in"\nleast = "30 min"\nbars = "F-tight"'))
    assert "soak" not in bench.state.clocks
    bench.go_on()
    assert "soak" in bench.state.clocks


def test_what_comes_too_late_is_refused_but_a_person_may_take_it_over() -> None:
    bench = at(
        "cover-on",
        clock('starts = "lip-in"\nmost = "30 min"\nbars = "cover-on"\nbecause = "the grease skins over"'),
    )
    in_time = bench.copied()
    in_time.now = bench.state.clocks["soak"].at + timedelta(minutes=30)
    in_time.say("-110 NBR")
    bench.now = bench.state.clocks["soak"].at + timedelta(minutes=30, seconds=1)
    outcome = bench.answer("-110 NBR")
    assert outcome is not None and [each.rule for each in outcome.refusals] == ["clock-ran-out"]
    assert outcome.passable and "the grease skins over" in outcome.refusals[0].wrong
    assert bench.answer("-110 NBR", over="it is still soft") is None


def test_a_machine_whose_clock_is_set_back_gives_no_time_to_what_may_last_no_longer() -> None:
    soak = clock('starts = "lip-in"\nmost = "30 min"\nbars = "cover-on"')
    bench = at("cover-on", soak)
    bench.now = bench.state.clocks["soak"].at + timedelta(minutes=29)
    bench.carry_out(commands.remark(bench.state, "the machine is five hours ahead", bench.now))
    bench.now -= timedelta(hours=5)
    bench.carry_out(commands.remark(bench.state, "set right", bench.now))
    bench.now += timedelta(minutes=2)
    assert bench.refused("-110 NBR") == ["clock-ran-out"]


def test_nor_before_the_record_has_noticed_it() -> None:
    bench = at("cover-on", clock('starts = "lip-in"\nmost = "30 min"\nbars = "cover-on"'))
    bench.now = bench.state.clocks["soak"].at + timedelta(minutes=31)
    bench.carry_out(commands.remark(bench.state, "the machine is five hours ahead", bench.now))
    bench.now -= timedelta(hours=5)
    assert bench.refused("-110 NBR") == ["clock-ran-out"]


def test_a_clock_that_is_set_back_does_not_shorten_a_cure() -> None:
    bench = at("cure", LOCKER, CURE)
    end = bench.prompt.until
    bench.now -= timedelta(hours=1)
    bench.carry_out(commands.remark(bench.state, "set right", bench.now))
    assert bench.prompt.until == end


def test_thread_locker_sets_on_while_the_clock_is_set_back() -> None:
    bench = at("F-tight/tighten:F round 1 position 2", LOCKER)
    bench.now = bench.state.run_in["F"] + timedelta(minutes=9)
    bench.carry_out(commands.remark(bench.state, "the machine is an hour ahead", bench.now))
    bench.now -= timedelta(hours=1)
    bench.carry_out(commands.remark(bench.state, "set right", bench.now))
    bench.now += timedelta(minutes=2)
    assert bench.refused("10") == ["handling-time-over"]


def test_a_cure_that_was_waited_for_is_waited_for_again_when_its_group_was_loose() -> None:
    bench = at("spin", LOCKER, CURE)
    assert bench.state.fact("cure/wait:F cure") is not None
    bench.carry_out(commands.go_back(bench.state, "cover", "it was wet", bench.now))
    bench.go_on()
    assert bench.state.fact("cure/wait:F cure") is None
    bench.until("cure/wait:F cure")
    assert bench.refused("") == ["clock-still-runs"]


def test_a_clock_stops_when_the_step_that_started_it_is_void() -> None:
    bench = at("cover-on", clock('starts = "lip-in"\nleast = "30 min"\nbars = "release"'))
    bench.carry_out(commands.go_back(bench.state, "lip", "it is torn", bench.now))
    bench.go_on()
    assert "soak" not in bench.state.clocks
    assert "soak" in bench.until("cover-on").state.clocks


def test_release_waits_for_every_clock() -> None:
    bench = at("release", clock('starts = "lip-in"\nleast = "30 min"\nbars = "F-tight"'))
    assert running(bench.state, bench.now) == ()
    assert bench.to_the_end().state.outcome == "released"


# ---------------------------------------------------------------------- the main pump


def test_the_main_pump_is_not_tested_at_23_hours_and_50_minutes() -> None:
    bench = Bench(main_job(), "-05").until("cure")
    assert bench.prompt.until is not None
    bench.now = bench.prompt.until - timedelta(minutes=10)
    assert bench.refused("") == ["clock-still-runs"]


@pytest.mark.parametrize("target", ["head", "impeller", "nut", "F3"])
def test_on_the_main_pump_the_cure_starts_again_when_the_nut_was_off(target: str) -> None:
    bench = Bench(main_job(), "-05").until("volute-on")
    assert "F3 cure" in bench.state.clocks
    bench.carry_out(commands.go_back(bench.state, target, "dirt on the faces", bench.now))
    while engine.next_act(bench.state) is not None and bench.asked.startswith("going back"):
        bench.go_on()
    assert "F3 cure" not in bench.state.clocks
    bench.until("volute-on")
    assert "F3 cure" in bench.state.clocks


def test_the_can_has_no_clock() -> None:
    assert not Bench(tiny_job(CAN)).until("release").state.clocks
