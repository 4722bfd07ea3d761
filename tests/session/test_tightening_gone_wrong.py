"""Tightening on a bad day: every way a screw can go wrong, what is said of it, and what follows."""

from __future__ import annotations

from datetime import timedelta

from benchcheck.session import troubles
from benchcheck.session.events import InstrumentDoubted, PositionTightened, TighteningTrouble
from benchcheck.session.prompt import Form, Outcome
from tests.pumps import SECOND, THIRD, can_with, main_job, tiny_job
from tests.session.bench import Bench

CAN_JOB = tiny_job(can_with())
DIAL = "TW-08"
"""Shows 5 to 30 N·m."""


def tightening() -> Bench:
    at = Bench(CAN_JOB).until("F-tight/tighten:F wrench")
    at.say(DIAL)
    return at


def outcome_of(at: Bench, text: str) -> Outcome:
    outcome = at.answer(text)
    assert outcome is not None
    return outcome


def refusal(result: object) -> str:
    assert isinstance(result, Outcome)
    return result.refusals[0].rule


def test_far_above_at_the_first_touch_names_what_stops_a_screw_and_the_group_comes_loose() -> None:
    at = tightening()
    outcome = outcome_of(at, "35")
    assert outcome.refusals[0].rule == "reading-far-above"
    assert "bottom of its hole" in outcome.refusals[0].chain[0]
    at.mend(outcome)
    assert at.asked.startswith("going back/loosen:F")
    assert at.to_the_end().state.outcome == "released"


def test_an_overshoot_is_loosened_and_begun_again_or_taken_over() -> None:
    at = tightening()
    assert at.refused("12.5") == ["reading-above"]
    assert at.answer("12.5", over="the screw is not stretched, measured") is None
    assert at.state.open_deviations


def test_a_reading_that_does_not_come_is_never_taken_and_says_what_to_do() -> None:
    at = tightening()
    outcome = outcome_of(at, "8")
    assert outcome.refusals[0].rule == "reading-below" and not outcome.passable
    at.carry_out(troubles.trouble(at.state, 1, "never", "turns freely", at.now))
    assert at.events(TighteningTrouble)[0].as_table()["what"] == "never"
    assert at.asked.startswith("going back/loosen:F")
    assert at.to_the_end().state.outcome == "released"


def test_an_angle_given_twice_is_told_only_of_what_is_turned_on() -> None:
    at = tightening()
    assert refusal(troubles.trouble(at.state, 1, "turned twice", "so", at.now)) == "no-such-answer"
    angle = ('rounds = ["50 %", "100 %"]\n', 'angle = { add = "45 °", tolerance = "5 °" }\n')
    at = Bench(tiny_job(can_with(angle))).until("F-tight/tighten:F turn 3")
    at.carry_out(troubles.trouble(at.state, 1, "turned twice", "the phone rang", at.now))
    assert at.asked.startswith("going back/loosen:F")


def test_a_figure_that_is_right_in_another_unit_says_so() -> None:
    at = tightening()
    # 10 N·m are 7.4 lbf·ft (NIST SP 811: 1 lbf·ft = 1.355 818 N·m).
    outcome = outcome_of(at, "7.4")
    assert outcome.refusals[0].rule == "figure-of-another-unit"
    assert "7.4 lbf·ft would be right" in outcome.refusals[0].wrong
    assert not outcome.passable
    # 10 N·m are 88.5 lbf·in.
    assert "lbf·in would be right" in outcome_of(at, "88.5").refusals[0].wrong


def test_the_wrong_position_and_one_done_twice() -> None:
    at = tightening()
    assert at.refused("2: 10") == ["position-out-of-order"]
    at.say("10")
    assert "position-done-twice" in at.refused("1: 10")


def test_another_wrench_in_mid_round_goes_on_with_the_positions_left() -> None:
    at = tightening()
    at.say("10", "10")
    at.carry_out(troubles.change_wrench(at.state, "its battery is empty", at.now))
    assert at.asked == "F-tight/tighten:F wrench F"
    at.say("TW-04", "N·m", "10")
    done = [each for each in at.events(PositionTightened) if isinstance(each, PositionTightened)]
    assert [each.wrench for each in done] == [DIAL, DIAL, "TW-04"]
    assert at.to_the_end().state.outcome == "released"


def test_a_dropped_wrench_rests_and_what_it_did_waits_for_a_decision() -> None:
    at = tightening()
    at.say("10", "10")
    at.carry_out(troubles.doubt_instrument(at.state, DIAL, "fell on the floor", at.now))
    (event,) = at.events(InstrumentDoubted)
    assert isinstance(event, InstrumentDoubted) and event.readings == ("F 1/1", "F 1/3")
    (open_,) = at.state.open_deviations
    assert open_.rules == (troubles.IN_DOUBT,) and "cover screws, round 1, positions 1, 3" in open_.wrong
    assert at.asked == "F-tight/tighten:F wrench F" and at.refused(DIAL) == ["wrench-does-not-fit"]
    choice = next(each for each in at.prompt.choices if each.value == DIAL)
    assert not choice.serves and "fell on the floor" in choice.words
    assert refusal(troubles.doubt_instrument(at.state, DIAL, "again", at.now)) == "doubted-already"
    at.say("TW-02")
    assert at.asked == "F-tight/tighten:F round 1 position 1", "the round begins again"
    at.to_the_end_with_decisions()
    assert at.state.outcome == "released" and not at.state.done_with[DIAL]


