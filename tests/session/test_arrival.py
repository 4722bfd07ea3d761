"""Coming to the bench, and coming back: who works, and whether the pump is still what the record says."""

from __future__ import annotations

from datetime import timedelta

import pytest

from benchcheck.procedure.model import Procedure
from benchcheck.session import arrival, engine
from benchcheck.session.arrival import same_serial
from benchcheck.session.events import GrooveFound, PositionTightened, PositionTurned, ReadAgain
from tests.pumps import CAN, NOW, REVIEWER, TECHNICIAN, can_with, tiny_job
from tests.session.bench import Bench

TURNED_ON = ('rounds = ["50 %", "100 %"]\n', 'angle = { add = "45 °", tolerance = "5 °" }\n')


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


# ---------------------------------------------------------------------- who works


def test_nothing_is_asked_before_the_name_of_who_works() -> None:
    bench = Bench(tiny_job(CAN))
    assert bench.asked == "name" and bench.prompt.act == ""
    assert bench.refused("N. Body") == ["person-not-known"]
    assert bench.refused(REVIEWER) == ["person-not-entitled"]
    assert bench.refused("") == ["nothing-answered"]
    bench.say("  t. SAMPLE ")
    assert bench.state.technician == TECHNICIAN and bench.state.people == (TECHNICIAN,)


def test_who_is_in_the_register_until_a_day_works_that_day_too() -> None:
    for later, taken in ((timedelta(0), True), (timedelta(days=3650), False)):
        bench = Bench(tiny_job(CAN))
        bench.now = NOW + later
        outcome = bench.answer("K. Sketch")
        assert (outcome is None) is taken


# ---------------------------------------------------------------------- after a pause


def test_after_a_cut_the_serial_the_poses_and_the_open_grooves_are_asked_again() -> None:
    bench = at("cover-on/install")
    bench.cut()
    assert bench.asked == "name"
    bench.say(TECHNICIAN)
    assert bench.state.read_again == ("serial", "pose body", "groove G")
    assert bench.asked == "serial"
    bench.say("rehearsal")
    assert bench.asked == "pose body"
    bench.say("bottom")
    assert bench.state.assembly.poses == {"body": "bottom"}
    assert bench.asked == "groove G"
    bench.say("one ring")
    assert bench.asked == "cover-on/install:cover pose", "it lies the other way now"
    assert [event.kind for event in bench.events(ReadAgain)] == ["read again"] * 3


@pytest.mark.parametrize("other", ["SN 4711", "REHEARSA", "0", "REHEARSAL 2"])
def test_another_serial_is_another_pump(other: str) -> None:
    bench = at("cover-on/install")
    bench.cut()
    bench.say(TECHNICIAN)
    assert bench.refused(other) == ["another-pump"]
    assert bench.state.read_again[0] == "serial"


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [("4471", "4471", True), ("SN 4471/a", "sn4471/A", True), ("4471", "4477", False), ("ẞ1", "ss1", True)],
)
def test_blanks_and_case_do_not_tell_serials_apart(one: str, other: str, same: bool) -> None:
    assert same_serial(one, other) is same


@pytest.mark.parametrize("found", ["empty", "more than one"])
def test_a_groove_found_otherwise_is_recorded_and_its_ring_fitted_again(found: str) -> None:
    bench = at("cover-on/install")
    bench.cut()
    bench.arrive_until("groove G")
    bench.say(found)
    (event,) = bench.events(GrooveFound)
    assert isinstance(event, GrooveFound) and (event.groove, event.found) == ("G", found)
    assert bench.asked == "cover-on/fit:G size" and not bench.state.assembly.sealed


def test_a_closed_groove_is_not_asked_for() -> None:
    bench = at("F-tight")
    bench.cut()
    bench.say(TECHNICIAN)
    assert bench.state.read_again == ("serial", "pose body")


def test_an_answer_half_given_is_given_again() -> None:
    bench = at("cover-on/install:cover mark")
    assert bench.state.hand
    bench.cut()
    bench.arrive()
    assert bench.state.hand == {} and bench.asked == "cover-on/install:cover place"


