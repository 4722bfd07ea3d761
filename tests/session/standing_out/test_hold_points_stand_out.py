"""Hold points: nobody there, there too late, there for own work; and summaries that claim what is not so."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import cache

from benchcheck.session.course import Course
from benchcheck.session.events import Closed, Event, PartInstalled, SignedOn, Witnessed
from benchcheck.session.fold import beginning, folded
from benchcheck.session.remarks import Remark, Weight, kind
from tests.pumps import SECOND, TECHNICIAN, THIRD, can_with
from tests.session.bench import Bench
from tests.session.courses import can_bench, course_of, said

SEEN = can_with(
    (
        '[[step]]\nid = "cover-on"',
        """[[step]]
id = "lip-look"
act = "check"
of = ["lip"]
witness = true

[[step]]
id = "cover-on\"""",
    ),
    ('rings = ["G"]\n', 'rings = ["G"]\nwitness = true\n'),
)
"""The can with two hold points: one after the lip is in, one as the cover goes on."""


@cache
def released() -> Bench:
    return can_bench(SEEN).to_the_end()


def said_of(name: str, course: Course) -> list[Remark]:
    return list(kind(name).look(course))


def without_witness(what: type[Witnessed] | type[PartInstalled]) -> Course:
    """The released can as it would be recorded if nobody had looked."""
    course = course_of(released())
    events: list[Event] = []
    for event in course.events:
        if isinstance(event, Witnessed) and what is Witnessed:
            continue
        if isinstance(event, PartInstalled) and what is PartInstalled:
            event = replace(event, witness="")
        events.append(replace(event, number=len(events) + 1))
    state = folded(beginning(course.state.job, course.state.header), events)
    return Course(state, tuple(events))


def test_a_hold_point_without_its_witness_cannot_be_accepted() -> None:
    (remark,) = said_of("witness missing", without_witness(Witnessed))
    assert remark.weight is Weight.OPEN and "lip-look" in remark.sentence
    (remark,) = said_of("witness missing", without_witness(PartInstalled))
    assert "cover-on" in remark.sentence


def test_with_its_witnesses_and_while_it_is_open_no_witness_is_missing() -> None:
    assert not said("witness missing", released())
    assert not said("witness missing", can_bench(SEEN).until("lip-look/witness"))


def test_a_witness_who_comes_after_a_long_pause_is_late() -> None:
    bench = can_bench(SEEN).until("lip-look/witness")
    bench.now += timedelta(minutes=40)
    bench.go_on(2)
    (remark,) = said("witness late", bench)
    assert remark.sentence.startswith(f"{SECOND} looked 40 min after") and remark.weight is Weight.DEPARTS


def test_a_witness_who_comes_after_the_pump_was_left_is_late() -> None:
    bench = can_bench(SEEN).until("lip-look/witness")
    bench.cut(stopped=True)
    bench.arrive()
    bench.go_on(2)
    assert len(said("witness late", bench)) == 1


def test_a_witness_who_comes_within_the_pause_that_is_allowed_is_not() -> None:
    bench = can_bench(SEEN).until("lip-look/witness")
    bench.now += timedelta(minutes=14)
    bench.go_on(2)
    assert not said("witness late", bench)


def test_who_did_the_work_is_no_witness_of_it() -> None:
    # The bench refuses such a witness now; a record may be older, or made elsewhere.
    bench = can_bench(SEEN)
    bench.say(SECOND)
    bench.until("lip-look/witness")
    bench.cut()
    bench.arrive(TECHNICIAN)
    bench.say(THIRD)
    course = course_of(bench.until("cover-on"))
    assert not said_of("own work confirmed", course)
    events = tuple(
        replace(each, name=SECOND) if isinstance(each, Witnessed) else each for each in course.events
    )
    (remark,) = said_of("own work confirmed", replace(course, events=events))
    assert remark.sentence.startswith(f"{SECOND} stood witness for own work")


def test_who_worked_on_the_pump_does_not_release_it() -> None:
    course = course_of(released())
    assert not said_of("own work confirmed", course)
    closed = course.state.closed
    assert closed is not None
    worked = SignedOn(number=2, at=course.events[1].at, by=closed.second, name=closed.second)
    events = (course.events[0], worked, *course.events[2:])
    (remark,) = said_of("own work confirmed", replace(course, events=events))
    assert closed.second in remark.sentence


def test_a_summary_that_claims_less_is_untrue() -> None:
    course = course_of(released())
    assert not said_of("summary untrue", course)
    closed = course.state.closed
    assert isinstance(closed, Closed)
    lying = replace(course, state=replace(course.state, closed=replace(closed, readings=closed.readings - 1)))
    (remark,) = said_of("summary untrue", lying)
    assert remark.weight is Weight.BROKEN and "readings" in remark.sentence
