"""Position by position, round by round, then the check pass or the angle; and which wrench may do it."""

from __future__ import annotations

import pytest

from benchcheck.session.events import (
    Measured,
    PositionChecked,
    PositionTightened,
    PositionTurned,
    TighteningTrouble,
    WrenchTaken,
)
from benchcheck.session.prompt import Form, RingPicture
from tests.pumps import can_with, main_job, tiny_job
from tests.session.bench import Bench

ANGLE = ('rounds = ["50 %", "100 %"]\n', 'angle = { add = "45 °", tolerance = "5 °" }\n')
SINGLE = (
    ('layout = { circle = 4, seen_from = "top" }\nrounds = ["50 %", "100 %"]\n', ""),
    ('target = "20 N·m"', 'target = "40 N·m"'),
)


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


def test_the_order_is_that_of_the_circle_in_each_round_and_the_pass_goes_clockwise() -> None:
    bench = at("gap")
    tightened = [
        (event.round, event.position) for event in bench.events(PositionTightened)
        if isinstance(event, PositionTightened)
    ]  # fmt: skip
    # A circle of four goes 1-3-2-4 (common practice).
    assert tightened == [(number, position) for number in (1, 2) for position in (1, 3, 2, 4)]
    checked = [
        event.position for event in bench.events(PositionChecked) if isinstance(event, PositionChecked)
    ]
    assert checked == [1, 2, 3, 4]


def test_only_the_last_position_of_the_last_pass_completes_the_act() -> None:
    bench = at("gap")
    done = [
        event for event in bench.events(PositionTightened, PositionChecked) if getattr(event, "done", False)
    ]
    assert len(done) == 1 and isinstance(done[0], PositionChecked) and done[0].position == 4


def test_an_answer_may_name_its_position_and_another_one_is_out_of_order() -> None:
    bench = at("F-tight/tighten:F round 1 position 3")
    figure = bench.prompt.figure
    assert figure is not None
    assert bench.refused(f"2: {figure.text}") == ["position-out-of-order"]
    assert bench.refused(f"1: {figure.text}") == ["position-done-twice", "position-out-of-order"]
    assert bench.refused(f"9: {figure.text}") == ["no-such-position"]
    bench.say(f"3: {figure.text}")
    assert bench.asked == "F-tight/tighten:F round 1 position 2"


def test_another_order_is_taken_over_with_a_reason_and_the_one_passed_gets_its_turn() -> None:
    bench = at("F-tight/tighten:F round 1 position 3")
    assert bench.prompt.figure is not None
    assert bench.answer(f"4: {bench.prompt.figure.text}", over="the pipe is in the way") is None
    assert bench.asked == "F-tight/tighten:F round 1 position 3"
    bench.say(bench.careful(), bench.careful())
    assert bench.asked == "F-tight/tighten:F round 2 position 1"


def test_a_reading_below_is_refused_by_anyone() -> None:
    bench = at("F-tight/tighten:F round 2 position 3")
    assert bench.prompt.form is Form.NUMBER, "the wrench of the careful technician indicates here"
    outcome = bench.answer("1", over="it feels tight")
    assert outcome is not None and not outcome.passable
    assert bench.state.assembly.held["F"].done == (1,)


# On a wrench of 360 mm a crow-foot of 50 mm in line takes 10 N·m to 10 · 360 / 410 = 8.8 N·m (FAA and
# military manuals).
@pytest.mark.parametrize(
    ("shown", "rules"),
    [("8.8", None), ("10", ["reading-above"]), ("7.0", ["reading-below"])],
)
def test_a_reading_through_a_crow_foot_is_judged_as_the_scale_shows_it(
    shown: str, rules: list[str] | None
) -> None:
    foot = ('target = "20 N·m", tolerance = "10 %" }', 'target = "20 N·m", tolerance = "10 %" }\n'
            'crowfoot = { at = [3], extension = "50 mm" }')  # fmt: skip
    bench = at("F-tight/tighten:F wrench F", foot)
    bench.say("TW-04")
    bench.until("F-tight/tighten:F round 1 position 3")
    assert bench.prompt.figure is not None and bench.prompt.figure.text == "8.8"
    outcome = bench.answer(shown)
    assert ([each.rule for each in outcome.refusals] if outcome else None) == rules
    if outcome is not None:
        assert "crow-foot" in outcome.refusals[0].where


