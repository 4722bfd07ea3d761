"""Each single fault, run: what sees it, whether in time, and that a blinded procedure is found out.

What is expected of the small pump is reasoned by hand from its procedure, written out in `fault_pump`.
"""

from __future__ import annotations

import random
from functools import cache

import pytest

from benchcheck.assembly.every_fault import every_fault
from benchcheck.session.fault_run import By, Found, faults_of, run, run_faults
from benchcheck.session.fault_walk import NotReleased, Walk, walks
from benchcheck.session.rehearsal import Stage
from tests.pumps import main_job, registers, tiny_job
from tests.session.fault_pump import LOCKING, PUMP, TIMED, TURNED_ON, every, found, of, walks_of


@pytest.mark.parametrize(
    ("words", "steps"),
    [
        # no face to tell; then the place of the peg, and the counts of what is left
        ("the washer left out", ("washer-in", "peg-in", "F1", "release")),
        ("the washer the other way round", ("washer-in", "peg-in")),
        ("the washer does not reach its seat", ("washer-in",)),
        # only a yes is asked of the peg itself
        ("the peg left out", ("wheel-in", "F1", "release")),
        ("the ring of G1 left out", ("fit-G1", "lid-on", "release")),
        ("the ring of G1 recorded as in, and not there", ("lid-on", "release")),
        ("the ring of G1: the old one goes in again", ("fit-G1", "release")),
        ("a -150, NBR, in G1", ("fit-G1",)),
        ("the lid turned by 90°", ("lid-on",)),
        ("the lid screws: position 3 skipped in round 2", ("F1",)),
        ("the lid screws, round 1: position 2 where 1 is due", ("F1",)),
        ("the lid screws with TW-06", ("F1",)),
        ("depth: 2.4", ("washer-in",)),
    ],
)
def test_the_steps_that_see_a_fault(words: str, steps: tuple[str, ...]) -> None:
    one = of(words)
    assert one.steps == steps
    assert one.caught_at == steps[0] and not one.let_through


def test_a_part_fitted_before_what_lies_under_it_is_refused() -> None:
    early = of("peg-in/install:peg before washer-in/install:washer")
    assert early.caught_at == "peg-in" and early.sightings[0].rule == "part-left-out"


@pytest.mark.parametrize(
    "words", ["fit-G1/fit:G1 before peg-in/install:peg", "the lid screws: position 3 skipped in round 1"]
)
def test_what_leaves_the_pump_as_it_was_is_harmless(words: str) -> None:
    assert not of(words).harms and not of(words).let_through


def test_a_number_and_a_second_person_are_not_thin_and_one_look_is() -> None:
    not_home, reversed_lid = of("the washer does not reach its seat"), of("the lid the other way round")
    assert [each.by for each in not_home.sightings] == [By.NUMBER] and not not_home.thin
    assert [each.by for each in reversed_lid.sightings] == [By.LOOK] and reversed_lid.thin
    watched = PUMP.replace('part = "lid" }', 'part = "lid", witness = true }')
    seen = of("the lid the other way round", watched)
    assert [each.by for each in seen.sightings] == [By.LOOK, By.WITNESS] and not seen.thin


@pytest.mark.parametrize(
    ("words", "sighted", "blind"),
    [
        ("the peg left out", 'order = ["lid", "wheel", "peg", "washer"]', 'order = ["lid", "washer"]'),
        ("the washer does not reach its seat", 'min = "1 mm", max = "2 mm"', 'unit = "mm"'),
        ("the lid screws: position 3 skipped in round 2", 'rounds = ["50', 'pass = false\nrounds = ["50'),
    ],
)
def test_a_procedure_that_loses_an_eye_lets_the_fault_through(words: str, sighted: str, blind: str) -> None:
    assert sighted in PUMP
    assert of(words).caught_at is not None
    assert of(words, PUMP.replace(sighted, blind)).let_through