def test_a_wrench_that_fell_in_the_check_pass_begins_the_pass_again_and_doubts_the_last_round() -> None:
    at = tightening()
    at.until("F-tight/tighten:F pass 3")
    at.carry_out(troubles.doubt_instrument(at.state, DIAL, "fell on the floor", at.now))
    (open_,) = at.state.open_deviations
    assert "round 2, positions 1, 3, 2, 4; cover screws, check pass, positions 1, 2" in open_.wrong
    assert "begins again" in open_.wrong
    at.say("TW-02")
    assert at.asked == "F-tight/tighten:F pass 1"


def test_a_wrench_that_fell_when_its_group_was_done_takes_back_no_round() -> None:
    at = tightening()
    at.until("gap")
    at.carry_out(troubles.doubt_instrument(at.state, DIAL, "fell on the floor", at.now))
    (open_,) = at.state.open_deviations
    assert "begins again" not in open_.wrong and at.state.assembly.held["F"].passed


def test_what_came_loose_again_is_in_doubt_no_more() -> None:
    at = tightening()
    at.say("10", "10")
    at.carry_out(troubles.trouble(at.state, 3, "too far", "slipped", at.now))
    at.until("F-tight/tighten:F round 1 position 1")
    at.carry_out(troubles.doubt_instrument(at.state, DIAL, "fell on the floor", at.now))
    assert not at.state.open_deviations


def test_an_unused_wrench_that_was_dropped_puts_nothing_in_doubt() -> None:
    at = tightening()
    at.carry_out(troubles.doubt_instrument(at.state, "TW-01", "fell", at.now))
    assert not at.state.open_deviations and "TW-01" in at.state.doubted


def test_a_thread_with_an_insert_has_its_own_limits_given_by_another_entitled_person() -> None:
    at = tightening()
    give = troubles.repair_position
    assert refusal(give(at.state, "F", 3, "soft", "10 %", THIRD, "insert", at.now)) == "not-a-torque"
    assert refusal(give(at.state, "F", 9, "16 N·m", "10 %", THIRD, "insert", at.now)) == "no-such-position"
    assert (
        refusal(give(at.state, "F", 3, "16 N·m", "10 %", SECOND, "insert", at.now)) == "person-not-entitled"
    )
    at.carry_out(give(at.state, "F", 3, "16 N·m", "10 %", THIRD, "insert fitted", at.now))
    at.say("10")
    assert at.prompt.figure is not None and at.prompt.figure.text == "8.0"
    assert at.refused("10") == ["reading-above"]
    at.say("8", "10")
    assert at.to_the_end().state.outcome == "released"


def test_what_moved_in_the_check_pass_is_looked_at_again() -> None:
    at = Bench(CAN_JOB).until("F-tight/tighten:F pass 2")
    at.say("moved")
    at.go_on()
    assert at.asked.endswith("pass 1")
    at.go_on(6)
    assert not at.asked.startswith("F-tight")


def test_the_second_pass_after_hours_is_asked_and_then_nothing_waits_for_it() -> None:
    text = can_with(
        ('tolerance = "10 %" }\n', 'tolerance = "10 %" }\nagain = { after = "4 h", before = "release" }\n'),
        (
            '[[step]]\nid = "gap"',
            '[[step]]\nid = "settle"\nact = "wait"\nclock = "F again"\n\n[[step]]\nid = "F-again"\n'
            'act = "tighten"\ngroup = "F"\n\n[[step]]\nid = "gap"',
        ),
    )
    at = Bench(tiny_job(text)).until("settle")
    assert at.refused("") == ["clock-still-runs"]
    at.until("F-again/tighten:F pass 1")
    begun = at.now
    at.to_the_end()
    assert at.state.outcome == "released"
    assert at.now - begun < timedelta(hours=1)


def test_the_second_pass_is_waited_for_where_no_step_waits() -> None:
    text = can_with(
        ('tolerance = "10 %" }\n', 'tolerance = "10 %" }\nagain = { after = "4 h", before = "release" }\n'),
        (
            '[[step]]\nid = "gap"',
            '[[step]]\nid = "F-again"\nact = "tighten"\ngroup = "F"\n\n[[step]]\nid = "gap"',
        ),
    )
    at = Bench(tiny_job(text)).until("F-again")
    assert at.prompt.form is Form.WAIT and at.prompt.until is not None
    assert at.refused("") == ["clock-still-runs"]
    at.now = at.prompt.until
    assert at.asked == "F-again/tighten:F pass 1"
    assert at.to_the_end().state.outcome == "released"


def test_a_locked_nut_past_its_handling_time_is_undone_and_done_again() -> None:
    at = Bench(main_job(), "-05").until("nut-on/tighten:F3 round")
    at.now += timedelta(minutes=21) - timedelta(minutes=7)
    at.cut()
    at.arrive()
    at.until("nut-on/tighten:F3 round")
    at.now = at.state.run_in["F3"] + timedelta(minutes=20, seconds=1)
    figure = at.prompt.figure
    outcome = outcome_of(at, figure.text if figure is not None else "")
    assert [each.rule for each in outcome.refusals] == ["handling-time-over"] and not outcome.passable
    at.mend(outcome)
    assert at.asked.startswith("going back/loosen:F3")
    assert at.to_the_end().state.outcome == "released"


def test_limits_that_the_wrench_in_hand_cannot_do_ask_for_another_at_that_position() -> None:
    at = tightening()
    at.carry_out(troubles.repair_position(at.state, "F", 3, "80 N·m", "10 %", THIRD, "larger insert", at.now))
    at.say("10")
    assert at.asked == "F-tight/tighten:F wrench F 1"
    assert not next(each for each in at.prompt.choices if each.value == DIAL).serves
    at.say("TW-05")
    assert at.prompt.figure is not None and at.prompt.figure.text == "40"
    assert at.to_the_end().state.outcome == "released"