def test_of_a_wrench_that_clicks_the_mark_it_was_set_to_may_be_told_and_is_judged() -> None:
    bench = at("F-tight/tighten:F wrench F", ('target = "20 N·m"', 'target = "40 N·m"'))
    bench.say("TW-01")
    assert bench.prompt.form is Form.CONFIRM and bench.prompt.figure is not None
    assert bench.refused("20") == ["figure-of-another-unit"]
    bench.say(bench.prompt.figure.text)
    (event,) = bench.events(PositionTightened)
    assert isinstance(event, PositionTightened) and event.how == "set"


def test_a_reading_in_another_unit_than_the_wrench_shows_is_refused() -> None:
    bench = at("F-tight/tighten:F round 1 position 1")
    unit = bench.prompt.unit
    other = "kgf·cm" if unit != "kgf·cm" else "N·m"
    assert bench.refused(f"10 {other}") == ["reading-in-another-unit"]
    assert bench.refused("ten") == ["not-a-reading"]


def test_the_figure_is_a_mark_of_the_scale_inside_its_own_limits() -> None:
    bench = at("F-tight/tighten:F round 2 position 1")
    figure = bench.prompt.figure
    assert figure is not None
    low, high = (float(each) for each in figure.good.split(" to "))
    assert low <= float(figure.text) <= high


def test_the_picture_has_the_positions_done_and_the_one_that_is_due() -> None:
    bench = at("F-tight/tighten:F round 1 position 2")
    picture = bench.prompt.picture
    assert isinstance(picture, RingPicture)
    assert (picture.count, picture.circle, picture.order) == (4, 4, (1, 3, 2, 4))
    assert (picture.done, picture.now, picture.next) == ((1, 3), 2, 4)
    assert (picture.round, picture.rounds, picture.check_pass) == (1, ("50 %", "100 %"), False)


# ---------------------------------------------------------------------- the check pass


def test_one_that_moved_is_followed_by_another_turn_all_round() -> None:
    bench = at("F-tight/tighten:F wrench")
    bench.say("TW-08")
    bench.until("F-tight/tighten:F pass 3")
    bench.say("moved", "20")
    assert bench.asked == "F-tight/tighten:F pass 1"
    bench.say("stands", "20", "stands", "20")
    assert bench.asked == "F-tight/tighten:F pass 4"
    bench.say("stands", "20")
    assert bench.asked.startswith("gap")


def test_the_pass_records_what_a_wrench_shows_and_judges_it() -> None:
    bench = at("F-tight/tighten:F wrench")
    bench.say("TW-08")  # a dial, ± 4 %
    bench.until("F-tight/tighten:F pass 1")
    assert "TW-08, 20.0 N·m" in bench.prompt.do[0]
    bench.say("stands")
    assert bench.asked == "F-tight/tighten:F reading 1" and bench.prompt.unit == "N·m"
    # 20 N·m ± 10 %: 18 to 22.
    assert bench.refused("17.9") == ["reading-below"]
    assert bench.refused("22.1") == ["reading-above"]
    assert bench.refused("70") == ["reading-above"], "it is no first touch any more"
    bench.say("22")
    checked = bench.events(PositionChecked)[-1]
    assert isinstance(checked, PositionChecked)
    assert (checked.moved, checked.wrench, checked.value, checked.unit) == (False, "TW-08", 22.0, "N·m")
    assert checked.marked == "outside the guarded part of the tolerance"
    assert bench.state.done_with["TW-08"][-1] == "F pass/1"


def test_the_pass_with_a_wrench_that_clicks_has_no_reading() -> None:
    bench = at("F-tight/tighten:F wrench", ('target = "20 N·m"', 'target = "50 N·m"'), ('"50 %", ', ""))
    bench.say("TW-05")
    bench.until("F-tight/tighten:F pass 1")
    bench.say("stands")
    assert bench.asked == "F-tight/tighten:F pass 2"
    checked = bench.events(PositionChecked)[-1]
    assert isinstance(checked, PositionChecked) and (checked.wrench, checked.unit) == ("TW-05", "")


def test_after_an_interruption_the_pass_asks_which_wrench_is_in_hand() -> None:
    bench = at("F-tight/tighten:F pass 2")
    bench.cut()
    bench.arrive()
    assert bench.asked == "F-tight/tighten:F wrench F"
    bench.say("TW-08")
    assert bench.asked == "F-tight/tighten:F pass 1"


# ---------------------------------------------------------------------- wrenches


