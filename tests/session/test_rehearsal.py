"""The careful technician, departures where they are due, and what is said if they come out otherwise."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from typing import Any

import pytest

from benchcheck.session.rehearsal import Run, Stage
from benchcheck.session.rehearsal_file import Departure
from tests.pumps import main_job, tiny_job
from tests.session.fault_pump import PUMP


def run(
    *departures: dict[str, Any], variant: str = "-05", until: str | None = None, ends: str | None = None
) -> Run:
    made = tuple(Departure.model_validate(each, by_alias=True) for each in departures)
    return stage(variant).rehearse(made, until, ends)


@cache
def stage(variant: str) -> Stage:
    return Stage(main_job(), variant)


def unexpected(of: Run) -> str:
    return "\n".join(str(each) for each in of.unexpected)


LIP_REVERSED = {"step": "main-lip-in", "question": "face", "answer": "back"}


@pytest.mark.parametrize("variant", ["-05", "-07"])
def test_the_careful_technician_reaches_release(variant: str) -> None:
    came = run(variant=variant)
    assert came.as_expected and not came.results
    assert came.state.outcome == "released" and not came.state.deviations


def test_a_departure_comes_out_as_expected() -> None:
    came = run(
        {**LIP_REVERSED, "came": "refused", "rule": "part-faces-the-wrong-way", "says": "face the oil"}
    )
    assert came.as_expected and came.state.outcome == "released"
    (result,) = came.results
    assert (result.step, result.departure, result.came) == ("main-lip-in", "face: back", "refused")
    assert "you see the back" in result.message


@pytest.mark.parametrize(
    ("expectation", "said"),
    [
        ({"came": "passed"}, "expected passed, came refused by part-faces-the-wrong-way"),
        ({"came": "refused", "rule": "groove-left-empty"}, "expected by groove-left-empty, came refused"),
        ({"came": "refused", "says": "the moon"}, 'expected with the words "the moon", came refused'),
    ],
)
def test_a_wrong_expectation_is_reported(expectation: dict[str, str], said: str) -> None:
    came = run({**LIP_REVERSED, **expectation})
    assert not came.as_expected
    assert said in unexpected(came)
    assert came.unexpected[0].departure == 0


@pytest.mark.parametrize(
    "departure",
    [
        {"step": "main-lip-in", "question": "mark", "answer": "x", "came": "refused"},
        {"step": "plate-on", "question": "size", "target": "G4", "answer": "-151 NBR", "came": "refused"},
        {"step": "bearing-on", "question": "home", "answer": "", "came": "passed"},
    ],
    ids=["question", "target", "step passed over"],
)
def test_a_departure_that_is_never_due_is_reported(departure: dict[str, str]) -> None:
    came = run(departure)
    assert came.state.outcome == "released"
    assert "never due" in unexpected(came)


def test_a_departure_waits_for_the_one_before_it() -> None:
    late = {"step": "fit-G2", "question": "size", "answer": "-136 NBR", "came": "refused"}
    came = run({"step": "fit-G3", "question": "size", "answer": "-136 NBR", "came": "refused"}, late)
    assert len(came.results) == 1 and came.unexpected[0].departure == 1


def test_a_misspelt_step_is_named_with_its_like() -> None:
    assert "no step main-lip; did you mean main-lip-in?" in unexpected(
        run({"step": "main-lip", "answer": "x", "came": "refused"})
    )


def test_what_is_taken_over_is_a_departure_and_is_not_refused_again_in_the_same_fitting() -> None:
    came = run(
        {**LIP_REVERSED, "reason": "the press stood like this", "came": "recorded"},
        {"step": "main-lip-in", "question": "home", "answer": "", "came": "passed"},
        {"step": "cartridge-in", "question": "face", "answer": "deep pocket end", "came": "refused"},
        {"step": "cartridge-in", "go_back": "main-lip", "reason": "the other way", "came": "voided"},
    )
    assert came.as_expected, unexpected(came)
    assert [each.act for each in came.state.deviations] == ["main-lip-in/install:main-lip"]
    assert came.state.outcome == "released"


def test_a_fault_that_was_taken_over_comes_out_later_and_is_mended() -> None:
    came = run({**LIP_REVERSED, "reason": "the press stood like this", "came": "recorded"})
    assert came.state.outcome == "released"
    # 0 came in, 1 was pressed in reversed and is scrap, 2 is in the pump
    assert came.state.assembly.instance("main-lip") == 2
    assert came.state.voided


def test_a_careful_answer_that_is_refused_is_reported() -> None:
    years_later = datetime(2040, 1, 2, 8, 0, tzinfo=UTC)
    came = Stage(main_job(), "-05", years_later).rehearse(())
    assert came.state.outcome == "open"
    assert "was refused by" in unexpected(came)


def test_going_back_says_what_it_cost() -> None:
    came = run(
        {"step": "volute-on", "go_back": "head", "reason": "a fingerprint", "came": "voided",
         "says": "used up: washer, nut; begun again: F3"},
    )  # fmt: skip
    assert came.as_expected, unexpected(came)
    # head, impeller, its key, shims, washer, nut and its torque are asked once more
    assert came.answers > run().answers + 10


def test_a_way_back_that_leads_nowhere_is_refused() -> None:
    came = run(
        {"step": "fit-G2", "go_back": "plate", "reason": "a look", "came": "refused", "rule": "not-in"}
    )
    assert came.as_expected, unexpected(came)


def test_the_way_that_mends_is_taken_where_the_file_says_so() -> None:
    lie = {"step": "shaft-in", "question": "place", "answer": "cartridge", "came": "refused"}
    mended, left = run({**lie, "mend": True}), run(lie)
    assert mended.as_expected and left.as_expected
    # taken: the ring is fitted anew; not taken: the careful technician answers as the record has it
    assert mended.answers > left.answers


def test_a_wait_is_not_over_before_its_time() -> None:
    early = {"step": "cure", "answer": "", "rule": "clock-still-runs", "came": "refused"}
    assert run({**early, "early": "1 s"}).as_expected
    assert run({**early, "early": "10 min", "says": "0 h 10 min are left"}).as_expected
    on_time = run({"step": "cure", "answer": "", "came": "passed"})
    assert on_time.as_expected, unexpected(on_time)


def test_a_reading_outside_is_recorded_and_the_way_back_it_offers_voids() -> None:
    came = run(
        {"step": "main-lip-in", "target": "0", "answer": "-0.187", "came": "recorded",
         "rule": "reading-outside-its-limits"},
        {"step": "main-lip-in", "question": "outside", "answer": "back", "came": "voided"},
    )  # fmt: skip
    assert came.as_expected, unexpected(came)


def test_an_act_that_may_not_be_left_out_is_refused() -> None:
    came = run(
        {"step": "cure", "leave_out": "the customer waits", "came": "refused", "rule": "may-not-be-left-out"}
    )
    assert came.as_expected, unexpected(came)


def test_a_procedure_that_cannot_be_carried_out_is_reported_where_it_stops() -> None:
    wheel_first = PUMP.replace('"lid", "wheel", "peg"', '"lid", "peg", "wheel"')
    came = Stage(tiny_job(wheel_first), None).rehearse()
    assert came.state.outcome == "open"
    assert "wheel-in: a careful answer" in unexpected(came)


STOP = {"step": "fit-G3", "do": {"what": "stop"}, "reason": "a call", "came": "recorded"}


def test_a_pump_is_left_at_a_step_or_after_the_last_departure() -> None:
    at_a_step, at_once = run(STOP, until="pack"), run(STOP, ends="open")
    for came in (at_a_step, at_once):
        assert came.as_expected and came.state.outcome == "open"
    assert at_once.state.read_again and not at_a_step.state.read_again


def test_a_pump_that_ends_otherwise_than_it_has_to_is_reported() -> None:
    assert unexpected(run(STOP, until="fit-G2")) == "the pump was not left open at fit-G2: released"
    assert unexpected(run(STOP, ends="scrapped")) == "the pump was not scrapped: released"


def test_what_has_to_be_written_and_void_is_expected() -> None:
    back = {"step": "fit-G3", "go_back": "main-lip", "reason": "torn", "came": "voided"}
    right = {"events": ("went back", "part removed"), "void": ("main-lip-in",)}
    assert run({**back, **right}, ends="open").as_expected
    wrong = run({**back, "events": ("remark",), "void": ("fit-G2",)}, ends="open")
    assert 'with the event "remark" with fit-G2 void' in unexpected(wrong)


def test_what_is_asked_before_any_step_is_asked_on_arrival() -> None:
    other = {"step": "on arrival", "question": "name", "answer": "K. Sketch", "came": "passed"}
    card = {"step": "on arrival", "question": "handover taken", "answer": "K. Sketch", "came": "passed"}
    came = run(STOP, other, card, until="pack")
    assert came.as_expected, unexpected(came)
    assert came.state.technician == "K. Sketch"


def test_a_departure_on_a_way_back_comes_before_what_is_left_of_it() -> None:
    came = run(
        {"step": "lip-check", "go_back": "main-lip", "reason": "torn", "came": "recorded", "says": "off: ;"},
        {"step": "going back", "target": "main-lip", "do": {"what": "cut off"}, "came": "recorded"},
        until="lip-check",
    )  # fmt: skip
    assert came.as_expected, unexpected(came)
    assert came.state.assembly.instance("main-lip") == 2


def test_nobody_answers_for_long_and_the_name_is_asked() -> None:
    def left(pause: str, came: str) -> dict[str, Any]:
        return {"step": "fit-G3", "do": {"what": "left alone", "pause": pause}, "came": came}

    assert run(left("10 min", "passed"), ends="open").state.technician
    away = run(left("16 min", "recorded"), ends="open")
    assert away.as_expected and not away.state.technician


@pytest.mark.parametrize(
    ("deed", "rule"),
    [
        ({"of": "step gap"}, "no-such-table"),
        ({"of": "stack", "key": "parts"}, "no-such-table"),
        ({"of": "step fit-G3", "key": "rings"}, ""),
        ({"of": "step fit-G3", "key": "ring", "to": ["G3"]}, "no-such-key"),
        ({"of": "step fit-G3", "key": "rings", "to": "G3"}, "no-such-value"),
        ({"of": "fasteners F1", "key": "torque"}, ""),
        ({"of": "fasteners F1", "key": "into"}, "no-such-value"),
    ],
)
def test_a_new_text_is_the_present_one_with_one_thing_changed(deed: dict[str, Any], rule: str) -> None:
    came = run(
        {"step": "fit-G3", "do": {"what": "new text", **deed}, "came": "refused" if rule else "recorded",
         **({"rule": rule} if rule else {"events": ("procedure differs",)})},
        ends="open",
    )  # fmt: skip
    assert came.as_expected, unexpected(came)
    assert (came.state.offer is None) == bool(rule)


def test_what_the_shop_stops_goes_on_when_nothing_stops_it() -> None:
    lifted = {"step": "fit-G3", "do": {"what": "may go on"}, "came": "refused", "rule": "nothing-halted"}
    stopped = {"step": "fit-G3", "do": {"what": "withdrawn"}, "came": "recorded"}
    came = run(
        lifted,
        stopped,
        {"step": "on arrival", "question": "halted", "do": {"what": "may go on"}, "came": "recorded"},
        until="pack",
    )
    assert came.as_expected, unexpected(came)


def test_what_is_done_at_a_wait_is_done_at_once_or_as_long_before_its_end_as_is_said() -> None:
    at_once = {"step": "cure", "do": {"what": "remark"}, "reason": "x", "came": "recorded"}
    late = {**at_once, "early": "5 min"}
    first, last = (run(each, ends="open").state.at for each in (at_once, late))
    assert first is not None and last is not None and (last - first).total_seconds() > 20 * 3600
