"""What is noted of a session along the way: what stands, what was undone, and by what."""

from __future__ import annotations

from datetime import timedelta

from benchcheck.report.journal import Proof, Voiding
from benchcheck.session import commands
from benchcheck.session.events import Measured, PositionTightened, TakenUp
from tests.report import sample


def test_a_careful_session_voids_nothing() -> None:
    journal = sample.released()
    assert journal.voidings == () and journal.corrected == frozenset()
    assert [(run.group, run.loosened, len(run.turned), run.lost) for run in journal.runs] == [
        ("F1", 0, 8, set()),
        ("F2", 0, 1, set()),
    ]
    assert all(journal.stands(event) for event in journal.of(Measured))


def test_a_corrected_answer_does_not_stand_and_the_next_one_does() -> None:
    bench = sample.Bench()
    bench.until("measure/ask")
    bench.answer("0.03")
    wrong = bench.events[-1].number
    bench.command(commands.correct, wrong, "read the wrong line")
    correction = bench.events[-1].number
    bench.answer("0.02")
    journal = bench.journal()
    assert journal.voidings == (Voiding("measure/ask:0", wrong, correction, correction + 1),)
    assert [(each.value, journal.stands(each)) for each in journal.of(Measured)] == [
        (0.03, False),
        (0.02, True),
    ]


def test_a_fact_that_is_not_done_again_says_so() -> None:
    bench = sample.Bench()
    bench.until("nut-on/install:nut")
    bench.command(commands.go_back, "cover", "a screw is the wrong one")
    bench.until("cover-on/install:cover")
    voided = {each.act: each.again for each in bench.journal().voidings}
    assert voided["tighten/tighten:F1"] == 0 and voided["cover-on/install:cover"] == 0


def test_a_loosened_group_begins_a_new_run() -> None:
    bench = sample.Bench()
    bench.until("cure/wait")
    bench.command(commands.go_back, "nut", "the wrong locker")
    bench.finish()
    first, second = (run for run in bench.journal().runs if run.group == "F2")
    assert first.loosened and not second.loosened and second.began > first.loosened
    assert len(first.turned) == len(second.turned) == 1


def test_a_round_begun_again_leaves_its_first_part_uncounted() -> None:
    bench = sample.Bench()
    bench.until("tighten/tighten:F1", "round 2 position 2")
    before = [
        event.number for event in bench.events if isinstance(event, PositionTightened) and event.round == 2
    ]
    bench.now += timedelta(hours=1)
    bench.happen(TakenUp(stopped=False, pause_seconds=3600))
    # Until it is done again, what was done in that round does not count.
    (run,) = bench.journal().runs
    assert run.lost == set(before) and len(before) == 2
    bench.finish()
    journal = bench.journal()
    assert journal.runs[0].lost == set(before)
    # the nut's, two readings, and what the wrench showed in the check pass of four screws
    assert journal.state.readings == len(journal.runs[0].turned) + 1 + 2 + 4


def test_times_are_those_of_the_records_own_zone() -> None:
    journal = sample.released()  # made at 07:00 UTC, in a record of a bench two hours ahead
    assert journal.when("2026-11-02T07:00:15.000+00:00").words == "2 Nov 09:00"
    assert journal.when("2026-11-02T07:00:15.000+00:00").iso == "2026-11-02T09:00:15+02:00"
    assert journal.day("2026-11-02T22:30:00+00:00") == "Tuesday 3 November 2026, 00:30"


def test_a_zone_that_is_not_known_here_leaves_times_as_written() -> None:
    bench = sample.Bench(time_zone="Mars/Olympus")
    bench.until("open/")
    assert bench.journal().when("2026-11-02T07:00:15+01:00").words == "2 Nov 07:00"


def test_an_end_is_never_promised_too_early() -> None:
    journal = sample.released()
    assert journal.until(sample.BEGINS) == "Monday 2 November 2026, 09:00"
    assert journal.until(sample.BEGINS + timedelta(seconds=1)) == "Monday 2 November 2026, 09:01"


def test_the_check_value_is_written_as_it_is_typed_back() -> None:
    assert Proof("x.toml", 58, "210daefef49aa3837aaf").check == "58: 210d aefe f49a"
    assert Proof("x.toml", 0, "").check == "none"
