"""What departed stands out: deviations, decided on or not; what was undone, corrected, outside at first."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from benchcheck.session import commands
from benchcheck.session.course import Course
from benchcheck.session.events import Corrected, Deviation, Disposed, Measured, WentBack
from benchcheck.session.remarks import Weight, kind
from tests.pumps import THIRD
from tests.session.bench import Bench
from tests.session.courses import can_bench, course_of, events_said, said


def with_wrong_ring() -> Bench:
    """A ring of another size is taken over, with a reason."""
    bench = can_bench().until("cover-on/fit:G")
    assert bench.answer("-111 NBR", over="the kit holds no other") is None
    return bench


def test_a_deviation_is_open_until_it_is_decided_on() -> None:
    bench = with_wrong_ring()
    (open_one,) = said("deviation open", bench)
    assert open_one.weight is Weight.OPEN
    assert [type(each) for each in events_said("deviation open", bench)] == [Deviation]
    assert not said("deviation decided", bench)

    bench.decide()
    assert not said("deviation open", bench)
    (decided,) = said("deviation decided", bench)
    assert decided.sentence.endswith(f"use as is, decided by {THIRD}.")
    assert [type(each) for each in events_said("deviation decided", bench)] == [Disposed]


def test_the_right_ring_is_no_deviation() -> None:
    bench = can_bench().until("cover-on/fit:G")
    bench.say("-110 NBR")
    assert not said("deviation open", bench) and not said("deviation decided", bench)


def test_a_departure_that_comes_again_stands_out() -> None:
    course = course_of(with_wrong_ring())
    (once,) = course.state.deviations
    look = kind("deviation repeated").look
    assert not list(look(course))

    def twice(again: tuple[int, ...]) -> Course:
        second = replace(once, number=90, deviation=2, again=again)
        return replace(course, state=replace(course.state, deviations=(once, second)))

    assert not list(look(twice(())))
    (remark,) = look(twice((1,)))
    assert remark.event == 90 and remark.sentence.startswith("Deviation 2 repeats deviation 1: ")


def test_a_position_that_was_disposed_of_is_a_decision() -> None:
    bench = can_bench().until("F-tight/tighten:F round 2")
    decided = commands.dispose_position(bench.state, "F", 2, "use as is", THIRD, "the screw turns", bench.now)
    assert bench.carry_out(decided) is None
    (remark,) = said("deviation decided", bench)
    assert remark.sentence == f"Cover screws, position 2: use as is, decided by {THIRD}."


def test_what_was_gone_back_for_is_read() -> None:
    bench = can_bench().until("F-tight/tighten:F")
    assert not said("step redone", bench)
    bench.carry_out(commands.go_back(bench.state, "lip", "it may be scratched", bench.now))
    (remark,) = said("step redone", bench)
    assert remark.weight is Weight.DEPARTS and "it may be scratched" in remark.sentence
    assert [type(each) for each in events_said("step redone", bench)] == [WentBack]


def test_a_corrected_answer_is_read() -> None:
    bench = can_bench().until("bore/ask")
    bench.say("30.02")
    number = bench.state.number
    assert not said("step redone", bench)
    bench.carry_out(commands.correct(bench.state, number, "read the wrong line", bench.now))
    assert [type(each) for each in events_said("step redone", bench)] == [Corrected]


def test_a_reading_outside_at_first_is_read_and_one_at_its_limit_is_not() -> None:
    bench = can_bench().until("bore/ask")
    bench.say("30.06")
    (remark,) = said("step redone", bench)
    assert remark.sentence == "bore of the seat was 30.06 mm, outside its limits."
    assert [type(each) for each in events_said("step redone", bench)] == [Measured]

    bench = can_bench().until("bore/ask")
    bench.say("30.05")
    assert not said("step redone", bench)


def test_a_concession_is_said_a_month_before_its_last_day_and_past_it_it_is_open() -> None:
    bench = with_wrong_ring()
    decided = commands.dispose(
        bench.state, 1, "use as is", THIRD, "it will do", bench.now, limit="water only", expires="2027-03-31"
    )
    assert bench.carry_out(decided) is None

    def on(day: date) -> list[tuple[Weight, str]]:
        return [(each.weight, each.sentence) for each in said("concession expires", bench, today=day)]

    assert on(date(2027, 2, 28)) == []
    ((weight, sentence),) = on(date(2027, 3, 1))
    assert weight is Weight.ODD and "water only" in sentence and "ends in 30 d" in sentence
    assert "ends today" in on(date(2027, 3, 31))[0][1]
    assert on(date(2027, 4, 1))[0][0] is Weight.OPEN
    assert said("concession expires", bench) == []