def test_a_groove_filled_before_the_pause_is_looked_at_before_it_is_hidden() -> None:
    bench = at("cover-on/install")
    assert bench.copied().until("F-tight").state.number - bench.state.number == 3
    bench.cut()
    bench.arrive()
    bench.until("cover-on/install:cover groove G")


def test_a_second_cut_before_anything_was_read_forgets_nothing() -> None:
    bench = at("cover-on/install")
    bench.cut()
    bench.say(TECHNICIAN, "REHEARSAL")
    bench.cut()
    bench.say(TECHNICIAN)
    assert bench.state.read_again == ("serial", "pose body", "groove G")


def test_poses_of_all_works_on_the_bench_are_asked() -> None:
    from tests.pumps import main_job

    bench = Bench(main_job(), "-05").until("excluder-in/ask")
    bench.cut()
    bench.say(TECHNICIAN)
    assert {"pose body", "pose cartridge"} <= set(bench.state.read_again)


# ---------------------------------------------------------------------- inside a round


def test_a_torque_round_that_was_cut_starts_again_and_the_rounds_before_it_stand() -> None:
    bench = at("F-tight/tighten:F round 2 position 2")
    bench.cut()
    bench.arrive()
    bench.until("F-tight/tighten:F round")
    assert bench.asked == "F-tight/tighten:F round 2 position 1"
    bench.to_the_end()
    rounds = [
        event.round for event in bench.events(PositionTightened) if isinstance(event, PositionTightened)
    ]
    assert rounds == [1] * 4 + [2] * 2 + [2] * 4


def test_the_wrench_is_taken_anew_after_a_pause() -> None:
    """Its setting may have been changed, and an electronic one may show another unit."""
    bench = at("F-tight/tighten:F round 1 position 3")
    bench.cut()
    bench.arrive()
    assert bench.asked == "F-tight/tighten:F wrench F"


def test_a_check_pass_that_was_cut_starts_again() -> None:
    bench = at("F-tight/tighten:F pass 3")
    bench.cut()
    bench.arrive()
    bench.until("F-tight/tighten:F pass")
    assert bench.asked == "F-tight/tighten:F pass 1"


def test_angles_are_not_given_twice_those_given_stand() -> None:
    bench = at("F-tight/tighten:F turn 2", TURNED_ON)
    assert len(bench.events(PositionTurned)) == 2
    bench.cut()
    bench.arrive()
    bench.until("F-tight/tighten:F turn")
    assert bench.asked == "F-tight/tighten:F turn 2"
    bench.to_the_end()
    turned = [event.position for event in bench.events(PositionTurned) if isinstance(event, PositionTurned)]
    assert sorted(turned) == [1, 2, 3, 4]


def test_a_snug_round_before_the_angles_starts_again() -> None:
    bench = at("F-tight/tighten:F round 1 position 2", TURNED_ON)
    bench.cut()
    bench.arrive()
    bench.until("F-tight/tighten:F round")
    assert bench.asked == "F-tight/tighten:F round 1 position 1"


def test_between_rounds_nothing_is_lost() -> None:
    bench = at("F-tight/tighten:F round 2 position 1")
    bench.cut()
    bench.arrive()
    bench.until("F-tight/tighten:F round")
    assert bench.asked == "F-tight/tighten:F round 2 position 1"


# ---------------------------------------------------------------------- a long pause


def test_a_long_pause_is_told_from_a_short_one() -> None:
    bench = at("cover-on/install")
    pause: Procedure = bench.state.job.procedure
    limit = timedelta(seconds=pause.procedure.long_pause.si)
    assert limit == timedelta(minutes=15)
    assert bench.state.at is not None
    assert engine.long_pause(bench.state, bench.state.at + limit - timedelta(seconds=1)) is None
    assert engine.long_pause(bench.state, bench.state.at + limit + timedelta(seconds=1)) is not None


def test_the_careful_technician_comes_back_as_the_same_person() -> None:
    bench = at("cover-on/install")
    bench.cut()
    assert arrival.careful(bench.state, bench.prompt) == TECHNICIAN
