"""State and event give a state: what each fact leans on, what goes void with what, and what never does."""

from __future__ import annotations

import pytest

from benchcheck.assembly.acts import Act
from benchcheck.session import commands
from benchcheck.session.events import Event, PartRemoved, PartReplaced, Remark, Stopped, from_table
from benchcheck.session.fold import fold, folded
from benchcheck.session.leaning import leans, part_token
from tests.pumps import CAN, can_with, main_job, opened, tiny_job
from tests.session.bench import Bench


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


def act(bench: Bench, name: str) -> Act:
    return next(each for each in bench.state.acts if each.id == name)


# ---------------------------------------------------------------------- leaning


@pytest.mark.parametrize(
    ("name", "tokens"),
    [
        ("lip-in/install:lip", {"seat:lip"}),
        ("lip-in/ask:0", {"seat:lip"}),
        ("cover-on/fit:G", {"ring:G"}),
        ("cover-on/install:cover", {"seat:cover"}),
        ("F-tight/start:F", {"group:F"}),
        ("F-tight/tighten:F", {"group:F"}),
        ("gap/ask:0", {"seat:cover"}),
        # Of the parts themselves, however they sit; and what came in, of nothing that can change.
        ("bore/ask:0", {"part:body#0"}),
        ("open/remove:lip", set()),
    ],
)
def test_a_fact_leans_on_what_it_is_about(name: str, tokens: set[str]) -> None:
    bench = at("release")
    assert leans(bench.state, act(bench, name)) == tokens
    assert bench.state.facts[name].leans == tokens


def test_a_reading_without_a_subject_leans_on_all_that_is_in_the_work() -> None:
    bench = at("release", ('of = ["cover"]\n', ""))
    assert bench.state.facts["gap/ask:0"].leans == {"seat:lip", "seat:cover"}


def test_a_reading_of_parts_each_by_itself_leans_on_the_parts() -> None:
    bench = at("release", ('of = ["cover"]\n', 'of = ["cover"]\nbetween = false\n'))
    assert bench.state.facts["gap/ask:0"].leans == {"part:cover#0"}


def test_a_fact_leans_on_the_steps_it_has_to_come_after() -> None:
    bench = at("release", ('of = ["cover"]\n', 'of = ["cover"]\nafter = ["lip-in", "F-tight"]\n'))
    assert bench.state.facts["gap/ask:0"].leans == {"seat:cover", "step:lip-in", "step:F-tight"}


def test_a_look_at_what_will_take_the_place_of_a_dead_part_leans_on_the_new_one() -> None:
    looked = ('id = "bore"\nphase = "inspection"\nact = "measure"\nof = ["body"]',
              'id = "bore"\nphase = "inspection"\nact = "measure"\nof = ["lip"]')  # fmt: skip
    bench = at("lip-in", looked)
    assert bench.state.facts["bore/ask:0"].leans == {part_token("lip", 1)}
    bench.until("release")
    assert bench.state.fact("bore/ask:0") is not None, "it is about the lip that is in"


# ---------------------------------------------------------------------- going void


def test_what_leans_on_a_part_goes_with_it_and_the_rest_stands() -> None:
    bench = at("release")
    bench.carry_out(commands.go_back(bench.state, "cover", "it leaks", bench.now))
    while bench.prompt.step == "going back":
        bench.go_on()
    void = {name for name, fact in bench.state.facts.items() if fact.void}
    assert void == {
        "cover-on/fit:G", "cover-on/install:cover", "F-tight/start:F", "F-tight/tighten:F", "gap/ask:0",
    }  # fmt: skip
    assert bench.state.voided == len(void)


def test_what_a_step_of_the_procedure_takes_off_leaves_what_was_done_before_done() -> None:
    """A trial fit: in, measured, out again to be greased, and in for good."""
    trial = ('[[step]]\nid = "lip-in"',
             '[[step]]\nid = "try"\npart = "lip"\nask = [{ what = "play", max = "1 mm" }]\n\n'
             '[[step]]\nid = "out"\nact = "remove"\noff = ["lip"]\n\n[[step]]\nid = "lip-in"')  # fmt: skip
    bench = at("lip-in/install", trial, ('single_use = "once disturbed"\n', ""))
    assert bench.state.fact("try/install:lip") and bench.state.fact("try/ask:0")
    bench.to_the_end()
    assert bench.state.outcome == "released"


def test_inspection_of_a_part_goes_with_the_part_and_not_with_its_place() -> None:
    bench = Bench(main_job(), "-05").until("spin-1")
    seat = bench.copied()
    seat.carry_out(commands.go_back(seat.state, "shaft", "a tight spot", seat.now))
    while seat.prompt.step == "going back":
        seat.go_on()
    assert seat.state.fact("shaft/ask:0"), "its runout is what it was"
    bench.carry_out(commands.go_back(bench.state, "bearing", "a tight spot", bench.now))
    while bench.prompt.step == "going back":
        bench.go_on()
    assert bench.state.fact("bearing-feel/ask:0") is None, "another bearing goes in"


def test_teardown_is_never_void() -> None:
    bench = Bench(main_job(), "-05").until("F2")
    before = {name: fact for name, fact in bench.state.facts.items() if not name.startswith("F")}
    bench.carry_out(commands.go_back(bench.state, "main-lip", "it leaks", bench.now))
    while bench.prompt.step == "going back":
        bench.go_on()
    phases = {act.id: act.phase.value for act in bench.state.acts}
    for name in before:
        assert not bench.state.facts[name].void or phases[name] not in ("intake", "teardown")


def test_what_was_kept_as_found_is_kept_for_good() -> None:
    bench = Bench(main_job(), "-05").until("bypass-in/ask")
    kept = bench.state.kept["bypass-turns"]
    bench.carry_out(commands.go_back(bench.state, "needle", "it binds", bench.now))
    bench.until("plate-on")
    assert bench.state.kept["bypass-turns"] == kept


# ---------------------------------------------------------------------- other kinds


def test_the_fold_refuses_nothing_what_is_in_the_record_has_happened() -> None:
    bench = at("F-tight")
    out = PartRemoved(
        act="nowhere/remove:lip", part="lip", number=bench.state.number + 1, at=bench.now.isoformat()
    )
    assert "lip" not in fold(bench.state, out).assembly.seated


def test_a_replaced_part_is_a_new_one_with_its_set() -> None:
    bench = Bench(main_job(), "-05").until("rotors/ask:0")
    rejected = PartReplaced(
        act="rotors/ask:0", part="rotor-inner", reason="worn", number=999, at=bench.now.isoformat()
    )
    now = fold(bench.state, rejected).assembly
    assert (now.instance("rotor-inner"), now.instance("rotor-outer")) == (1, 1)


def test_stopped_is_known_until_the_next_event() -> None:
    bench = at("cover-on")
    bench.carry_out(commands.stop(bench.state, "the shift is over", bench.now))
    assert bench.state.stopped and isinstance(bench.events(Stopped)[-1], Stopped)
    bench.carry_out(commands.remark(bench.state, "back again", bench.now))
    assert not bench.state.stopped and isinstance(bench.events(Remark)[-1], Remark)


def test_a_record_folded_in_one_go_or_in_pieces_is_one_state() -> None:
    bench = Bench(tiny_job(CAN)).to_the_end()
    events: list[Event] = [from_table(event.as_table()) for event in bench.events()]
    begun = opened(bench.state.job)
    assert folded(begun, events) == bench.state
    for cut in (0, 1, len(events) // 2, len(events)):
        assert folded(folded(begun, events[:cut]), events[cut:]) == bench.state
