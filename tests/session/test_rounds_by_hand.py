"""A round below every torque wrench is done by hand, said to be so, and followed by rounds that are not."""

from __future__ import annotations

from benchcheck.session.events import PositionTightened
from benchcheck.session.prompt import Form
from tests.pumps import can_with, tiny_job
from tests.session.bench import Bench

BY_HAND = tiny_job(can_with(('"100 %"]', '"100 %"]\nwithout_wrench = [1]')))


def bench() -> Bench:
    return Bench(BY_HAND).until("F-tight/tighten:F round 1")


def test_no_wrench_is_asked_for_and_no_figure_shown() -> None:
    prompt = bench().prompt
    assert prompt.form is Form.CONFIRM and prompt.figure is None
    assert prompt.do[0].startswith("By hand, with no torque wrench")


def test_its_order_is_guarded_all_the_same() -> None:
    at = bench()
    assert at.refused("2:") == ["position-out-of-order"]
    at.say("", "3:")


def test_the_record_says_that_it_was_done_by_hand_and_what_the_wrench_did_later() -> None:
    at = bench()
    at.go_on(4)
    assert at.asked == "F-tight/tighten:F wrench F"
    at.until("F-tight/tighten:F pass")
    done = [each for each in at.events() if isinstance(each, PositionTightened)]
    assert [(each.round, each.how, bool(each.wrench)) for each in done] == [
        *[(1, "by hand", False)] * 4,
        *[(2, done[-1].how, True)] * 4,
    ]
    assert done[-1].how != "by hand"


def test_the_pump_is_released_with_it() -> None:
    assert bench().to_the_end().state.outcome == "released"
