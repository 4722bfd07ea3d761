"""What is asked next and what an answer brings about: the rules that hold for every act."""

from __future__ import annotations

from datetime import timedelta

import pytest

from benchcheck.procedure.model import Procedure
from benchcheck.session import engine
from benchcheck.session.events import (
    ClockWentBack,
    Corrected,
    Deviation,
    Event,
    GroupStarted,
    LeftOut,
    PartInstalled,
    PositionTightened,
    WentBack,
)
from benchcheck.session.prompt import Form, Outcome
from tests.pumps import CAN, LOOSE, TECHNICIAN, THIRD, can_with, main_job, tiny_job
from tests.session.bench import Bench


def at(where: str, *changes: tuple[str, str]) -> Bench:
    """The can on the bench, worked on with care until this is asked."""
    return Bench(tiny_job(can_with(*changes))).until(where)


def kinds(result: tuple[Event, ...] | Outcome) -> list[str]:
    assert not isinstance(result, Outcome), result.refusals
    return [event.kind for event in result]


# ---------------------------------------------------------------------- the form of an answer


def test_an_answer_carries_the_prompt_it_answers() -> None:
    bench = at("lip-in/install")
    old = bench.prompt.id
    bench.say("mouth")
    outcome = engine.answer(bench.state, old, "mouth", bench.now)
    assert isinstance(outcome, Outcome) and outcome.refusals[0].rule == "no-longer-asked"
    assert outcome.refusals[0].of_form and not outcome.passable


def test_no_two_prompts_of_one_session_have_one_name() -> None:
    bench, seen = Bench(tiny_job(CAN)), set()
    while engine.ask(bench.state, bench.now) is not None:
        assert bench.prompt.id not in seen
        seen.add(bench.prompt.id)
        bench.go_on()


def test_an_empty_answer_is_refused_where_it_means_nothing() -> None:
    bench = at("lip-in/install")
    assert bench.prompt.empty is None
    assert bench.refused("") == bench.refused("   ") == ["nothing-answered"]


def test_a_choice_is_taken_by_its_value_in_any_case_or_by_its_number() -> None:
    bench = at("lip-in/install")
    assert bench.prompt.form is Form.CHOICE
    assert bench.refused("sideways") == bench.refused("0") == bench.refused("9") == ["no-such-answer"]
    for text in ("MOUTH", " mouth ", str(1 + [each.value for each in bench.prompt.choices].index("mouth"))):
        other = bench.copied()
        other.say(text)
        assert other.state.hand["face"] == "mouth"


def test_a_digit_of_another_script_is_no_number_of_a_choice() -> None:
    assert at("lip-in/install").refused("٣") == ["no-such-answer"]


def test_the_choices_of_a_facing_stand_in_no_fixed_order() -> None:
    """So that a habit of the hand does not answer for the eye."""
    orders = set()
    for serial in range(12):
        bench = at("lip-in/install")
        from dataclasses import replace

        bench.state = replace(bench.state, header=replace(bench.state.header, serial=f"SN {serial}"))
        orders.add(tuple(choice.value for choice in bench.prompt.choices))
    assert len(orders) == 2 and all(order[-1] == "neither" for order in orders)


def test_events_bear_their_number_time_and_person() -> None:
    bench = at("lip-in/install")
    number = bench.state.number
    bench.say("mouth", "")
    first, second = bench.events()[-2:]
    assert (first.number, second.number) == (number + 1, number + 2)
    assert first.by == TECHNICIAN and first.at < second.at


# ---------------------------------------------------------------------- the clock of the machine


def test_a_clock_that_went_back_is_an_event_of_its_own() -> None:
    bench = at("lip-in/install")
    bench.now -= timedelta(hours=1)
    bench.say("mouth")
    back, answered = bench.events()[-2:]
    assert isinstance(back, ClockWentBack) and back.seconds == pytest.approx(3600, abs=60)
    assert answered.kind == "answered"


def test_a_clock_that_is_only_set_right_is_none() -> None:
    bench = at("lip-in/install")
    bench.say("mouth")
    bench.now = bench.state.at - timedelta(seconds=1) if bench.state.at else bench.now
    bench.say("")
    assert not bench.events(ClockWentBack)


# ---------------------------------------------------------------------- what is passed over


def test_a_part_that_was_never_taken_off_is_passed_over_and_that_is_said() -> None:
    bench = at("lip-in", ('off = ["F", "cover", "G", "lip"]', 'off = ["F", "cover", "G"]'))
    assert bench.prompt.notes[-1] == "lip-in is passed over: the lip was never taken off"
    assert not bench.events(PartInstalled)


