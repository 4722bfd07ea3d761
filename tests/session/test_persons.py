"""People at the bench: spellings, two who may be one, names asked again, departures repeated."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from benchcheck.procedure.registers import PeopleRegister, Person
from benchcheck.session import commands, engine
from benchcheck.session.events import Deviation, PositionDisposed, SignedOff, SignedOn
from benchcheck.session.prompt import Outcome
from benchcheck.session.state import Job
from tests.pumps import CAN, SECOND, TECHNICIAN, THIRD, can_with, registers, tiny_job
from tests.session.bench import Bench

HOLD = ('id = "gap"\n', 'id = "gap"\nwitness = true\n')
WAIT = (
    '[[step]]\nid = "gap"',
    '[[clock]]\nid = "rest"\nstarts = "F-tight"\nleast = "24 h"\nbars = "release"\n\n'
    '[[step]]\nid = "rested"\nact = "wait"\nclock = "rest"\n\n[[step]]\nid = "gap"',
)


def with_people(*people: Person, text: str = CAN) -> Job:
    """The can in a shop with other people besides those of the demonstration."""
    all_people = (*registers().people.person, *people)
    return replace(
        tiny_job(text), registers=replace(registers(), people=PeopleRegister(format=1, person=all_people))
    )


# ---------------------------------------------------------------------- spellings


def test_another_spelling_is_taken_for_the_entry_and_that_is_said_and_recorded() -> None:
    bench = Bench(tiny_job(CAN))
    bench.say("t  sample")
    (event,) = bench.events(SignedOn)
    assert isinstance(event, SignedOn) and (event.name, event.typed) == (TECHNICIAN, "t sample")
    assert bench.prompt.notes[0] == '"t sample" is taken for T. Sample of the register'
    bench.go_on()
    assert not any("is taken for" in note for note in bench.prompt.notes)


def test_the_spelling_of_the_register_is_no_news() -> None:
    bench = Bench(tiny_job(CAN))
    bench.say(TECHNICIAN)
    (event,) = bench.events(SignedOn)
    assert isinstance(event, SignedOn) and event.typed == ""


def test_a_slip_of_the_hand_is_answered_with_the_name_that_was_perhaps_meant() -> None:
    bench = Bench(tiny_job(CAN))
    outcome = bench.answer("T. Samlpe")
    assert outcome is not None
    assert outcome.refusals[0].mend == 'if you are "T. Sample", write it so'
    stranger = bench.answer("X. Nobody")
    assert stranger is not None and stranger.refusals[0].mend == "write it as it stands there"


def test_who_may_not_is_told_who_may() -> None:
    outcome = Bench(tiny_job(CAN)).answer("R. Outline")
    assert outcome is not None
    assert outcome.refusals[0].mend.startswith("call one who is: T. Sample, K. Sketch, W. Specimen")


def test_two_entries_that_may_be_one_person_are_no_two_people() -> None:
    tom = Person(name="Tom Sample", may=("witness", "dispose", "release"))
    bench = Bench(with_people(tom, text=can_with(HOLD))).until("gap/witness")
    assert bench.refused("Tom Sample") == ["perhaps-one-person"]
    two = Person(name="Tom Sample", may=("witness", "dispose", "release"), other_than=(TECHNICIAN,))
    bench = Bench(with_people(two, text=can_with(HOLD))).until("gap/witness")
    bench.say("tom sample")


def test_nor_do_they_decide_on_each_others_departures() -> None:
    tom = Person(name="Tom Sample", may=("dispose",))
    bench = Bench(with_people(tom)).until("cover-on/fit")
    assert bench.answer("-111 NBR", over="no other is left") is None
    decided = commands.dispose(bench.state, 1, "use as is", "Tom Sample", "it will do", bench.now)
    assert isinstance(decided, Outcome) and decided.refusals[0].rule == "perhaps-one-person"


def test_who_did_what_is_looked_at_is_no_witness_of_it_though_another_works_now() -> None:
    both = Person(name="B. Pattern", may=("work", "witness"))
    look = (
        '[[step]]\nid = "cover-on"',
        '[[step]]\nid = "look"\nact = "check"\nof = ["lip"]\nwitness = true\n\n[[step]]\nid = "cover-on"',
    )
    bench = Bench(with_people(both, text=can_with(look)))
    bench.say("B. Pattern")
    while not bench.asked.startswith("look"):
        bench.go_on()
    bench.carry_out(commands.sign_on(bench.state, TECHNICIAN, bench.now))
    bench.until("look/witness")
    assert bench.refused("B. Pattern") == ["witness-is-the-doer"]
    bench.say(SECOND)


# ---------------------------------------------------------------------- names asked again


def test_after_the_idle_time_of_the_shop_the_name_is_asked_again() -> None:
    bench = Bench(tiny_job(CAN)).until("gap")
    assert bench.state.at is not None
    limit = timedelta(seconds=float(registers().shop.idle.si))
    assert engine.idle(bench.state, bench.state.at + limit) is None
    away = engine.idle(bench.state, bench.state.at + limit + timedelta(seconds=1))
    assert away == limit + timedelta(seconds=1)
    off = SignedOff(name=TECHNICIAN, idle_seconds=1201)
    bench.carry_out(engine.written(bench.state, (off,), bench.now + limit))
    assert bench.asked == "name"
    bench.say(TECHNICIAN)
    assert bench.asked.startswith("gap"), "the pump was not left: nothing is read again"


def test_another_who_signs_on_then_takes_over() -> None:
    bench = Bench(tiny_job(CAN)).until("gap")
    bench.carry_out(engine.written(bench.state, (SignedOff(name=TECHNICIAN, idle_seconds=1300),), bench.now))
    bench.say(SECOND)
    assert bench.asked == "handover left" and "serial" in bench.state.read_again


def test_a_clock_that_runs_stays_on_show_and_who_comes_after_it_signs_on() -> None:
    bench = Bench(tiny_job(can_with(WAIT))).until("rested")
    until = bench.prompt.until
    assert until is not None
    assert engine.idle(bench.state, until - timedelta(seconds=1)) is None
    assert engine.idle(bench.state, until) is not None


# ---------------------------------------------------------------------- repeated, conceded


def test_a_departure_that_comes_again_names_the_earlier_ones() -> None:
    bench = Bench(tiny_job(CAN)).until("lip-in/ask")
    assert bench.carry_out(engine.leave_out(bench.state, "no gauge", bench.now)) is None
    bench.until("cover-on/fit")
    assert bench.answer("-111 NBR", over="no other is left") is None
    bench.until("gap/ask")
    assert bench.carry_out(engine.leave_out(bench.state, "no gauge again", bench.now)) is None
    again = [event.again for event in bench.events(Deviation) if isinstance(event, Deviation)]
    assert again == [(), (), (1,)]


@pytest.mark.parametrize(
    ("expires", "rule"), [("2026-11-01", "concession-expired"), ("soon", "not-a-day"), ("2026-11-03", "")]
)
def test_a_position_may_be_used_as_it_is_up_to_a_day(expires: str, rule: str) -> None:
    bench = Bench(tiny_job(CAN)).until("F-tight/tighten:F round 2")
    decided = commands.dispose_position(
        bench.state, "F", 1, "use as is", THIRD, "it turns", bench.now, limit="5 bar", expires=expires
    )
    outcome = bench.carry_out(decided)
    assert (outcome.refusals[0].rule if outcome is not None else "") == rule
    if not rule:
        (event,) = bench.events(PositionDisposed)
        assert isinstance(event, PositionDisposed) and (event.limit, event.expires) == ("5 bar", expires)
        bench.until("release")
        bench.now += timedelta(days=2)
        bench.cut()
        bench.arrive()
        assert "concession-expired" in bench.refused(THIRD)