def test_what_is_seen_only_when_it_is_covered_comes_too_late() -> None:
    old_wheel = of("the wheel: the old one goes in again")
    # the new one is counted on the mat, but by then the lid is on
    assert old_wheel.steps == ("F1", "release")
    assert old_wheel.let_through and old_wheel.caught_at is None
    tray = (
        '{ id = "scrap", phase = "teardown", act = "check", ask = [{ what = "scrap", kind = "scrap" }] },\n'
    )
    counted = PUMP.replace('  { id = "washer-in"', f'  {tray}  {{ id = "washer-in"')
    assert of("the wheel: the old one goes in again", counted).caught_at == "scrap"


def test_a_fact_that_names_an_end_sees_a_part_the_other_way_round() -> None:
    look = (
        'ask = [{ what = "lid", one_of = ["its outside up", "its inside up"], good = ["its outside up"],'
        ' of = ["lid"], before = "F1" }]'
    )
    named = PUMP.replace('group = "F1" },', f'group = "F1", {look} }},')
    assert of("the lid the other way round", named).steps == ("lid-on", "F1")
    # it says nothing of how the lid is turned about its axis
    assert of("the lid turned by 90°", named).steps == ("lid-on",)


def test_a_fact_that_names_the_mark_sees_a_part_turned() -> None:
    look = (
        'ask = [{ what = "marks", one_of = ["in line", "notch out of line"], good = ["in line"],'
        ' of = ["lid"], before = "F1" }]'
    )
    named = PUMP.replace('group = "F1" },', f'group = "F1", {look} }},')
    assert of("the lid turned by 90°", named).steps == ("lid-on", "F1")
    assert of("the lid the other way round", named).steps == ("lid-on",)


def test_screws_that_nobody_took_in_hand_are_seen_by_what_is_asked_about_them() -> None:
    words = "the lid screws left out"
    assert of(words).steps == ("F1",)
    look = '{ id = "gap", act = "measure", of = ["F1"], ask = [{ what = "gap", max = "0.05 mm" }] },'
    asked = PUMP.replace('{ id = "release"', f'{look}\n  {{ id = "release"')
    assert of(words, asked).steps == ("F1", "gap") and not of(words, asked).thin


def test_nothing_of_a_fault_is_in_the_record_before_it_is_seen() -> None:
    """The way is walked once and never changed: a fault run again, after all others, comes out the same."""
    for fault, one in zip(every(), run_faults(walks_of(PUMP), every()), strict=True):
        assert run(fault, walks_of(PUMP)[0]) == one


def test_a_careful_way_that_does_not_end_is_said() -> None:
    broken = PUMP.replace(
        'order = ["lid", "wheel", "peg", "washer"]', 'order = ["lid", "peg", "wheel", "washer"]'
    )
    with pytest.raises(NotReleased, match="does not reach release: wheel-in: a careful answer"):
        walks(Stage(tiny_job(broken), None))


def test_an_angle_that_another_screw_got_is_seen_only_by_what_looks_at_the_group() -> None:
    assert of("the lid screws: position 3 not turned on", TURNED_ON).let_through
    look = 'ask = [{ what = "lines on the heads", one_of = ["all turned", "one not"], good = ["all turned"]'
    lined = TURNED_ON.replace('group = "F1" },', f'group = "F1", {look}, of = ["F1"] }}] }},')
    assert of("the lid screws: position 3 not turned on", lined).steps == ("F1",)
    # nor does a pass make good what never got its torque: the screw is turned on from where it stands
    assert of("the lid screws: position 3 skipped in round 2", TURNED_ON).let_through


@pytest.mark.parametrize(
    ("words", "rule"),
    [("turned half as far", "angle-too-small"), ("turned twice as far", "angle-too-far")],
)
def test_an_angle_that_is_read_is_judged(words: str, rule: str) -> None:
    assert [each.rule for each in of(f"the lid screws: {words}", TURNED_ON).sightings] == [rule]


@pytest.mark.parametrize("torque", ["1.6", "5"])
def test_a_running_torque_outside_is_refused(torque: str) -> None:
    one = of(f"the lid screws: running torque {torque}", LOCKING)
    assert [each.rule for each in one.sightings] == ["running-torque-outside"]


