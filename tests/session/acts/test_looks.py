"""Looks and hold points: seen once more before it is hidden, by another pair of eyes, never agreed to."""

from __future__ import annotations

from dataclasses import replace

from benchcheck.session import commands
from benchcheck.session.events import GrooveFound, Told, WentBack, Witnessed, WorkTurned
from tests.pumps import SECOND, TECHNICIAN, THIRD, can_with, main_job, tiny_job
from tests.session.bench import Bench

LOOK = (
    '[[step]]\nid = "cover-on"\nrings = ["G"]\n',
    '[[step]]\nid = "ring"\nrings = ["G"]\n\n'
    '[[step]]\nid = "look"\nact = "check"\nof = ["lip", "G"]\nwitness = true\n\n'
    '[[step]]\nid = "cover-on"\n',
)
FACT = (
    'ask = [{ what = "gap under the cover", max = "0.05 mm" }]\noutside = "back to cover"',
    'ask = [{ what = "joint", one_of = ["shut", "open"], good = ["shut"] }]\nwitness = true',
)


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


# ---------------------------------------------------------------------- looks


def test_a_part_is_looked_at_as_it_lies_now() -> None:
    bench = at("look/look:lip", LOOK)
    assert bench.asked == "look/look:lip face lip" and "top up" in bench.prompt.ask
    assert bench.refused("back") == ["part-faces-the-wrong-way"]
    bench.say("mouth")
    assert bench.asked == "look/look:G groove G"


def test_turned_over_the_other_end_is_seen() -> None:
    bench = at("look/look:lip", LOOK)
    bench.state = replace(bench.state, assembly=bench.state.assembly.turned_up("body", "bottom"))
    assert bench.refused("mouth") == ["part-faces-the-wrong-way"]
    bench.say("back")


def test_how_it_lies_is_asked_where_nobody_has_said() -> None:
    bench = at("look/look:lip", LOOK)
    bench.state = replace(bench.state, assembly=replace(bench.state.assembly, poses={}))
    assert bench.asked == "look/look:lip pose"
    bench.say("bottom", "back")
    assert isinstance(bench.events(WorkTurned)[-1], WorkTurned)


def test_a_part_seen_the_wrong_way_round_comes_out_on_the_way_that_mends() -> None:
    bench = at("look/look:lip", LOOK)
    outcome = bench.answer("back", over="it is a drawing of the old type")
    assert outcome is not None and not outcome.passable
    assert [type(event) for event in outcome.mend] == [WentBack]
    bench.mend(outcome)
    bench.until("look/look:lip")
    assert bench.state.suspects == ()


def test_an_empty_groove_is_seen_and_filled_on_the_way_that_mends() -> None:
    bench = at("look/look:G", LOOK)
    outcome = bench.answer("empty")
    assert outcome is not None and outcome.refusals[0].rule == "groove-left-empty"
    assert [type(event) for event in outcome.mend] == [GrooveFound]
    bench.mend(outcome)
    assert bench.asked == "ring/fit:G size"


# ---------------------------------------------------------------------- hold points


def test_the_second_person_sees_each_thing_anew() -> None:
    bench = at("look/witness", LOOK)
    assert bench.asked == "look/witness witness"
    assert bench.refused(TECHNICIAN) == ["witness-is-the-doer"]
    bench.say(SECOND)
    assert bench.asked == "look/witness saw lip" and bench.prompt.ask.startswith(SECOND)
    assert bench.refused("back") == ["part-faces-the-wrong-way"]
    bench.say("mouth")
    assert bench.refused("empty") == ["groove-left-empty"]
    bench.say("one ring")
    (seen,) = bench.events(Witnessed)
    assert isinstance(seen, Witnessed) and seen.name == SECOND and seen.saw == ("lip: mouth", "G: one ring")
    assert SECOND in bench.state.people


def test_a_hold_point_says_how_it_lies_before_it_asks_what_is_seen() -> None:
    bench = at("look/witness", LOOK)
    bench.say(SECOND)
    bench.state = replace(bench.state, assembly=replace(bench.state.assembly, poses={}))
    assert bench.asked == "look/witness pose"
    bench.say("bottom")
    assert bench.asked == "look/witness saw lip"
    bench.say("back")


def test_the_second_person_says_the_same_of_a_fact_or_it_is_asked_again() -> None:
    bench = at("gap/witness", FACT)
    bench.say(THIRD)
    assert bench.refused("open") == ["witness-sees-otherwise"]
    told = bench.events(Told)[-1]
    bench.carry_out(commands.correct(bench.state, told.number, "looked again together", bench.now))
    assert bench.asked == "gap/ask:0 ask"


def test_on_the_main_pump_a_cartridge_reversed_in_its_carrier_is_seen_before_it_is_pressed_home() -> None:
    bench = Bench(main_job(), "-05").until("lip-check/witness")
    bench.say(SECOND)
    seen = set()
    while bench.prompt.act == "lip-check/witness":
        seen.add(bench.prompt.question)
        bench.go_on()
    assert {"saw main-lip", "saw excluder", "saw G2", "saw G3"} <= seen
