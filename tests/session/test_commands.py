"""What a person may do besides answering, and who may: decide, correct, go back, remark, close, judge."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchcheck.session import commands, engine
from benchcheck.session.commands import DISPOSITIONS, JUDGEMENTS, Result
from benchcheck.session.events import (
    Answered,
    Closed,
    Corrected,
    Counted,
    Disposed,
    Event,
    Judged,
    Measured,
    PositionDisposed,
    PositionTightened,
    RingFitted,
)
from benchcheck.session.going_back import Way
from benchcheck.session.prompt import Outcome
from tests.pumps import CAN, REVIEWER, SECOND, TECHNICIAN, THIRD, can_with, tiny_job
from tests.session.bench import Bench


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


def deviated() -> Bench:
    """A can whose ring is of another size, under a deviation of the technician."""
    bench = at("cover-on/fit")
    assert bench.answer("-111 NBR", over="no other is left") is None
    return bench


def rule(result: Result | Way) -> str:
    """The one rule that refuses."""
    assert isinstance(result, Outcome), result
    (refusal,) = result.refusals
    assert result.events == () and not result.passable
    return refusal.rule


def the(bench: Bench, kind: type[Event]) -> Event:
    return bench.events(kind)[-1]


# ---------------------------------------------------------------------- deciding on a deviation


def test_another_entitled_person_decides_on_a_deviation() -> None:
    bench = deviated()
    result = commands.dispose(bench.state, 1, "use as is", "q. example", "it seals all the same", bench.now)
    assert bench.carry_out(result) is None
    decided = the(bench, Disposed)
    assert isinstance(decided, Disposed)
    assert (decided.name, decided.by, decided.disposition) == (THIRD, THIRD, "use as is")
    assert bench.state.open_deviations == () and bench.state.dispositions[1] == decided
    assert THIRD in bench.state.people


@pytest.mark.parametrize(
    ("number", "disposition", "name", "reason", "refused"),
    [
        (2, "use as is", THIRD, "why not", "no-such-deviation"),
        (1, "forget it", THIRD, "why not", "no-such-answer"),
        (1, "use as is", THIRD, "  ", "no-reason"),
        (1, "use as is", "N. Body", "why not", "person-not-known"),
        (1, "use as is", TECHNICIAN, "why not", "person-not-entitled"),
        (1, "use as is", SECOND, "why not", "person-not-entitled"),
    ],
)
def test_a_decision_is_refused(number: int, disposition: str, name: str, reason: str, refused: str) -> None:
    bench = deviated()
    assert rule(commands.dispose(bench.state, number, disposition, name, reason, bench.now)) == refused


def test_nobody_decides_on_a_deviation_of_their_own_however_the_name_is_spelled() -> None:
    """One person may work and dispose; then another one decides."""
    from dataclasses import replace

    bench = deviated()
    own = replace(bench.state.deviations[0], by=THIRD)
    state = replace(bench.state, deviations=(own,))
    for name in (THIRD, "Q EXAMPLE", "q.example"):
        assert rule(commands.dispose(state, 1, "use as is", name, "it will do", bench.now)) == "own-deviation"
    assert not isinstance(commands.dispose(state, 1, "use as is", REVIEWER, "it will do", bench.now), Outcome)


def test_an_entitlement_that_has_run_out_is_none() -> None:
    bench = deviated()
    register = bench.state.job.registers.people
    late = bench.now.replace(year=2099)
    person = register.find("K. Sketch")
    assert person is not None and person.entitled("work", bench.now.date())
    assert rule(commands.sign_on(bench.state, "K. Sketch", late)) == "person-not-entitled"


def test_every_word_for_a_decision_is_taken() -> None:
    for word in DISPOSITIONS:
        bench = deviated()
        assert bench.carry_out(commands.dispose(bench.state, 1, word, THIRD, "so", bench.now)) is None


# ---------------------------------------------------------------------- deciding on a position


def test_a_position_is_disposed_of_by_name_and_the_round_goes_on_without_it() -> None:
    bench = at("F-tight/tighten:F round 1 position 3")
    result = commands.dispose_position(bench.state, "F", 3, "use as is", THIRD, "it is stripped", bench.now)
    assert bench.carry_out(result) is None
    assert isinstance(the(bench, PositionDisposed), PositionDisposed)
    assert bench.asked == "F-tight/tighten:F round 1 position 2"
    bench.to_the_end()
    assert bench.state.outcome == "released"
    tightened = [each for each in bench.events(PositionTightened) if isinstance(each, PositionTightened)]
    assert {each.position for each in tightened} == {1, 2, 4}


def test_the_last_open_position_disposed_of_ends_the_round_and_the_group() -> None:
    bench = at("F-tight/tighten:F round 1 position 4")
    bench.carry_out(commands.dispose_position(bench.state, "F", 4, "repair", THIRD, "stripped", bench.now))
    assert bench.asked == "F-tight/tighten:F round 2 position 1"
    bench.until("F-tight/tighten:F pass 3")
    bench.carry_out(commands.dispose_position(bench.state, "F", 3, "repair", THIRD, "stripped", bench.now))
    assert bench.asked.startswith("gap")


def test_a_group_that_ends_with_a_disposal_starts_its_clocks() -> None:
    locker = (
        'rounds = ["50 %", "100 %"]\n',
        'pass = false\nthreadlocker = { strength = "low", amount = "1 drop", where = "tip", '
        'handling = "9 h", cure = "24 h", bars = "release" }\n',
    )
    bench = at("F-tight/tighten:F round 1 position 4", locker)
    assert "F cure" not in bench.state.clocks
    bench.carry_out(commands.dispose_position(bench.state, "F", 4, "repair", THIRD, "stripped", bench.now))
    assert bench.state.clocks["F cure"].at == bench.now
    assert bench.asked.startswith("gap")


@pytest.mark.parametrize(
    ("group", "position", "name", "refused"),
    [
        ("F", 5, THIRD, "no-such-position"),
        ("F", 0, THIRD, "no-such-position"),
        ("X", 1, THIRD, "no-such-position"),
        ("F", 1, SECOND, "person-not-entitled"),
        ("F", 1, "N. Body", "person-not-known"),
    ],
)
def test_a_position_is_not_disposed_of(group: str, position: int, name: str, refused: str) -> None:
    bench = at("F-tight/tighten:F round")
    result = commands.dispose_position(bench.state, group, position, "use as is", name, "so", bench.now)
    assert rule(result) == refused


@pytest.mark.parametrize("where", ["open/loosen:F", "cover-on"])
def test_a_group_that_nobody_here_ran_in_has_no_position_to_dispose_of(where: str) -> None:
    bench = at(where)
    result = commands.dispose_position(bench.state, "F", 1, "use as is", THIRD, "so", bench.now)
    assert rule(result) == "no-such-position"


# ---------------------------------------------------------------------- correcting


def test_a_reading_that_was_misread_does_not_count_stays_in_the_record_and_is_asked_again() -> None:
    bench = at("cover-on")
    measured = the(bench, Measured)
    assert (
        bench.carry_out(commands.correct(bench.state, measured.number, "read upside down", bench.now)) is None
    )
    corrected = the(bench, Corrected)
    assert isinstance(corrected, Corrected)
    assert (corrected.event, corrected.was, corrected.reason) == (
        measured.number,
        "measured",
        "read upside down",
    )
    assert measured in bench.events()
    assert bench.asked == "lip-in/ask:0 place 1" and bench.state.voided == 1


def test_a_ring_typed_wrong_is_out_of_its_groove_again() -> None:
    bench = at("cover-on/install")
    bench.carry_out(commands.correct(bench.state, the(bench, RingFitted).number, "another bag", bench.now))
    assert bench.asked == "cover-on/fit:G size" and not bench.state.assembly.sealed
    assert bench.state.used == {"lip": 1, "-110 NBR": 0}


def test_a_ring_that_is_hidden_is_no_longer_corrected_but_gone_back_to() -> None:
    bench = at("F-tight")
    ring = the(bench, RingFitted)
    assert rule(commands.correct(bench.state, ring.number, "another bag", bench.now)) == "cannot-be-corrected"


def test_the_last_position_of_a_round_is_done_again() -> None:
    bench = at("F-tight/tighten:F round 1 position 2")
    bench.carry_out(commands.correct(bench.state, the(bench, PositionTightened).number, "slipped", bench.now))
    assert bench.asked == "F-tight/tighten:F round 1 position 3"


def test_only_the_last_position_of_a_round_can_be_corrected() -> None:
    bench = at("F-tight/tighten:F round 1 position 2")
    first = bench.events(PositionTightened)[0]
    assert rule(commands.correct(bench.state, first.number, "slipped", bench.now)) == "cannot-be-corrected"
    other = at("F-tight/tighten:F round 2 position 1")
    last = the(other, PositionTightened)
    assert rule(commands.correct(other.state, last.number, "slipped", other.now)) == "cannot-be-corrected"


def test_an_answer_of_the_act_in_hand_is_asked_again() -> None:
    bench = at("cover-on/install:cover mark")
    bench.carry_out(commands.correct(bench.state, the(bench, Answered).number, "looked again", bench.now))
    assert bench.asked.startswith("cover-on/install:cover") and bench.state.hand == {}


def test_a_count_of_the_kit_is_taken_back() -> None:
    kit = ('[[step]]\nid = "bore"', '[[step]]\nid = "kit"\nphase = "inspection"\nact = "check"\n'
           'ask = [{ what = "kit", kind = "kit" }]\n\n[[step]]\nid = "bore"')  # fmt: skip
    bench = at("bore", kit)
    assert bench.state.kit == {"-110 NBR": 1}
    bench.carry_out(commands.correct(bench.state, the(bench, Counted).number, "another pump's", bench.now))
    assert bench.state.kit == {"-110 NBR": 0} and bench.asked.startswith("kit/ask:0")


def test_what_lies_further_back_is_not_corrected() -> None:
    bench = at("F-tight/tighten:F round 2")
    assert (
        rule(commands.correct(bench.state, the(bench, Measured).number, "so", bench.now))
        == "cannot-be-corrected"
    )
    assert rule(commands.correct(bench.state, 1, "so", bench.now)) == "cannot-be-corrected"


def test_a_correction_wants_a_reason_and_a_person_at_work() -> None:
    bench = at("cover-on")
    number = the(bench, Measured).number
    assert rule(commands.correct(bench.state, number, " ", bench.now)) == "no-reason"
    bench.cut()
    assert rule(commands.correct(bench.state, number, "so", bench.now)) == "nobody-signed-on"
    bench.say(TECHNICIAN)
    assert rule(commands.correct(bench.state, number, "so", bench.now)) == "to-be-read-again"


def test_all_that_is_offered_for_correction_can_be_corrected() -> None:
    bench = Bench(tiny_job(CAN))
    offered = 0
    while engine.ask(bench.state, bench.now) is not None:
        for event in commands.correctable(bench.state):
            result = commands.correct(bench.state, event.number, "misread", bench.now)
            assert not isinstance(result, Outcome)
            other = bench.copied()
            other.carry_out(result)
            other.to_the_end()
            assert other.state.outcome == "released"
            offered += 1
        bench.go_on()
    assert offered > 10


# ---------------------------------------------------------------------- going back


def test_a_way_is_shown_before_anything_is_undone() -> None:
    bench = at("gap")
    plan = commands.plan_back(bench.state, "lip")
    assert isinstance(plan, Way)
    assert plan.off == ("F", "cover", "G", "lip") and plan.dies == ("lip", "G")
    assert bench.state.reaching == ()


@pytest.mark.parametrize(("target", "refused"), [("X", "no-such-part"), ("body", "not-in"), ("G", "not-in")])
def test_where_there_is_nothing_to_go_back_to(target: str, refused: str) -> None:
    bench = at("cover-on")
    assert rule(commands.plan_back(bench.state, target)) == refused
    assert rule(commands.go_back(bench.state, target, "so", bench.now)) == refused


def test_going_back_wants_a_reason_and_a_person_at_work() -> None:
    bench = at("cover-on")
    assert rule(commands.go_back(bench.state, "lip", "", bench.now)) == "no-reason"
    bench.cut()
    assert rule(commands.go_back(bench.state, "lip", "so", bench.now)) == "nobody-signed-on"
    bench.say(TECHNICIAN)
    assert rule(commands.go_back(bench.state, "lip", "so", bench.now)) == "to-be-read-again"


# ---------------------------------------------------------------------- the end


def closed(outcome: str = "scrapped") -> Bench:
    bench = at("cover-on")
    assert bench.carry_out(commands.close(bench.state, outcome, "the body is cracked", bench.now)) is None
    return bench


@pytest.mark.parametrize("outcome", ["scrapped", "returned unrepaired", "opened by mistake", "wrong serial"])
def test_a_session_ends_without_release_for_a_reason(outcome: str) -> None:
    bench = closed(outcome)
    end = the(bench, Closed)
    assert isinstance(end, Closed) and (end.outcome, end.reason) == (outcome, "the body is cracked")
    assert engine.ask(bench.state, bench.now) is None and bench.state.outcome == outcome


@pytest.mark.parametrize(
    ("outcome", "reason", "refused"),
    [
        ("released", "so", "no-such-answer"),
        ("scrapped", "", "no-reason"),
        ("forgotten", "so", "no-such-answer"),
    ],
)
def test_a_session_does_not_end_so(outcome: str, reason: str, refused: str) -> None:
    bench = at("cover-on")
    assert rule(commands.close(bench.state, outcome, reason, bench.now)) == refused


def test_nobody_closes_before_signing_on() -> None:
    bench = Bench(tiny_job(CAN))
    assert rule(commands.close(bench.state, "scrapped", "so", bench.now)) == "nobody-signed-on"


AFTER_THE_END: list[Callable[[Bench], Result]] = [
    lambda bench: commands.dispose(bench.state, 1, "use as is", THIRD, "so", bench.now),
    lambda bench: commands.dispose_position(bench.state, "F", 1, "use as is", THIRD, "so", bench.now),
    lambda bench: commands.correct(bench.state, 9, "so", bench.now),
    lambda bench: commands.go_back(bench.state, "lip", "so", bench.now),
    lambda bench: commands.depart(bench.state, "the place", "so", bench.now),
    lambda bench: commands.remark(bench.state, "a word", bench.now),
    lambda bench: commands.sign_on(bench.state, SECOND, bench.now),
    lambda bench: commands.stop(bench.state, "so", bench.now),
    lambda bench: commands.close(bench.state, "scrapped", "so", bench.now),
]


@pytest.mark.parametrize("command", AFTER_THE_END)
def test_after_the_end_nothing_is_written_but_a_reviewers_word(command: Callable[[Bench], Result]) -> None:
    assert rule(command(closed())) == "record-is-closed"
    released = Bench(tiny_job(CAN)).to_the_end()
    assert rule(command(released)) == "record-is-closed"
    assert isinstance(engine.leave_out(released.state, "so", released.now), Outcome)


def test_what_is_not_as_written_waits_for_a_decision_though_nothing_was_refused() -> None:
    bench = at("cover-on")
    before = bench.prompt
    assert rule(commands.depart(bench.state, "the place", " ", bench.now)) == "no-reason"
    assert bench.carry_out(commands.depart(bench.state, "the place", " a screw seized ", bench.now)) is None
    assert bench.prompt.act == before.act and bench.prompt.question == before.question
    (waiting,) = bench.state.open_deviations
    assert (waiting.wrong, waiting.reason) == ("not as written, the place", "a screw seized")
    assert waiting.act == before.act and waiting.rules == (commands.NOT_AS_WRITTEN,)


def test_a_remark_is_kept_and_changes_nothing_else() -> None:
    bench = at("cover-on")
    before = bench.prompt
    assert bench.carry_out(commands.remark(bench.state, "  smells of coolant ", bench.now)) is None
    assert bench.prompt.act == before.act and bench.prompt.question == before.question
    assert rule(commands.remark(bench.state, " ", bench.now)) == "nothing-answered"


# ---------------------------------------------------------------------- a reviewer's word


def test_a_reviewer_who_took_no_part_judges_a_finished_session() -> None:
    bench = Bench(tiny_job(CAN)).to_the_end()
    result = commands.judge(bench.state, "accepted", REVIEWER, "all is there", bench.now)
    assert bench.carry_out(result) is None
    judged = the(bench, Judged)
    assert isinstance(judged, Judged) and (judged.name, judged.by) == (REVIEWER, REVIEWER)
    assert bench.state.outcome == "accepted"


@pytest.mark.parametrize(
    ("outcome", "name", "reason", "refused"),
    [
        ("accepted", THIRD, "so", "own-work"),  # released the pump
        ("accepted", TECHNICIAN, "so", "person-not-entitled"),
        ("accepted", "N. Body", "so", "person-not-known"),
        ("accepted", REVIEWER, " ", "no-reason"),
        ("fine", REVIEWER, "so", "no-such-answer"),
        ("accepted under concession", REVIEWER, "so", "no-limit"),
    ],
)
def test_a_judgement_is_refused(outcome: str, name: str, reason: str, refused: str) -> None:
    bench = Bench(tiny_job(CAN)).to_the_end()
    assert rule(commands.judge(bench.state, outcome, name, reason, bench.now)) == refused


def test_a_concession_has_a_limit_and_a_day_it_expires() -> None:
    bench = Bench(tiny_job(CAN)).to_the_end()
    result = commands.judge(
        bench.state,
        "accepted under concession",
        REVIEWER,
        "the lip is worn",
        bench.now,
        limit="200 hours",
        expires="2027-01-31",
    )
    assert not isinstance(result, Outcome)


def test_an_open_session_is_not_judged_and_an_open_deviation_not_accepted() -> None:
    bench = deviated()
    assert rule(commands.judge(bench.state, "accepted", REVIEWER, "so", bench.now)) == "record-is-open"
    bench.carry_out(commands.close(bench.state, "scrapped", "the body is cracked", bench.now))
    assert rule(commands.judge(bench.state, "accepted", REVIEWER, "so", bench.now)) == "deviation-open"
    assert not isinstance(commands.judge(bench.state, "returned", REVIEWER, "so", bench.now), Outcome)


def test_a_reviewer_may_say_another_word_later_also_after_another_reviewer() -> None:
    bench = closed()
    for name, outcome in ((REVIEWER, "returned"), (THIRD, "rejected"), (REVIEWER, "rejected")):
        assert outcome in JUDGEMENTS
        assert bench.carry_out(commands.judge(bench.state, outcome, name, "so", bench.now)) is None
    assert len(bench.events(Judged)) == 3


# ---------------------------------------------------------------------- who works


def test_another_technician_reads_the_pump_again_before_going_on() -> None:
    bench = at("cover-on/install:cover face")
    bench.carry_out(commands.sign_on(bench.state, SECOND, bench.now))
    assert bench.state.technician == SECOND
    assert [what.partition(" ")[0] for what in bench.state.read_again] == ["serial", "pose", "groove"]


def test_the_same_technician_signing_on_again_interrupts_nothing() -> None:
    bench = at("cover-on/install:cover face")
    before = bench.prompt.question
    bench.carry_out(commands.sign_on(bench.state, "t sample", bench.now))
    assert bench.prompt.question == before and bench.state.read_again == ()


def test_who_may_not_work_does_not_sign_on() -> None:
    bench = at("cover-on")
    assert rule(commands.sign_on(bench.state, REVIEWER, bench.now)) == "person-not-entitled"
    assert rule(commands.sign_on(bench.state, "N. Body", bench.now)) == "person-not-known"