def test_a_clock_is_not_cut_short_and_not_overrun() -> None:
    early, late = of("soak not waited for to the end", TIMED), of("soak overrun", TIMED)
    assert [each.rule for each in early.sightings] == ["clock-still-runs"]
    assert [each.rule for each in late.sightings] == ["clock-ran-out"]
    assert {each.by for each in (*early.sightings, *late.sightings)} == {By.PROGRAM}


# ---------------------------------------------------------------------- the main pump


@cache
def main_ways(variant: str) -> tuple[Walk, ...]:
    return walks(Stage(main_job(), variant))


@cache
def main_found(variant: str) -> tuple[Found, ...]:
    """What comes of a seeded part of its faults: all that hands make on parts, and one in five others.

    All of them: `benchcheck rehearse procedures/xmpl-hc40-c.toml --faults`.
    """
    chosen = random.Random(f"faults {variant}")
    made = faults_of(main_job(), main_ways(variant)[0])
    whole = ("left out", "left over", "reversed", "other end", "not home", "old for new", "tool left inside")
    some = [each for each in made if each.kind in whole or chosen.random() < 0.2]
    return tuple(each for each in run_faults(main_ways(variant), some) if each is not None)


@pytest.mark.parametrize("variant", ["-05", "-07"])
def test_the_main_pump_lets_no_fault_through_and_leaves_none_to_one_look(variant: str) -> None:
    assert len(main_found(variant)) > 150
    assert not [each.words for each in main_found(variant) if each.let_through]
    assert not [each.words for each in main_found(variant) if each.thin]


@pytest.mark.parametrize(
    ("words", "step"),
    [
        # where the bench must catch what it gets wrong on this pump
        ("the main lip seal the other way round", "main-lip-in"),
        ("the seal cartridge the other way round", "cartridge-in"),
        ("the main lip seal goes in from the shallow pocket end of the seal cartridge", "main-lip-in"),
        ("two rings in G2, none in G3", "lip-check"),
        ("a -150, NBR, in G4", "fit-G4"),
        ("the rear thrust washer the other way round", "tw-rear-in"),
        ("the cartridge ring recorded as in, and not there", "shaft-in"),
        ("the end plate screws: 5/16-18 x 3 instead of 5/16-18 x 2-3/4", "screws-in"),
        ("the end plate screws, round 2: position 3 where 1 is due", "F1-r2"),
        ("F3 cure not waited for to the end", "cure"),
        ("the end plate turned by 180°", "plate-on"),
        ("the bullet sleeve is still inside", "spin-1"),
    ],
)
def test_what_goes_wrong_at_the_bench_is_caught_where_it_must_be(words: str, step: str) -> None:
    ways = main_ways("-05")
    made = [each for each in faults_of(main_job(), ways[0]) if each.words(ways[0].pump) == words]
    came = [each for each in run_faults(ways, made) if each is not None]
    assert step in [each.caught_at for each in came]


def test_a_branch_of_its_own_is_walked_for_a_verdict_that_does_not_come_up() -> None:
    good, replaced = main_ways("-05")
    assert "bearing-off/remove:bearing" in replaced.first and "bearing-off/remove:bearing" not in good.first
    assert "bearing-on/install:bearing" in replaced.first, "a bearing that is off has to go on again"


def test_every_wrench_of_the_shop_is_tried() -> None:
    pump = main_ways("-05")[0].pump
    tried = {each.words(pump) for each in every_fault(pump, (w.id for w in registers().wrenches))}
    assert all(f"the end plate screws with {wrench.id}" in tried for wrench in registers().wrenches)


def test_the_small_pump_is_seen_whole() -> None:
    assert {each.fault.kind for each in found()} == {
        "left out",
        "left over",
        "not home",
        "reversed",
        "turned",
        "old for new",
        "another ring",
        "position skipped",
        "position out of turn",
        "round left out",
        "torque reading",
        "unfit wrench",
        "order",
        "fact outside",
    }
