"""Times of steps: only what was at the work counts, and only enough records make a rule."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchcheck.report.step_times import StepTime, beside_usual, step_times
from tests.report import sample


def tables(*events: tuple[str, str, int]) -> list[dict[str, Any]]:
    """Events by kind, act and second."""
    at = [sample.BEGINS + timedelta(seconds=second) for _, _, second in events]
    return [
        {"kind": kind, "at": moment.isoformat()} | ({"act": act} if act else {})
        for (kind, act, _), moment in zip(events, at, strict=True)
    ]


def test_an_answer_takes_the_time_since_the_one_before() -> None:
    found = step_times(
        tables(("opened", "", 0), ("told", "a/ask:0", 10), ("done", "a/sign", 25), ("done", "b/x", 40))
    )
    assert found == {"a": 25, "b": 15} and list(found) == ["a", "b"]


def test_pauses_waits_and_a_clock_that_went_back_belong_to_no_step() -> None:
    found = step_times(
        tables(
            ("opened", "", 0),
            ("taken up", "", 5000),
            ("read again", "", 5010),
            ("told", "a/ask:0", 5020),
            ("wait over", "cure/wait:F", 9000),
            ("told", "b/ask:0", 9010),
            ("told", "b/ask:1", 8000),
        )
    )
    assert found == {"a": 10, "b": 10}


def test_a_whole_session_takes_what_its_answers_took() -> None:
    journal = sample.released()
    found = step_times([each.as_table() for each in journal.events])
    # The careful hand of the sample takes 15 s an answer; only the pressure had to stand, for 5 min.
    assert found["test"] == pytest.approx(300 + 15, abs=15)
    assert all(seconds % 15 == 0 for step, seconds in found.items() if step not in ("test", "cure"))


def test_the_usual_is_the_median_of_enough_records() -> None:
    others = [{"a": 10.0}, {"a": 12.0, "b": 3.0}, {"a": 50.0}]
    assert beside_usual({"a": 40.0, "b": 3.0}, others) == (StepTime("a", 40, 12), StepTime("b", 3, None))
    assert [each.odd for each in beside_usual({"a": 40.0, "b": 1.0}, others)] == ["long", ""]
    assert beside_usual({"a": 3.0}, others)[0].odd == "short"
    assert beside_usual({"a": 12.0}, others)[0].odd == ""


@given(st.lists(st.tuples(st.sampled_from(["a/x", "b/y", ""]), st.integers(-50, 5000)), max_size=20))
def test_no_time_is_negative_and_none_is_counted_twice(events: list[tuple[str, int]]) -> None:
    found = step_times(tables(*(("told", act, second) for act, second in events)))
    seconds = [second for _, second in events]
    climbed = sum(max(0, later - before) for before, later in pairwise(seconds))
    assert all(each >= 0 for each in found.values()) and sum(found.values()) <= climbed
