"""Limits and signs of tightenings, against figures worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from benchcheck.report import words
from benchcheck.report.journal import Run, journal_of
from benchcheck.report.tightened import Tightened, all_tightened, standing_tightened
from benchcheck.session.events import Measured, PositionTightened, PositionTurned
from tests.report import sample

TURNED_ON = sample.PROCEDURE.replace(
    'rounds = ["50 %", "100 %"]\npass = true\n', 'angle = { add = "90 °", tolerance = "5 °" }\n'
)
LOCKING = sample.PROCEDURE.replace(
    'rounds = ["50 %", "100 %"]\n',
    'prevailing = { min = "1 N·m", max = "6 N·m", add = "always" }\nrounds = ["50 %", "100 %"]\n',
)
WITH_CROWFOOT = sample.PROCEDURE.replace(
    'rounds = ["50 %", "100 %"]\n',
    'crowfoot = { at = [3], extension = "100 mm", angle = "0 °" }\nrounds = ["50 %", "100 %"]\n',
)


def tightened(procedure: str = sample.PROCEDURE) -> Tightened:
    """The cover screws of the careful session."""
    state, events = sample.rehearsed(procedure=procedure)
    return next(standing_tightened(sample.journal(state, events)))


def read(done: Tightened, position: int = 1, **changes: object) -> PositionTightened:
    event = done.reading(position, done.rounds)
    assert event is not None
    return replace(event, **changes)  # type: ignore[arg-type]


def test_limits_of_a_round_are_its_share_of_the_target() -> None:
    done = tightened()
    half, full = done.limits(1), done.limits(2)  # 20 N·m ± 10 %, in rounds of 50 and 100 %
    assert half is not None and (half.low, half.target, half.high) == pytest.approx((9, 10, 11))
    assert full is not None and (full.low, full.target, full.high) == pytest.approx((18, 20, 22))


def test_a_round_by_hand_has_no_limits_and_no_sign() -> None:
    by_hand = sample.PROCEDURE.replace(
        'rounds = ["50 %", "100 %"]\n', 'rounds = ["50 %", "100 %"]\nwithout_wrench = [1]\n'
    )
    done = tightened(by_hand)
    touched = done.reading(1, 1)
    assert done.limits(1) is None and done.limits(2) is not None
    assert touched is not None and touched.how == "by hand" and done.sign(touched) == ""


def test_limits_are_in_the_unit_of_the_reading() -> None:
    # 1 lbf·in is 0.1129848 N·m (NIST SP 811), so 20 N·m are 177.0 lbf·in.
    done = tightened()
    limits = done.limits_for(read(done, value=177.0, unit="lbf·in", newton_metre=20.0))
    assert limits is not None and limits.target == pytest.approx(20 / 0.1129848, rel=1e-6)
    assert limits.low == pytest.approx(18 / 0.1129848, rel=1e-6)


@pytest.mark.parametrize(
    ("value", "sign"),
    [
        (18.0, ""),
        (20.0, ""),
        (22.0, ""),
        (17.99, words.OUTSIDE),
        (22.01, words.OUTSIDE),
        (0.0, words.OUTSIDE),
    ],
)
def test_a_reading_is_judged_anew_whatever_its_mark_says(value: float, sign: str) -> None:
    done = tightened()
    assert done.sign(read(done, value=value, marked="")) == sign


def test_the_marks_of_the_bench_are_kept() -> None:
    done = tightened()
    assert (
        done.sign(read(done, value=18.5, marked="outside the guarded part of the tolerance"))
        == words.UNGUARDED
    )
    assert done.sign(read(done, value=20.0, marked="above the tolerance")) == words.OUTSIDE


def test_with_a_crow_foot_the_wrench_shows_its_own_limits() -> None:
    # 300 mm of wrench and 100 mm in line: it shows 300 / (300 + 100) of what the screw gets.
    done = tightened(WITH_CROWFOOT)
    plain, longer = done.limits_for(read(done, 1)), done.limits_for(read(done, 3))
    assert plain is not None and plain.target == pytest.approx(20)
    assert longer is not None and (longer.low, longer.target, longer.high) == pytest.approx((13.5, 15, 16.5))
    assert done.sign(read(done, 3)) == ""
    assert done.sign(read(done, 3, value=20.0)) == words.OUTSIDE


def test_a_crow_foot_on_a_wrench_that_is_gone_is_not_judged() -> None:
    done = tightened(WITH_CROWFOOT)
    assert done.limits_for(read(done, 3, wrench="W-9")) is None
    assert done.sign(read(done, 3, wrench="W-9", value=99.0)) == ""


def test_a_running_torque_is_added() -> None:
    done = tightened(LOCKING)
    assert done.run.running_torque is not None and done.run.running_torque.value == 1.0
    limits = done.limits(2)
    assert limits is not None and (limits.low, limits.target, limits.high) == pytest.approx((19, 21, 23))


def test_turns_have_their_own_limits() -> None:
    done = tightened(TURNED_ON)
    limits, turn = done.turn_limits(), done.turn(1)
    assert limits is not None and (limits.low, limits.high) == (85, 95)
    assert turn is not None and done.turn_sign(turn) == ""
    assert done.turn_sign(replace(turn, degree=96.0)) == words.OUTSIDE
    assert sum(isinstance(each, PositionTurned) for each in done.standing()) == 4


def test_an_order_of_ones_own_is_seen() -> None:
    done = tightened()
    assert done.order == (1, 3, 2, 4) and not done.other_order(1)
    first, second, *others = done.run.turned
    swapped = Tightened(done.journal, done.group, Run("F1", 1, turned=[second, first, *others]))
    assert swapped.done_order(1) == (3, 1, 2, 4) and swapped.other_order(1) and not swapped.other_order(2)


def test_runs_that_were_loosened_do_not_stand() -> None:
    journal = sample.departed()
    assert [each.group.id for each in standing_tightened(journal)] == ["F1", "F2"]
    assert [each.group.id for each in all_tightened(journal)] == ["F1", "F2", "F2"]


def test_a_measurement_elsewhere_is_no_running_torque() -> None:
    state, events = sample.rehearsed()
    journal = journal_of(state, events, sample.released().proof)
    assert any(isinstance(event, Measured) for event in events)
    assert all(run.running_torque is None for run in journal.runs)