def test_a_wrench_that_cannot_show_it_is_refused_with_its_reason() -> None:
    bench = at("F-tight/tighten:F wrench")
    outcome = bench.answer("TW-03")  # 2 to 10 N·m
    assert outcome is not None and outcome.refusals[0].rule == "wrench-does-not-fit" and not outcome.passable
    assert "TW-03" in outcome.refusals[0].wrong


def test_a_wrench_out_of_date_is_refused() -> None:
    bench = at("F-tight/tighten:F wrench")
    # TW-06 is due on 31 October 2026, and it is November.
    outcome = bench.answer("TW-06")
    assert outcome is not None and outcome.refusals[0].rule == "wrench-does-not-fit"


def test_the_wrenches_that_fit_stand_first_and_the_others_say_why_not() -> None:
    choices = at("F-tight/tighten:F wrench").prompt.choices
    unfit = [choice.words.startswith("not for this") for choice in choices]
    assert unfit == sorted(unfit) and not unfit[0] and unfit[-1]


def test_the_wrench_is_recorded_with_the_unit_it_is_used_in() -> None:
    bench = at("F-tight/tighten:F round 1")
    (taken,) = bench.events(WrenchTaken)
    assert isinstance(taken, WrenchTaken)
    assert bench.state.wrenches["F", taken.round] == (taken.wrench, taken.unit)
    assert bench.state.wrenches_used == (taken.wrench,)


def test_a_wrench_that_shows_several_units_is_asked_which_one_it_shows_and_the_figures_are_in_that() -> None:
    bench = at("F-tight/tighten:F wrench")
    bench.say("TW-04")
    assert bench.asked == "F-tight/tighten:F unit F" and not bench.events(WrenchTaken)
    assert {each.value for each in bench.prompt.choices} == {
        "N·m", "lbf·ft", "lbf·in", "kgf·cm", "another wrench",
    }  # fmt: skip
    assert bench.careful() == "N·m"
    bench.say("lbf·in")
    (taken,) = bench.events(WrenchTaken)
    assert isinstance(taken, WrenchTaken) and (taken.wrench, taken.unit) == ("TW-04", "lbf·in")
    assert bench.state.hand == {}
    # 10 N·m are 88.5 lbf·in (NIST SP 811: 1 lbf·in = 0.112 984 8 N·m).
    figure = bench.prompt.figure
    assert figure is not None and figure.unit == "lbf·in" and 88 <= float(figure.text) <= 89
    assert bench.to_the_end().state.outcome == "released"


def test_a_unit_in_which_no_mark_serves_is_refused_and_another_wrench_may_be_taken() -> None:
    # 8 kgf·cm are 0.78 N·m: below what the wrench starts at. In 0.1 N·m a ± 1 % of 8 N·m has a mark, in the
    # next coarser step of 1 kgf·cm (0.098 N·m is coarser than 0.1 / 0.0981 = 1.02: 2 kgf·cm) it has none.
    bench = at(
        "F-tight/tighten:F wrench", ('"20 N·m", tolerance = "10 %"', '"8.1 N·m", tolerance = "2.2 %"'),
        ('"50 %", ', ""),
    )  # fmt: skip
    bench.say("TW-04")
    outcome = bench.answer("kgf·cm")
    assert outcome is not None and outcome.refusals[0].rule == "unit-does-not-serve"
    assert outcome.refusals[0].mend.startswith("set it to N·m")
    bench.say("another wrench")
    assert bench.asked == "F-tight/tighten:F wrench F"
    bench.say("TW-04", "N·m")


def test_the_unit_of_a_wrench_is_read_once_for_all_that_it_is_chosen_for() -> None:
    bench = Bench(main_job(), "-05").until("tools/ask")
    asked = []
    while bench.prompt.step == "tools":
        kind = bench.prompt.question.split(" ")[0]
        if kind == "wrench" and any(each.value == "TW-04" and each.serves for each in bench.prompt.choices):
            bench.say("TW-04")
        else:
            asked += [bench.prompt.question] if kind == "unit" else []
            bench.go_on()
    assert len(asked) == 1
    assert sum(each.wrench == "TW-04" for each in bench.events(WrenchTaken)) > 1  # type: ignore[attr-defined]


