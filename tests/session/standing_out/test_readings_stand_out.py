"""Readings: near a limit, too even, copied; and the wrench that showed them, out of date.

The can has twelve screws here, and the wrench shows tenths of a newton metre.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from functools import cache
from itertools import chain

import pytest
from scipy.stats import combine_pvalues  # type: ignore[import-untyped]

from benchcheck.session import commands
from benchcheck.session.course import Course, Shown
from benchcheck.session.remarks import Weight, kind
from benchcheck.session.standing_out.instrument_out_of_date import Use, out_of_date
from benchcheck.session.standing_out.readings_too_even import resolution, together
from tests.pumps import can_with
from tests.session.bench import Bench
from tests.session.courses import can_bench, course_of, said

TWELVE = can_with(("circle = 4", "circle = 12"))
WRENCH = "TW-04"  # indicates, 0.1 N·m, 2 %


def honest(seed: int) -> list[float]:
    """Both rounds of twelve readings as a hand takes them: near the target, never twice the same row."""
    chance = random.Random(seed)
    return [round(chance.gauss(target, 0.015 * target), 1) for target in (10, 20) for _ in range(12)]


@cache
def at_the_screws(text: str = TWELVE) -> Bench:
    bench = can_bench(text).until("F-tight/tighten:F wrench")
    bench.say(WRENCH)
    return bench.until("F-tight/tighten:F round 1")


def tighten(bench: Bench, readings: Sequence[float]) -> Bench:
    for value in readings:
        bench.say(f"{value:g}")
    return bench


@cache
def tightened(*readings: float) -> Bench:
    return tighten(at_the_screws().copied(), readings)


def test_readings_of_an_honest_hand_do_not_stand_out() -> None:
    for seed in range(4):
        bench = tightened(*honest(seed))
        for name in ("readings too even", "readings copied", "reading unguarded", "instrument out of date"):
            assert not said(name, bench, today=bench.now.date()), (name, seed)


def test_readings_that_are_all_the_same_stand_out() -> None:
    (remark,) = said("readings too even", tightened(*honest(1)[:12], *[20.2] * 12))
    assert remark.weight is Weight.ODD
    assert remark.sentence.startswith("Cover screws, round 2: 11 of 11 readings are the one before again")


def test_the_same_few_readings_over_and_over_stand_out() -> None:
    row = [19.6, 20.3, 20.0] * 4
    (remark,) = said("readings too even", tightened(*honest(1)[:12], *row))
    assert "the one 3 before again" in remark.sentence


def test_rounds_that_are_each_a_little_even_stand_out_together() -> None:
    text = TWELVE.replace('rounds = ["50 %", "100 %"]', 'rounds = ["50 %", "55 %", "60 %", "100 %"]')
    full = honest(1)[12:]

    def even(*first: Sequence[float]) -> list[str]:
        bench = tighten(at_the_screws(text).copied(), [*chain.from_iterable(first), *full])
        return [each.sentence for each in said("readings too even", bench)]

    # Twelve that are all the same: one honest round in a hundred, in 230, in 500.
    low, middle, high = [10.0] * 12, [11.0] * 12, [12.0] * 12
    assert even(low, middle, high) == [
        "The readings of 4 rounds, taken together, lie closer than honest ones do."
    ]
    assert even(low, middle, [11.9, 12.1] * 6) == []


@pytest.mark.parametrize(
    ("values", "step"),
    [
        ((134, 132), 2),
        ((134, 133), 1),
        ((134, 132.4), 0.4),
        ((134, 132.2), 0.2),
        ((134, 133.3333), 2),
    ],
)
def test_an_eye_that_divides_a_graduation_is_known_by_its_readings(
    values: tuple[float, ...], step: float
) -> None:
    assert resolution(values, 2.0) == pytest.approx(step)


def test_readings_of_two_neighbouring_graduations_nearly_do() -> None:
    two = [20.2, 20.1, 20.2, 20.2, 20.1, 20.1, 20.2, 20.1, 20.1, 20.1, 20.2, 20.1]
    assert not said("readings too even", tightened(*honest(1)[:12], *two))


def shown(where: str, readings: Sequence[float]) -> tuple[Shown, ...]:
    """Another pump's readings; they were taken position by position in the crosswise order."""
    done = course_of(tightened(*readings)).shown()
    return tuple(replace(each, where=where) for each in done)


def copied_from(readings: Sequence[float], earlier: tuple[Shown, ...]) -> list[str]:
    course = course_of(tightened(*readings), earlier=earlier)
    return [remark.sentence for remark in kind("readings copied").look(course)]


def test_the_readings_of_another_pump_stand_out() -> None:
    others = tuple(chain.from_iterable(shown(f"pump {seed}", honest(seed)) for seed in range(2, 6)))
    assert copied_from(honest(1), others) == []
    (sentence,) = copied_from(honest(1), (*others, *shown("pump 77", honest(1))))
    assert sentence.endswith("readings beside the target are those of pump 77.")


def test_two_pumps_whose_readings_are_all_at_the_target_do_not() -> None:
    at_target = (*[10.0] * 12, *[20.0] * 12)
    assert copied_from(at_target, shown("pump 77", at_target)) == []


