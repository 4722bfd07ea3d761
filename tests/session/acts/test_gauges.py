"""Which gauge a reading is taken on: chosen once, kept in hand, asked again where it serves no more."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from benchcheck.session import troubles
from benchcheck.session.events import GaugeChanged, GaugeTaken, InstrumentDoubted, Measured
from benchcheck.session.prompt import Outcome
from benchcheck.session.state import Job
from tests.pumps import can_with, tiny_job
from tests.session.bench import Bench

GAP = 'ask = [{ what = "gap under the cover", max = "0.05 mm" }]\noutside = "back to cover"'
PRESSURE = 'what = "pressure", min = "147 psi", max = "153 psi", gauge = "pressure gauge", guarded = true'
LOW = 'what = "low pressure", min = "16 psi", max = "24 psi", gauge = "pressure gauge"'


def job(*questions: str) -> Job:
    asks = ", ".join(f"{{ {question} }}" for question in questions)
    return tiny_job(can_with((GAP, f"ask = [{asks}]")))


def asking(*questions: str) -> Bench:
    """The can, at questions of its last step."""
    return Bench(job(*questions)).until("gap/ask")


def readings(bench: Bench) -> list[Measured]:
    """What was read in the last step."""
    return [
        each for each in bench.events(Measured) if isinstance(each, Measured) and each.act.startswith("gap/")
    ]


def refusal(result: object) -> str:
    assert isinstance(result, Outcome)
    return result.refusals[0].rule


def test_the_gauge_is_chosen_once_and_every_reading_of_its_kind_names_it() -> None:
    bench = asking(f"{PRESSURE}, places = 2", 'what = "left", max = "0 psi", gauge = "pressure gauge"')
    assert bench.asked == "gap/ask:0 gauge"
    assert [each.value for each in bench.prompt.choices if each.serves] == ["PG-01"]
    bench.say("pg-01", "150", "150", "0")
    assert [(each.value, each.instrument) for each in readings(bench)] == [
        (150.0, "PG-01"),
        (150.0, "PG-01"),
        (0.0, "PG-01"),
    ]
    assert [each.of_kind for each in bench.events(GaugeTaken) if isinstance(each, GaugeTaken)] == [
        "pressure gauge"
    ]
    closed = bench.to_the_end().state.closed
    assert closed is not None and closed.gauges == ("PG-01",)


def test_a_gauge_that_cannot_tell_the_next_limits_is_exchanged() -> None:
    bench = asking(PRESSURE, LOW)
    bench.say("PG-01", "150")
    assert bench.asked == "gap/ask:1 place 1", "it can tell these limits too"
    narrow = 'what = "low pressure", min = "24.5 psi", max = "25 psi", gauge = "pressure gauge"'
    bench = asking(PRESSURE, narrow)
    bench.say("PG-01", "150")
    assert bench.asked == "gap/ask:1 gauge" and bench.refused("PG-01") == ["gauge-does-not-fit"]
    bench.say("PG-02", "24.8")
    assert [each.instrument for each in readings(bench)] == ["PG-01", "PG-02"]


def test_one_of_another_kind_unit_or_register_is_refused() -> None:
    bench = asking(PRESSURE)
    assert bench.refused("MI-01") == bench.refused("PG-99") == ["no-such-answer"]
    for gauge, why in (("PG-02", "reads from 0 psi to 25 psi"), ("PG-03", "shows bar; this is read in psi")):
        outcome = bench.answer(gauge)
        assert outcome is not None and why in outcome.refusals[0].wrong and not outcome.passable


def test_one_out_of_date_is_refused_and_one_that_runs_out_meanwhile_asked_again() -> None:
    known = job(f"{PRESSURE}, places = 2")
    last_day = date(2026, 11, 2)
    gauges = tuple(
        replace(each, calibration_due=last_day) if each.id == "PG-01" else each
        for each in known.registers.gauges
    )
    bench = Bench(Job(known.procedure, replace(known.registers, gauges=gauges))).until("gap/ask")
    bench.say("PG-01", "150")
    bench.now += timedelta(days=1)
    assert bench.asked == "gap/ask:0 gauge"
    outcome = bench.answer("PG-01")
    assert outcome is not None and outcome.refusals[0].rule == "gauge-does-not-fit"
    assert "calibration ended 2 Nov 2026, 1 day ago" in outcome.refusals[0].wrong


def test_a_reading_within_the_error_of_its_gauge_is_marked() -> None:
    # PG-01 may be off by 1 % of 250 psi: guarded limits 149.5 and 150.5 psi (ILAC-G8:09/2019, w = U)
    for typed, marked in (("149.5", ""), ("149.4", "outside the guarded part of the tolerance")):
        bench = asking(PRESSURE)
        bench.say("PG-01", typed)
        assert readings(bench)[-1].marked == marked and readings(bench)[-1].verdict == "inside"
    bench = asking(LOW)
    bench.say("PG-01", "16")
    assert readings(bench)[-1].marked == "", "nothing is guarded that the procedure does not guard"


def test_another_gauge_is_asked_for_when_one_is_laid_down() -> None:
    bench = asking(f"{LOW}, places = 2")
    assert refusal(troubles.change_gauge(bench.state, "none yet", bench.now)) == "nothing-in-hand"
    bench.say("PG-01", "22")
    assert refusal(troubles.change_gauge(bench.state, " ", bench.now)) == "no-reason"
    bench.carry_out(troubles.change_gauge(bench.state, "its needle sticks", bench.now))
    (event,) = bench.events(GaugeChanged)
    assert isinstance(event, GaugeChanged) and event.gauge == "PG-01"
    bench.say("PG-02")
    assert bench.asked == "gap/ask:0 place 1", "the set of readings begins again"
    bench.say("22", "22")
    assert bench.state.done_with == {"PG-01": (), "PG-02": ("gap/ask:0 1", "gap/ask:0 2")} | {
        each: did for each, did in bench.state.done_with.items() if each.startswith("TW")
    }


def test_a_dropped_gauge_rests_and_what_it_showed_waits_for_a_decision() -> None:
    bench = asking(LOW, f"{PRESSURE}, places = 2")
    bench.say("PG-01", "22", "150")
    bench.carry_out(troubles.doubt_instrument(bench.state, "PG-01", "fell on the floor", bench.now))
    (event,) = bench.events(InstrumentDoubted)
    assert isinstance(event, InstrumentDoubted) and event.readings == ("gap/ask:0 1", "gap/ask:1 1")
    (open_,) = bench.state.open_deviations
    assert open_.rules == (troubles.IN_DOUBT,) and "low pressure; pressure" in open_.wrong
    assert bench.asked == "gap/ask:1 gauge" and bench.refused("PG-01") == ["gauge-does-not-fit"]
    (choice,) = (each for each in bench.prompt.choices if each.value == "PG-01")
    assert "fell on the floor" in choice.words


def test_what_was_read_anew_on_another_gauge_is_in_doubt_no_more() -> None:
    bench = asking(f"{LOW}, places = 2")
    bench.say("PG-01", "22")
    bench.carry_out(troubles.change_gauge(bench.state, "its needle sticks", bench.now))
    bench.say("PG-02", "22", "22")
    bench.carry_out(troubles.doubt_instrument(bench.state, "PG-01", "it is bent", bench.now))
    assert not bench.state.open_deviations and "PG-01" in bench.state.doubted
    assert (
        refusal(troubles.doubt_instrument(bench.state, "XX-1", "bent", bench.now)) == "instrument-not-known"
    )


def test_what_does_not_ask_for_a_gauge_asks_for_none() -> None:
    bench = asking('what = "gap", max = "0.05 mm", with = "feelers"')
    bench.say("0.03")
    assert readings(bench)[-1].instrument == ""
