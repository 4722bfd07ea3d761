"""Trends over sessions on the small pump of the reports' tests, with their figures worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

from benchcheck.mechanics.run_rules import BEYOND_LIMIT
from benchcheck.session import commands
from benchcheck.session.events import PositionRepaired, PositionTightened
from benchcheck.session.trace.past import Past
from benchcheck.session.trends import GroupTrend, Trends, trends
from tests.report import sample
from tests.session.trace.test_tightenings import past_of
from tests.session.trace.test_uses import careful, taken_apart

COVER = "F1"


def session(
    day: int, *readings: float, wrench: str = "W-1", how: str = "showed", practice: bool = False
) -> Past:
    """The careful session some days later, whose cover screws showed these in their order 1, 3, 2, 4."""
    past, values = careful(), iter(readings)
    events = []
    for event in past.events:
        at = (past.local(event.at) + timedelta(days=day)).isoformat()
        event = replace(event, at=at)
        if isinstance(event, PositionTightened) and (event.group, event.round) == (COVER, 2):
            event = replace(event, value=next(values), wrench=wrench, how=how)
        events.append(event)
    header = replace(past.header, serial=f"SN-{day}", opened=events[0].at, practice=practice)
    return replace(past, file=f"SN-{day}.toml", header=header, events=tuple(events))


def gathered(*pasts: Past, group: str | None = COVER) -> Trends:
    return trends("tiny", pasts, sample.registers().wrenches, group)


def cover(*pasts: Past) -> GroupTrend:
    (found,) = gathered(*pasts).groups
    return found


@cache
def even() -> tuple[Past, Past]:
    return session(1, 20, 20.5, 19.5, 20), session(2, 20.5, 20, 19.5, 20)


def test_readings_make_their_limits_and_capability_as_by_hand() -> None:
    found = cover(*reversed(even()))  # in whatever order they come, the oldest stands first
    assert [each.value for each in found.readings] == [20, 20.5, 19.5, 20, 20.5, 20, 19.5, 20]
    assert [each.position for each in found.readings] == [1, 3, 2, 4] * 2
    assert {each.serial for each in found.readings[:4]} == {"SN-1"}
    assert found.chart is not None and found.spread is not None and found.capability is not None
    # mean 160 / 8 = 20; moving ranges 0.5 1 0.5 0.5 0.5 0.5 0.5, their mean 4 / 7 = 0.571429;
    # 3 × 0.571429 / 1.128 = 1.519757
    assert found.chart.mean == pytest.approx(20)
    assert found.chart.mean_moving_range == pytest.approx(0.571429, abs=1e-6)
    assert found.chart.upper_limit == pytest.approx(21.519757, abs=1e-6)
    assert found.chart.lower_limit == pytest.approx(18.480243, abs=1e-6)
    # four values off by 0.5: √(4 × 0.25 / 7) = 0.377964; limits 18 to 22: 4 / (6 × 0.377964) = 1.76383
    assert found.spread.standard_deviation == pytest.approx(0.377964, abs=1e-6)
    assert found.capability.potential == pytest.approx(1.76383, abs=1e-5)
    assert found.capability.actual == pytest.approx(1.76383, abs=1e-5)
    assert found.signals == () and found.range_signals == ()


def test_a_reading_beyond_the_limits_fires_a_rule_and_leads_to_its_event() -> None:
    # The moving ranges add up to 4 as above, then seven of 0, then 2: 6 / 15 = 0.4. The mean is 322 / 16 =
    # 20.125, so the limit 20.125 + 3 × 0.4 / 1.128 = 21.189, and that of the ranges 3.267 × 0.4 = 1.307.
    found = cover(*even(), session(3, 20, 20, 20, 20), session(4, 20, 20, 20, 22))
    (signal,) = [each for each in found.signals if each.rule == BEYOND_LIMIT]
    reading = found.readings[signal.first]
    assert (reading.serial, reading.value, reading.position) == ("SN-4", 22, 4)
    assert found.range_signals == (14,)


def test_too_few_readings_or_readings_that_never_differ_make_no_chart() -> None:
    assert cover(session(1, 20, 20.5, 19.5, 20)).chart is None
    same = cover(session(1, *[20] * 4), session(2, *[20] * 4))
    assert same.chart is None and same.capability is None and len(same.readings) == 8


def test_clicks_practice_and_what_was_undone_are_not_charted() -> None:
    found = gathered(*even(), session(3, *[20] * 4, how="set"), session(4, *[25] * 4, practice=True))
    (group,) = found.groups
    assert (found.sessions, found.practice) == (3, 1)
    assert (len(group.readings), group.clicks) == (8, 4)
    nut = next(
        each for each in trends("tiny", [back()], sample.registers().wrenches).groups if each.group == "F2"
    )
    assert len(nut.readings) == 1  # it was loosened once, and that reading is not in the pump


def back() -> Past:
    bench = sample.Bench()
    bench.until("cure/wait")
    bench.command(commands.go_back, "nut", "the wrong locker was used")
    bench.finish()
    return past_of(bench)


def test_readings_against_other_limits_are_counted_and_left_out() -> None:
    older = sample.Bench(sample.PROCEDURE.replace('target = "20 N·m"', 'target = "24 N·m"'))
    older.finish()
    found = cover(past_of(older, "older.toml"), *even())
    assert (len(found.readings), found.other_limits) == (8, 4)
    assert (found.band.low, found.band.high) == pytest.approx((18, 22))


def test_a_wrench_that_stands_apart_from_the_others_is_told() -> None:
    # W-1: 20 20.5 19.5 20 twice; W-2 the same and 1.5 more. Both have the variance 1.0 / 7 = 0.142857, so the
    # standard error is √(2 × 0.142857 / 8) = 0.188982, and 1.5 is 7.9 of them.
    raised = session(3, 21.5, 22, 21, 21.5, wrench="W-2"), session(4, 22, 21.5, 21, 21.5, wrench="W-2")
    one, other = cover(*even(), *raised).wrenches
    assert (one.wrench, one.readings, one.others) == ("W-1", 8, 8)
    assert one.against_others == pytest.approx(-1.5) and one.stands_apart
    assert other.against_others == pytest.approx(1.5) and other.stands_apart


def test_a_wrench_that_nearly_stands_apart_is_not() -> None:
    # 0.5 more is 2.6 standard errors of 0.188982: fewer than three
    near = session(3, 20.5, 21, 20, 20.5, wrench="W-2"), session(4, 21, 20.5, 20, 20.5, wrench="W-2")
    assert not any(each.stands_apart for each in cover(*even(), *near).wrenches)


def test_a_wrench_that_moved_between_then_and_now_is_told() -> None:
    later = session(3, 21.5, 22, 21, 21.5), session(4, 22, 21.5, 21, 21.5)
    (wrench,) = cover(*even(), *later).wrenches
    assert wrench.moved_by == pytest.approx(1.5) and wrench.has_moved
    assert wrench.against_others is None


def test_a_session_that_makes_no_sense_is_left_out_and_named() -> None:
    past = session(3, 20, 20, 20, 20)
    events = list(past.events)
    first = next(at for at, event in enumerate(events) if isinstance(event, PositionTightened))
    events[first - 1] = PositionRepaired(
        number=first,
        at=events[first].at,
        group=COVER,
        position=1,
        target="many",
        tolerance="10 %",
        name="Q. Example",
        reason="stripped",
    )
    found = gathered(*even(), replace(past, events=tuple(events)))
    assert found.sessions == 2 and [each.file for each in found.gaps] == ["SN-3.toml"]


def test_steps_that_were_done_again_are_counted() -> None:
    found = gathered(careful(), taken_apart())
    again = {each.step: (each.sessions, each.of) for each in found.steps}
    assert again["cover-on"] == (1, 2) and "seal-in" not in again
    assert gathered(careful()).steps == ()


def test_deviations_are_counted_by_model_step_and_kind() -> None:
    bench = sample.Bench()
    bench.until("cover-on/fit:G1")
    bench.answer("-138 NBR", why="the kit holds no other one")
    (found,) = gathered(careful(), past_of(bench, "open.toml")).departures
    assert (found.model, found.step, found.times, found.sessions) == ("XMPL-T1", "cover-on", 1, 1)
    assert found.rules
