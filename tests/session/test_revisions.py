"""Another text of the procedure under an open session: told, moved on to, or left alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from benchcheck.session import commands, engine, revisions
from benchcheck.session.events import (
    HaltLifted,
    MovedOn,
    ProcedureDiffers,
    Remark,
    StayedOn,
    WorkHalted,
    from_table,
)
from benchcheck.session.fold import beginning, folded
from benchcheck.session.prompt import Outcome
from benchcheck.session.record import read
from tests.pumps import CAN, TECHNICIAN, can_with, procedure_of, tiny_job
from tests.session.bench import Bench

OTHER = "d" * 64
MORE_TORQUE = ('target = "20 N·m"', 'target = "24 N·m"')
OTHER_RING = ('takes = "-110"', 'takes = "-111"')
ANOTHER_NAME = ('name = "cover screws"', 'name = "lid screws"')
TIGHTER_BORE = ('max = "30.05 mm"', 'max = "30.04 mm"')
NO_LIP = ('id = "lip"\nends', 'id = "lip2"\nends')


def met(where: str, *changes: tuple[str, str]) -> Bench:
    """A can worked on up to somewhere, left, and taken up again where its procedure reads otherwise."""
    bench = Bench(tiny_job(CAN)).until(where)
    bench.cut()
    text = can_with(*changes).replace('"lip"', '"lip2"') if NO_LIP in changes else can_with(*changes)
    job = replace(bench.state.job, later={OTHER: procedure_of(text)})
    bench.state = replace(bench.state, job=job)
    told = ProcedureDiffers(revision="B", procedure_sha256=OTHER, differences=("cover screws: 20 -> 24",))
    bench.carry_out(engine.written(bench.state, (told,), bench.now))
    bench.say(TECHNICIAN)
    return bench


def test_the_technician_is_told_and_may_stay() -> None:
    bench = met("gap", MORE_TORQUE)
    assert bench.asked == "procedure"
    assert bench.prompt.ask == "this pump was begun by revision A; the workspace has revision B now"
    assert "cover screws: 20 -> 24" in bench.prompt.notes
    assert bench.careful() == "stay", "a careful technician finishes by the text that was begun with"
    bench.say("stay")
    (stayed,) = bench.events(StayedOn)
    assert isinstance(stayed, StayedOn) and (stayed.revision, stayed.procedure_sha256) == ("A", OTHER)
    assert bench.asked == "serial"
    assert bench.state.job.procedure.fasteners[0].torque is not None
    assert str(bench.state.job.procedure.fasteners[0].torque.target) == "20 N·m"
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_what_moving_on_costs_is_shown_before_it_is_done() -> None:
    bench = met("gap", MORE_TORQUE)
    before = bench.state
    assert bench.prompt.notes[:2] == (
        "moving on keeps 9 confirmations and voids 2: F-tight",
        "then comes off, in this order: cover screws",
    )
    assert bench.state is before


def test_what_the_other_text_changes_comes_apart_and_is_done_again_by_it() -> None:
    bench = met("gap", MORE_TORQUE)
    bench.say("move on")
    (event,) = bench.events(MovedOn)
    assert isinstance(event, MovedOn) and event.void == ("F-tight/start:F", "F-tight/tighten:F")
    assert bench.state.procedure_sha256 == OTHER != bench.state.header.procedure_sha256
    assert bench.state.fact("cover-on/install:cover") is not None
    while not bench.prompt.act:
        bench.go_on()
    assert bench.asked.startswith("going back/loosen:F")
    bench.until("F-tight/tighten")
    torque = bench.state.pump.groups["F"].torque
    assert torque is not None and str(torque.target) == "24 N·m"
    bench.to_the_end()
    assert bench.state.outcome == "released"
    assert revisions.offered(bench.state) is None


def test_another_ring_takes_off_all_that_is_over_it() -> None:
    bench = met("gap", OTHER_RING)
    found = revisions.moving(bench.state)
    assert not isinstance(found, Outcome)
    assert found.event.void == ("cover-on/fit:G",)
    assert found.way.off == ("F", "cover", "G")
    bench.say("move on")
    bench.to_the_end()
    assert bench.state.outcome == "released"
    (ring,) = bench.state.assembly.living_rings("G")
    assert ring.size == "-111"


def test_what_the_other_text_lets_stand_goes_into_the_record_with_its_reason() -> None:
    silence = '[[silence]]\nrule = "torque-too-low"\nreason = "asked about"\n\n[[groove]]'
    bench = met("gap", ("[[groove]]", silence))
    bench.say("move on")
    (event,) = bench.events(MovedOn)
    assert isinstance(event, MovedOn) and event.silenced == ("torque-too-low: asked about",)


def test_a_word_that_changed_takes_nothing_apart() -> None:
    bench = met("gap", ANOTHER_NAME)
    assert bench.prompt.notes[0] == "moving on keeps 11 confirmations and voids 0"
    bench.say("move on")
    while not bench.prompt.act:
        bench.go_on()
    assert bench.asked.startswith("gap/ask")


def test_a_limit_that_changed_is_measured_again() -> None:
    bench = met("gap", TIGHTER_BORE)
    bench.say("move on")
    while not bench.prompt.act:
        bench.go_on()
    assert bench.asked.startswith("bore/ask:0")


def test_what_has_no_place_in_the_other_text_bars_the_way_to_it() -> None:
    bench = met("gap", NO_LIP)
    (only,) = (each for each in bench.prompt.choices)
    assert only.value == "stay"
    assert bench.prompt.notes[0] == (
        "moving on is not possible: the lip is in the pump, and could not stand there by revision B: "
        "it is not in that text; stay, take the lip off by the present text, then move on"
    )
    assert bench.refused("move on") == ["no-such-answer"]
    bench.say("stay")
    refused = commands.move_on(bench.state, bench.now)
    assert isinstance(refused, Outcome) and refused.refusals[0].rule == "no-place-in-that-text"


def test_who_stayed_may_move_on_later() -> None:
    bench = met("gap", MORE_TORQUE)
    bench.say("stay")
    assert bench.carry_out(commands.move_on(bench.state, bench.now)) is None
    assert bench.state.procedure_sha256 == OTHER
    again = commands.move_on(bench.state, bench.now)
    assert isinstance(again, Outcome) and again.refusals[0].rule == "no-other-text"


@pytest.mark.parametrize("change", [MORE_TORQUE, OTHER_RING, ANOTHER_NAME, TIGHTER_BORE])
@pytest.mark.parametrize("where", ["bore", "lip-in/install", "cover-on/fit", "F-tight/tighten", "release"])
def test_wherever_it_moves_on_the_pump_is_finished_by_the_other_text(
    change: tuple[str, str], where: str
) -> None:
    bench = met(where, change)
    bench.say("move on")
    bench.to_the_end()
    assert bench.state.outcome == "released"
    held, (ring,) = bench.state.assembly.held, bench.state.assembly.living_rings("G")
    assert held["F"].passed and ring.size == bench.state.pump.value(bench.state.pump.grooves["G"].takes)
    # The events alone give that state again, from the text that the work began by.
    job = bench.state.job
    events = [from_table(table) for table in read(bench.bytes).events]
    anew = folded(beginning(job, bench.state.header), events)
    assert replace(anew.assembly, pump=bench.state.pump) == bench.state.assembly
    assert anew.facts == bench.state.facts and anew.procedure_sha256 == OTHER


def test_clocks_that_the_other_text_does_not_know_stop() -> None:
    clock = '\n[[clock]]\nid = "rest"\nstarts = "cover-on"\nleast = "1 h"\nbars = "release"\n'
    bench = Bench(tiny_job(CAN + clock)).until("gap")
    assert "rest" in bench.state.clocks
    bench.state = replace(bench.state, job=replace(bench.state.job, later={OTHER: procedure_of(CAN)}))
    told = ProcedureDiffers(revision="B", procedure_sha256=OTHER)
    bench.carry_out(engine.written(bench.state, (told,), bench.now))
    bench.say("move on")
    assert bench.state.clocks == {}


# ---------------------------------------------------------------------- stopped


def halted(where: str) -> Bench:
    bench = Bench(tiny_job(CAN)).until(where)
    bench.cut()
    bench.carry_out(engine.written(bench.state, (WorkHalted(why="tiny revision A is withdrawn"),), bench.now))
    bench.say(TECHNICIAN)
    return bench


def test_while_it_is_stopped_nothing_goes_on() -> None:
    bench = halted("gap")
    assert bench.asked == "halted"
    assert bench.prompt.ask == "no work on this pump now: tiny revision A is withdrawn"
    assert bench.refused("") == ["work-stopped"]
    outcome = bench.answer("", over="I know better")
    assert outcome is not None and not outcome.passable
    for refusal in (
        commands.go_back(bench.state, "cover", "to look", bench.now),
        commands.correct(bench.state, 1, "wrong", bench.now),
        engine.leave_out(bench.state, "no time", bench.now),
    ):
        assert isinstance(refusal, Outcome)
    assert bench.carry_out(commands.remark(bench.state, "told the office", bench.now)) is None
    assert bench.events(Remark)
    assert bench.carry_out(commands.close(bench.state, "scrapped", "cast wrong", bench.now)) is None
    assert bench.state.outcome == "scrapped"


def test_it_goes_on_once_the_stop_is_lifted() -> None:
    bench = halted("gap")
    lifted = HaltLifted(why=bench.state.halted)
    bench.carry_out(engine.written(bench.state, (lifted,), bench.now + timedelta(days=1)))
    assert bench.asked == "serial"
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_where_there_is_another_text_a_stop_leaves_the_way_to_it_alone() -> None:
    bench = met("gap", MORE_TORQUE)
    bench.carry_out(engine.written(bench.state, (WorkHalted(why="tiny revision A is withdrawn"),), bench.now))
    assert [each.value for each in bench.prompt.choices] == ["move on"]
    bench.say(bench.careful())
    assert bench.state.halted == ""
    bench.to_the_end()
    assert bench.state.outcome == "released"
