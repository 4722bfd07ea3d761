"""How a session ends, and that the summary of its end is true, or is found not to be."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest

from benchcheck.session import commands
from benchcheck.session.closing import CLAIMS, agrees, summary
from benchcheck.session.events import ActEvent, Closed, Event
from tests.pumps import CAN, REVIEWER, TECHNICIAN, THIRD, main_job, tiny_job
from tests.session.bench import Bench


def released() -> Bench:
    return Bench(tiny_job(CAN)).to_the_end()


def test_the_summary_says_what_the_events_add_up_to() -> None:
    bench = Bench(main_job(), "-05").to_the_end()
    closed = bench.state.closed
    assert closed is not None
    assert (closed.outcome, closed.serial, closed.variant) == ("released", "REHEARSAL", "-05")
    assert closed.steps_done == len(bench.state.pump.steps) == 59
    assert closed.people[0] == TECHNICIAN and closed.second == THIRD and closed.second in closed.people
    kinds = ("measured", "position tightened", "position checked")
    # A check pass is a reading where the wrench shows one.
    counted = [each for each in bench.events() if each.kind in kinds and each.as_table().get("unit")]
    assert closed.readings == len(counted)
    assert closed.lots == ("LOT-1",)
    assert set(closed.wrenches) == {event.wrench for event in counted if hasattr(event, "wrench")}
    assert agrees(bench.state) == ()


def test_the_summary_stays_true_when_a_reviewer_has_spoken() -> None:
    bench = released()
    bench.carry_out(commands.judge(bench.state, "accepted", REVIEWER, "all is there", bench.now))
    assert agrees(bench.state) == ()


def test_a_reviewers_word_repeats_the_summary_and_is_held_against_it() -> None:
    bench = released()
    bench.carry_out(commands.judge(bench.state, "accepted", REVIEWER, "all is there", bench.now))
    judged = bench.state.judged
    assert judged is not None and judged.readings == bench.state.readings
    wrong = replace(bench.state, judged=replace(judged, readings=judged.readings + 1))
    assert [each.partition(" says")[0] for each in agrees(wrong)] == ["readings: the reviewer's summary"]


@pytest.mark.parametrize("where", ["open", "cover-on", "F-tight/tighten:F round 2", "release"])
def test_the_summary_of_a_session_that_ends_early_is_true_too(where: str) -> None:
    bench = Bench(tiny_job(CAN)).until(where)
    bench.carry_out(commands.close(bench.state, "scrapped", "cracked", bench.now))
    assert agrees(bench.state) == ()
    assert bench.state.closed is not None and bench.state.closed.steps_done < len(bench.state.pump.steps)


def test_after_departures_corrections_and_ways_back_it_is_true() -> None:
    bench = Bench(tiny_job(CAN)).until("cover-on/fit")
    bench.answer("-111 NBR", over="no other is left")
    bench.until("F-tight/tighten:F round 1 position 2")
    last = bench.events(ActEvent)[-1]
    bench.carry_out(commands.correct(bench.state, last.number, "slipped", bench.now))
    bench.carry_out(commands.go_back(bench.state, "lip", "it leaks", bench.now))
    bench.to_the_end_with_decisions()
    closed = bench.state.closed
    assert closed is not None and closed.outcome == "released"
    assert closed.deviations == 1 and closed.voided > 3
    assert agrees(bench.state) == ()


@pytest.mark.parametrize("name", CLAIMS)
def test_a_false_claim_is_named(name: str) -> None:
    bench = released()
    claim = bench.state.closed
    assert claim is not None
    value = getattr(claim, name)
    other: Any = "another"
    if isinstance(value, tuple):
        other = (*value, "another")
    elif isinstance(value, int):
        other = value + 1
    false = replace(bench.state, closed=replace(claim, **{name: other}))
    assert agrees(false) == (f"{name}: the summary says {other}, the events say {value}",)


def test_every_field_of_the_closing_event_is_a_claim_or_a_word_of_its_own() -> None:
    own = {field.name for field in fields(Closed)} - {field.name for field in fields(Event)}
    assert own == {*CLAIMS, "outcome", "reason", "second", "keys"}


def test_an_open_session_claims_nothing() -> None:
    assert agrees(Bench(tiny_job(CAN)).until("cover-on").state) == ()


def test_a_summary_is_made_of_the_state_alone() -> None:
    bench = Bench(tiny_job(CAN)).until("gap")
    assert summary(bench.state, "scrapped") == summary(bench.state, "scrapped")


def test_practice_is_never_released() -> None:
    bench = Bench(tiny_job(CAN)).until("cover-on")
    bench.state = replace(bench.state, header=replace(bench.state.header, practice=True))
    bench.to_the_end()
    assert bench.state.outcome == "practice ended" and agrees(bench.state) == ()
