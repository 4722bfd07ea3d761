"""Groups against the wrenches of the register: reach, accuracy, marks, direction, crow-feet."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from benchcheck.mechanics.wrench import Wrench
from tests.checking.small_pump import assert_as_marked, findings, rules_found, small_pump
from tests.pumps import registers

TORQUE = 'torque = { target = "7 N·m", tolerance = "10 %" }'
ROUNDS = 'rounds = ["50 %", "100 %"]'
SCREW = 'thread = "M6"\nstrength = "8.8"\nfriction = { condition = "oiled", nut_factor = 0.15 }'
NOT_JUDGED = 'thread = "M12"\nlow_because = "not to be judged here"'
"""For targets that are about the wrench alone."""


def pump(torque: str, rounds: str = 'rounds = ["100 %"]', more: str = "") -> str:
    return small_pump(
        (TORQUE, f"torque = {torque}"),
        (ROUNDS, rounds),
        (SCREW, f"{NOT_JUDGED}\n{more}"),
        ("M6 x 20", "M12 x 40"),
    )


def wrench(name: str) -> Wrench:
    return next(each for each in registers().wrenches if each.id == name)


def test_a_tolerance_that_no_wrench_can_hold() -> None:
    # TW-04 is the best of those that reach 20 N·m, accurate to ±2 %
    mark = '  # ← tolerance-tighter-than-any-wrench at "1.5 %"'
    (finding,) = assert_as_marked(pump('{ target = "20 N·m", tolerance = "1.5 %" }' + mark))
    assert "TW-04 is accurate to ±2 %" in finding.message
    assert rules_found(pump('{ target = "20 N·m", tolerance = "3 %" }')) == []


def test_it_is_said_once_for_all_rounds() -> None:
    text = pump('{ target = "20 N·m", tolerance = "1 %" }', 'rounds = ["50 %", "100 %"]')
    assert rules_found(text) == ["tolerance-tighter-than-any-wrench"]


def test_a_tolerance_between_two_marks() -> None:
    # TW-05 alone reaches 85 N·m: whole newton metres, ±4 %. Inside 81.515 to 88.485 N·m it may show
    # 84.776 to 84.946: no mark lies there
    mark = '  # ← tolerance-finer-than-any-graduation at "4.1 %"'
    (finding,) = assert_as_marked(pump('{ target = "85 N·m", tolerance = "4.1 %" }' + mark))
    assert "no graduation of 1 N·m" in finding.message
    assert rules_found(pump('{ target = "85 N·m", tolerance = "6 %" }')) == []


def test_a_first_round_that_is_too_small() -> None:
    mark = '  # ← round-below-every-wrench at "30 %"'
    rounds = 'rounds = ["30 %", "100 %"]'
    (finding,) = assert_as_marked(pump('{ target = "5 N·m", tolerance = "10 %" }', rounds + mark))
    # 1.5 N·m, and the smallest wrench, TW-03, starts at 2 N·m; TW-02 at 20 lbf·in, 2.26 N·m
    assert "TW-03 starts at 2 N·m" in finding.message and "1.5 N·m" in finding.message
    assert "round-below-every-wrench" not in rules_found(
        pump('{ target = "5 N·m", tolerance = "10 %" }', 'rounds = ["50 %", "100 %"]')
    )


def test_a_round_that_is_done_by_hand_wants_no_wrench() -> None:
    rounds = 'rounds = ["30 %", "100 %"]\nwithout_wrench = [1]'
    assert rules_found(pump('{ target = "5 N·m", tolerance = "10 %" }', rounds)) == []


@pytest.mark.parametrize("target", ["250 N·m", "210 lbf·ft"])
def test_a_torque_that_no_wrench_reaches(target: str) -> None:
    mark = f'  # ← torque-beyond-every-wrench at "{target}"'
    text = pump(f'{{ target = "{target}", tolerance = "10 %" }}{mark}')
    (finding,) = assert_as_marked(text)
    assert "TW-05 ends at" in finding.message


def test_a_torque_between_two_wrenches() -> None:
    small, large = wrench("TW-03"), wrench("TW-05")  # 2 to 10 N·m, and 40 to 200
    text = pump('{ target = "20 N·m", tolerance = "10 %" }')
    (finding,) = findings(text, wrenches=(small, large))
    assert finding.rule == "torque-beyond-every-wrench"
    assert "ends at 10 N·m" in finding.message and "starts at 40 N·m" in finding.message


def test_a_left_hand_thread_needs_a_wrench_that_is_calibrated_so() -> None:
    text = pump(
        '{ target = "12 N·m", tolerance = "10 %" }', more='hand = "left"  # ← left-hand-without-a-wrench'
    )
    right_only = [each for each in registers().wrenches if "left" not in each.directions]
    assert [each.rule for each in findings(text, wrenches=right_only)] == ["left-hand-without-a-wrench"]
    assert rules_found(text) == []  # TW-08 is
    # and where no wrench at all reaches it, that is said instead
    beyond = pump('{ target = "250 N·m", tolerance = "10 %" }', more='hand = "left"')
    assert [each.rule for each in findings(beyond, wrenches=right_only)] == ["torque-beyond-every-wrench"]


CROWFOOT = 'crowfoot = {{ at = [3], extension = "{}", angle = "{}" }}'


def test_a_crowfoot_that_takes_the_torque_off_every_scale() -> None:
    # 45 N·m in line on 450 mm: with 100 mm set 36.8 N·m, below the 40 N·m at which TW-05 starts
    text = pump(
        '{ target = "45 N·m", tolerance = "10 %" }',
        more=CROWFOOT.format("100 mm", "0 °") + '  # ← crowfoot-fits-no-wrench at "100 mm"',
    )
    (finding,) = findings(text, wrenches=[wrench("TW-05")])
    assert finding.rule == "crowfoot-fits-no-wrench"
    assert "starts at 40 N·m" in finding.message
    at_right_angles = text.replace('"0 °"', '"90 °"')
    assert findings(at_right_angles, wrenches=[wrench("TW-05")]) == []


def test_a_crowfoot_needs_the_length_of_the_wrench() -> None:
    text = pump('{ target = "45 N·m", tolerance = "10 %" }', more=CROWFOOT.format("50 mm", "90 °"))
    without_length = replace(wrench("TW-05"), length_millimetre=None)
    (finding,) = findings(text, wrenches=[without_length])
    assert finding.rule == "crowfoot-fits-no-wrench"
    assert "has no length" in finding.message


def test_what_cannot_be_done_without_the_crowfoot_either_is_said_once() -> None:
    text = pump('{ target = "250 N·m", tolerance = "10 %" }', more=CROWFOOT.format("50 mm", "0 °"))
    assert rules_found(text) == ["torque-beyond-every-wrench"]


def test_two_wrenches_for_one_group_are_worth_a_word() -> None:
    rounds = 'rounds = ["5 %", "100 %"]'
    text = pump('{ target = "80 N·m", tolerance = "10 %" }', f"{rounds}  # ← group-needs-two-wrenches")
    (finding,) = assert_as_marked(text)
    assert "TW-05" in finding.message and "TW-03" in finding.message


def test_a_locking_nut_is_pulled_with_its_running_torque() -> None:
    # FAA AC 43.13-1B, 7-40: the running torque is always added. 45 N·m and up to 20 N·m are 65 N·m, and
    # the wrench of 6 to 60 N·m is too small for that
    more = 'prevailing = {{ min = "4 N·m", max = "{}", add = "{}" }}'
    for most, rule, reaches in (
        ("20 N·m", "always", False),
        ("10 N·m", "always", True),
        ("20 N·m", "never", True),
    ):
        text = pump('{ target = "45 N·m", tolerance = "5 %" }', more=more.format(most, rule))
        assert (findings(text, wrenches=[wrench("TW-04")]) == []) == reaches


def test_a_day_never_changes_a_finding() -> None:
    text = pump('{ target = "20 N·m", tolerance = "10 %" }')
    overdue = replace(wrench("TW-04"), calibration_due=date(2001, 1, 1))
    assert findings(text, wrenches=[overdue]) == []


def test_without_a_register_nothing_is_said() -> None:
    assert findings(pump('{ target = "250 N·m", tolerance = "10 %" }'), wrenches=()) == []