def test_a_group_that_was_never_loosened_is_not_tightened_again() -> None:
    bench = Bench(tiny_job(LOOSE.replace('off = ["S", "lip", "clip"]', 'off = ["clip"]'))).until("lip-in/ask")
    assert [note.partition(" ")[0] for note in bench.prompt.notes] == ["clip-on", "lip-in"], "no tool either"
    bench.until("cover-on")
    assert "S" in bench.state.assembly.held and not bench.events(GroupStarted, PositionTightened)


def test_what_depends_on_a_verdict_is_done_for_that_verdict_only() -> None:
    bore = 'ask = [{ what = "bore of the seat", min = "30.00 mm", max = "30.05 mm" }]'
    seat = 'ask = [{ what = "seat", one_of = ["good", "worn"], sets = "seat" }]'
    ream = (
        '[[step]]\nid = "ream"\nphase = "inspection"\nact = "do"\ntext = "Ream it."\nif = { seat = "worn" }'
    )
    good, worn = (at("bore", (bore, f"{seat}\n\n{ream}")) for _ in range(2))
    good.say("good")
    worn.say("worn")
    assert good.asked.startswith("lip-in") and worn.asked.startswith("ream")


def test_the_steps_that_are_done_are_counted() -> None:
    bench = at("cover-on/install")
    assert engine.steps_done(bench.state) == 3
    bench.until("release")
    assert engine.steps_done(bench.state) == len(bench.state.pump.steps) - 1


# ---------------------------------------------------------------------- cautions and words of the author


def test_a_caution_stands_before_the_steps_it_names_and_before_all_if_it_names_none() -> None:
    cautions = (
        '[[caution]]\nsignal = "NOTICE"\ntext = "Read the sheet."\n\n'
        '[[caution]]\nsignal = "WARNING"\ntext = "Presses crush."\nbefore = ["lip-in"]\n\n'
    )
    bench = Bench(tiny_job(can_with(('[[part]]\nid = "body"', cautions + '[[part]]\nid = "body"'))))
    bench.say(TECHNICIAN)
    assert [caution.text for caution in bench.prompt.cautions] == ["Read the sheet."]
    assert [caution.text for caution in bench.until("lip-in").prompt.cautions] == ["Presses crush."]
    assert bench.until("cover-on").prompt.cautions == ()


def test_the_words_of_the_author_stand_beside_what_the_model_says() -> None:
    bench = at("lip-in/install", ('part = "lip"\nask', 'part = "lip"\ntext = "Press squarely."\nask'))
    assert bench.prompt.do[-1] == "Press squarely." and len(bench.prompt.do) > 1


# ---------------------------------------------------------------------- taken over


def test_a_refusal_is_taken_over_with_a_reason_and_is_a_deviation_before_what_it_let_through() -> None:
    bench = at("cover-on/fit")
    outcome = bench.answer("-111 NBR")
    assert outcome is not None and outcome.passable
    assert bench.answer("-111 NBR", over="the drawing says so") is None
    deviation, fitted = bench.events()[-2:]
    assert isinstance(deviation, Deviation) and fitted.kind == "ring fitted"
    assert (deviation.deviation, deviation.rules) == (1, ("ring-of-another-size",))
    assert (deviation.reason, deviation.act) == ("the drawing says so", "cover-on/fit:G")
    assert "-111" in deviation.wrong and bench.state.open_deviations == (deviation,)


def test_what_nobody_may_pass_nobody_passes() -> None:
    bench = at("lip-in/install")
    outcome = bench.answer("back", over="it looks better")
    assert outcome is not None and not outcome.passable
    assert bench.state.deviations == ()


def test_a_slip_of_the_form_cannot_be_taken_over() -> None:
    bench = at("cover-on/fit")
    outcome = bench.answer("-110", over="no rubber stands on it")
    assert outcome is not None and [refusal.rule for refusal in outcome.refusals] == ["bag-not-read"]
    assert bench.state.deviations == ()


def test_what_is_taken_over_needs_no_second_taking_over_in_the_same_fitting() -> None:
    bench = at("lip-in/install", ('[[step]]\nid = "bore"', '[[step]]\nid = "bore"'))
    assert bench.carry_out(engine.leave_out(bench.state, "none at hand", bench.now)) is None
    bench.until("cover-on/install:cover face")
    assert bench.refused("rear") == ["part-left-out"]
    assert bench.answer("rear", over="it comes later") is None
    bench.say("dot")
    assert len(bench.state.deviations) == 2