def test_a_left_hand_screw_wants_a_wrench_calibrated_that_way() -> None:
    left = ("torque = {", 'hand = "left"\ntorque = {')
    bench = at("F-tight/tighten:F wrench", left, ('target = "20 N·m"', 'target = "12 N·m"'), ('"50 %", ', ""))
    good = [choice.value for choice in bench.prompt.choices if not choice.words.startswith("not for this")]
    # Of the register only TW-08 is calibrated counter-clockwise.
    assert good == ["TW-08"]


# ---------------------------------------------------------------------- angle


def test_an_angle_follows_the_snug_torque_in_the_same_order_once_each() -> None:
    bench = at("gap", ANGLE)
    turned = [event for event in bench.events(PositionTurned) if isinstance(event, PositionTurned)]
    assert [event.position for event in turned] == [1, 3, 2, 4]
    assert all(event.degree == 45 for event in turned) and turned[-1].done
    assert not bench.events(PositionChecked)


def test_a_step_of_the_last_round_alone_stops_before_the_angle() -> None:
    step = '[[step]]\nid = "F-tight"\ngroup = "F"\n'
    look = 'ask = [{ what = "torque to turn it, snug", max = "2 N·m" }]\n'
    snug = f'{step}round = 1\n{look}\n[[step]]\nid = "F-on"\nact = "tighten"\ngroup = "F"\n'
    bench = at("F-tight/ask:0", ANGLE, (step, snug))
    assert bench.events(PositionTurned) == [] and bench.state.assembly.held["F"].rounds == 1
    assert not bench.state.assembly.held["F"].passed
    bench.until("F-on/tighten:F turn")
    assert bench.until("gap").state.assembly.held["F"].passed
    assert bench.to_the_end().state.outcome == "released"


@pytest.mark.parametrize(
    ("degree", "rules"),
    [("39", ["angle-too-small"]), ("51", ["angle-too-far"]), ("half", ["not-a-reading"]), ("3: 45", None)],
)
def test_an_angle_outside_its_tolerance_is_refused(degree: str, rules: list[str] | None) -> None:
    bench = at("F-tight/tighten:F turn 1", ANGLE)
    if rules is None:
        assert bench.refused(degree) == ["position-out-of-order"]
    else:
        assert bench.refused(degree) == rules
    bench.say("45 °")


def test_an_angle_given_twice_is_in_the_record_and_scraps_the_screw() -> None:
    bench = at("F-tight/tighten:F turn 3", ANGLE)
    outcome = bench.answer("1: 45", over="it will do")
    assert outcome is not None and not outcome.passable
    assert [each.rule for each in outcome.refusals] == ["angle-given-twice"]
    assert "position 1" in outcome.refusals[0].where
    bench.mend(outcome)
    trouble = bench.events(TighteningTrouble)[-1]
    assert isinstance(trouble, TighteningTrouble)
    assert (trouble.position, trouble.what) == (1, "turned twice") and "45°" in trouble.reason
    assert bench.asked.startswith("going back/loosen:F")
    assert bench.to_the_end().state.outcome == "released"


# ---------------------------------------------------------------------- a locking nut


LOCKING = (
    *SINGLE,
    ("torque = {", 'prevailing = { min = "2 N·m", max = "8 N·m", add = "always" }\ntorque = {'),
)


def test_the_running_torque_of_a_locking_nut_is_measured_first_and_added() -> None:
    bench = at("F-tight/tighten:F running torque", *LOCKING)
    assert bench.refused("0") == ["running-torque-outside"]
    unit = bench.prompt.unit
    assert unit == "N·m"
    bench.say("5")
    (measured,) = bench.events(Measured)[-1:]
    assert isinstance(measured, Measured) and measured.what == "running torque"
    assert bench.prompt.figure is not None
    assert "45" in bench.prompt.figure.why, "40 N·m and the 5 N·m it takes to turn"


def test_a_single_screw_has_no_pass_unless_the_file_asks_for_one() -> None:
    assert not at("gap", *SINGLE).events(PositionChecked)
    assert at("gap", *SINGLE, ("torque = {", "pass = true\ntorque = {")).events(PositionChecked)


# ---------------------------------------------------------------------- the main pump


def test_each_round_of_the_end_plate_is_a_step_of_its_own() -> None:
    bench = Bench(main_job(), "-05").until("spin-2")
    rounds = {
        event.act.partition("/")[0]: event.round
        for event in bench.events(PositionTightened)
        if isinstance(event, PositionTightened) and event.group == "F1"
    }
    assert rounds == {"F1-r1": 1, "F1-r2": 2, "F1-r3": 3}
