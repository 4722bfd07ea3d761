"""A clock that was set back stands out; one that is set right by a second does not."""

from __future__ import annotations

from datetime import timedelta

from benchcheck.session.events import ClockWentBack
from tests.session.courses import can_bench, events_said, said


def test_a_clock_that_went_back_stands_out() -> None:
    bench = can_bench().until("bore/ask")
    bench.now -= timedelta(minutes=5)
    bench.say("30.02")
    (remark,) = said("clock odd", bench)
    assert "0:05" in remark.sentence or "0:04:45" in remark.sentence
    assert [type(each) for each in events_said("clock odd", bench)] == [ClockWentBack]


def test_a_clock_that_was_set_right_by_a_second_does_not() -> None:
    bench = can_bench().until("bore/ask")
    bench.now -= timedelta(seconds=16)  # an answer takes 15
    bench.say("30.02")
    assert not said("clock odd", bench)