# ---------------------------------------------------------------------- left out


def test_an_act_is_left_out_with_a_reason_and_is_a_deviation() -> None:
    bench = at("lip-in/ask")
    outcome = engine.leave_out(bench.state, "  ", bench.now)
    assert isinstance(outcome, Outcome) and outcome.refusals[0].rule == "no-reason"
    assert bench.carry_out(engine.leave_out(bench.state, "the gauge is broken", bench.now)) is None
    deviation, left = bench.events()[-2:]
    assert isinstance(deviation, Deviation) and isinstance(left, LeftOut)
    assert left.act == "lip-in/ask:0" and left.deviation == deviation.deviation == 1
    assert not bench.asked.startswith("lip-in")


@pytest.mark.parametrize("where", ["F-tight/start", "F-tight/tighten", "release/sign"])
def test_a_screw_and_a_signature_are_left_out_by_nobody(where: str) -> None:
    bench = at(where)
    outcome = engine.leave_out(bench.state, "in a hurry", bench.now)
    assert isinstance(outcome, Outcome) and outcome.refusals[0].rule == "may-not-be-left-out"


def test_a_step_that_its_author_marks_is_left_out_by_nobody() -> None:
    bench = at("lip-in/ask", ('outside = "again"\n', 'outside = "again"\ncannot_pass = true\n'))
    outcome = engine.leave_out(bench.state, "in a hurry", bench.now)
    assert isinstance(outcome, Outcome) and outcome.refusals[0].rule == "may-not-be-left-out"


def test_nothing_is_left_out_before_a_person_is_signed_on() -> None:
    bench = Bench(tiny_job(CAN))
    outcome = engine.leave_out(bench.state, "in a hurry", bench.now)
    assert isinstance(outcome, Outcome) and outcome.refusals[0].rule == "nothing-to-leave-out"


# ---------------------------------------------------------------------- the way that mends


def test_what_was_left_out_and_is_needed_after_all_is_asked_again_on_the_way_that_mends() -> None:
    bench = at("lip-in/install")
    bench.carry_out(engine.leave_out(bench.state, "none at hand", bench.now))
    bench.until("cover-on/install:cover face")
    outcome = bench.answer("rear")
    assert outcome is not None and [type(event) for event in outcome.mend] == [Corrected]
    bench.mend(outcome)
    assert bench.asked == "lip-in/install:lip face"
    bench.to_the_end_with_decisions()
    assert bench.state.outcome == "released"


def test_what_covers_the_place_of_a_part_comes_off_on_the_way_that_mends() -> None:
    bench = at("lip-in/install")
    bench.carry_out(engine.leave_out(bench.state, "none at hand", bench.now))
    bench.until("cover-on/install:cover face")
    bench.answer("rear", over="it comes later")
    bench.until("release/sign")
    bench.decide()
    outcome = bench.answer(THIRD)
    assert outcome is not None and "lip" in outcome.refusals[0].wrong
    bench.mend(outcome)
    assert bench.asked == "lip-in/install:lip face"
    covered = bench.answer("mouth")
    assert covered is not None and covered.refusals[0].rule == "place-is-covered"
    assert [type(event) for event in covered.mend] == [WentBack]
    bench.to_the_end_with_decisions()
    assert bench.state.outcome == "released"


# ---------------------------------------------------------------------- steps that have to stand before


AFTER = ('[[step]]\nid = "cover-on"', '[[step]]\nid = "cover-on"\nafter = ["lip-in"]')


def test_a_step_waits_for_those_its_author_names() -> None:
    bench = at("cover-on", AFTER)
    assert engine.next_act(bench.state) is not None
    text = can_with(AFTER).replace('after = ["lip-in"]', 'after = ["gap"]')
    early = Bench(tiny_job(text)).until("cover-on")
    outcome = early.answer("-110 NBR")
    assert outcome is not None and [refusal.rule for refusal in outcome.refusals] == ["step-before-its-time"]
    assert outcome.refusals[0].step == "gap" and outcome.passable


def test_the_main_pump_is_released_in_both_variants() -> None:
    """The careful technician, with the events as a record has them."""
    for variant in ("-05", "-07"):
        assert Bench(main_job(), variant).to_the_end().state.outcome == "released"


def test_a_procedure_is_not_changed_by_being_worked_by() -> None:
    job = main_job()
    before: Procedure = job.procedure.model_copy(deep=True)
    Bench(job, "-05").until("shaft-in")
    assert job.procedure == before