def test_half_the_readings_of_another_pump_nearly_do() -> None:
    ours, theirs = honest(1), honest(2)
    half = [one if place % 2 else other for place, (one, other) in enumerate(zip(ours, theirs, strict=True))]
    assert copied_from(half, shown("pump 2", [*theirs[:12], *honest(3)[12:]])) == []


def test_the_readings_of_the_tightening_before_stand_out() -> None:
    def again(second: Iterator[float]) -> Bench:
        bench = tightened(*honest(1)).copied()
        bench.carry_out(commands.go_back(bench.state, "cover", "a noise", bench.now))
        bench.until("F-tight/tighten:F round 1")
        return tighten(bench, [next(second) for _ in range(24)])

    (remark,) = said("readings copied", again(iter(honest(1))))
    assert remark.sentence.endswith("those of tightening 1 of the same screws.")
    assert not said("readings copied", again(iter(honest(2))))


@pytest.mark.parametrize("chances", [[0.03], [0.2, 0.01], [1.0, 0.5, 1e-5], [1e-12] * 4])
def test_chances_are_taken_together_as_scipy_does(chances: list[float]) -> None:
    assert together(chances) == pytest.approx(combine_pvalues(chances, method="fisher").pvalue, rel=1e-6)


def test_a_reading_at_the_edge_of_its_limits_is_named_and_one_inside_by_the_error_is_not() -> None:
    # 18 to 22 N·m; 2 % of what a wrench shows: from 18.36 to 21.57 nothing is left to its error.
    rest = honest(1)[13:]
    (remark,) = said("reading unguarded", tightened(*honest(1)[:12], 21.9, *rest))
    assert remark.weight is Weight.DEPARTS
    assert "round 2, 21.9 N·m: inside its limits by less" in remark.sentence
    assert not said("reading unguarded", tightened(*honest(1)[:12], 21.5, *rest))


def test_a_reading_outside_that_was_taken_over_is_named_until_it_is_undone() -> None:
    bench = tightened(*honest(1)[:23]).copied()
    assert bench.answer("22.4", over="the customer wants it so") is None
    (remark,) = said("reading unguarded", bench)
    assert "above the tolerance" in remark.sentence
    bench.decide()
    bench.carry_out(commands.go_back(bench.state, "cover", "too tight", bench.now))
    bench.until("cover-on")
    assert not said("reading unguarded", bench)


def test_a_wrench_is_out_of_date_from_the_day_after() -> None:
    used = [Use(WRENCH, date(2026, 11, 2), 40)]
    assert not list(out_of_date(used, {WRENCH: date(2026, 11, 2)}))
    (remark,) = out_of_date(used, {WRENCH: date(2026, 11, 1)})
    assert remark.event == 40 and WRENCH in remark.sentence
    assert not list(out_of_date(used, {}))


def test_the_register_of_today_says_what_was_out_of_date() -> None:
    course = course_of(tightened(*honest(1)))
    day = course.day(course.events[-1])

    def due(last: date) -> Course:
        job = course.state.job
        wrenches = tuple(replace(each, calibration_due=last) for each in job.registers.wrenches)
        changed = replace(job, registers=replace(job.registers, wrenches=wrenches))
        return replace(course, state=replace(course.state, job=changed), today=day)

    out = kind("instrument out of date")
    assert not list(out.look(due(day)))
    (remark,) = out.look(due(date(2026, 10, 31)))
    assert remark.sentence == f"{WRENCH} was used on {day}; its calibration ended on 2026-10-31."
    assert not list(out.look(replace(due(date(2026, 10, 31)), today=None)))


GAP = 'ask = [{ what = "gap under the cover", max = "0.05 mm" }]\noutside = "back to cover"'
PRESSURE = 'what = "pressure", min = "147 psi", max = "153 psi", gauge = "pressure gauge", guarded = true'


@cache
def pressed(*readings: str) -> Bench:
    """The can with pressures read on PG-01, which may be off by 2.5 psi."""
    asked = f"ask = [{{ {PRESSURE}, places = {len(readings)} }}]"
    bench = can_bench(can_with((GAP, asked))).until("gap/ask")
    bench.say("PG-01", *readings)
    return bench


def test_a_pressure_inside_by_less_than_the_error_of_its_gauge_is_named() -> None:
    (remark,) = said("reading unguarded", pressed("150", "148"))
    assert remark.sentence == "Pressure, 148 psi: inside its limits by less than the error of PG-01."
    assert not said("reading unguarded", pressed("150.5", "149.5"))
    again = pressed("150", "148").copied()
    again.carry_out(commands.go_back(again.state, "cover", "a noise", again.now))
    again.until("F-tight")
    assert not said("reading unguarded", again), "what is void is not named"


def test_a_gauge_is_out_of_date_by_the_register_of_today_too() -> None:
    course = course_of(pressed("150", "150"), today=date(2026, 11, 3))
    job = course.state.job
    gauges = tuple(
        replace(each, calibration_due=date(2026, 10, 31)) if each.id == "PG-01" else each
        for each in job.registers.gauges
    )
    ended = replace(job, registers=replace(job.registers, gauges=gauges))
    (remark,) = kind("instrument out of date").look(replace(course, state=replace(course.state, job=ended)))
    assert remark.sentence.startswith("PG-01 was used on 2026-11-02")
    assert not list(kind("instrument out of date").look(course))
