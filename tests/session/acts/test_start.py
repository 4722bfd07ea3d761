"""Running in by hand: which screw goes where, whether each runs free, and what still lies beside the pump."""

from __future__ import annotations

import pytest

from benchcheck.session.events import Counted, GroupStarted
from tests.pumps import can_with, main_job, tiny_job
from tests.session.bench import Bench

LENGTHS = (
    "layout = {",
    'screws = [{ item = "M8 x 60", at = [1, 4] }, { item = "M8 x 75", at = [2, 3] }]\nlayout = {',
)


def at(where: str, *changes: tuple[str, str]) -> Bench:
    return Bench(tiny_job(can_with(*changes))).until(where)


def test_each_screw_has_to_run_down_by_fingers() -> None:
    bench = at("F-tight/start")
    outcome = bench.answer("binds")
    assert outcome is not None and outcome.refusals[0].rule == "fastener-binds" and outcome.passable
    bench.say("free")


def test_the_length_is_asked_for_each_set_of_positions() -> None:
    bench = at("F-tight/start", LENGTHS)
    assert bench.prompt.question == "screws 0" and "positions 1, 4" in bench.prompt.ask
    assert bench.refused("M8 x 75") == ["screw-of-another-length"]
    bench.say("M8 x 60")
    assert bench.prompt.question == "screws 1" and "positions 2, 3" in bench.prompt.ask
    assert bench.refused("M8 x 60") == ["screw-of-another-length"]
    bench.say("M8 x 75")


@pytest.mark.parametrize(("variant", "right", "wrong"), [("-05", "2-3/4", "3"), ("-07", "3", "2-3/4")])
def test_the_length_is_that_of_the_variant(variant: str, right: str, wrong: str) -> None:
    bench = Bench(main_job(), variant).until("screws-in/start")
    assert bench.refused(f"5/16-18 x {wrong}") == ["screw-of-another-length"]
    bench.say(f"5/16-18 x {right}")


def test_the_mat_is_counted_before_the_pump_is_closed_up() -> None:
    bench = at("F-tight/start:F mat")
    assert bench.careful() == "0"
    assert bench.refused("1") == ["part-left-over"]
    assert bench.refused("many") == ["not-a-count"]
    bench.say("0")
    counted = bench.events(Counted)[-1]
    assert isinstance(counted, Counted) and (counted.what, counted.count, counted.expected) == ("mat", 0, 0)
    assert isinstance(bench.events(GroupStarted)[-1], GroupStarted)


def test_what_is_missing_from_the_mat_is_said() -> None:
    bench = Bench(main_job(), "-05").until("screws-in/start:F1 mat")
    expected = int(bench.careful())
    outcome = bench.answer(str(expected - 1))
    assert outcome is not None and outcome.refusals[0].rule == "part-missing"
    assert any("impeller" in note for note in bench.prompt.notes)


def test_a_tool_that_is_not_on_its_hook_stops_the_closing_by_anyone() -> None:
    bench = Bench(main_job(), "-05").until("screws-in/start:F1 tools")
    assert bench.careful() == "1"
    outcome = bench.answer("0", over="it will turn up")
    assert outcome is not None and outcome.refusals[0].rule == "tool-left-inside" and not outcome.passable


def test_a_group_that_holds_what_is_out_is_not_run_in() -> None:
    text = can_with(
        ('rings = ["G"]\npart = "cover"', 'rings = ["G"]'),
        ('stack = [{ on = "body", from = "top", order = ["cover", "lip"] }]\n', ""),
    )
    bench = Bench(tiny_job(text)).until("F-tight/start")
    assert bench.refused("free") == ["fastener-holds-nothing"]


def test_a_part_left_on_the_mat_may_be_one_that_the_record_has_as_in() -> None:
    bench = Bench(main_job(), "-05").until("screws-in/start:F1 mat")
    outcome = bench.answer(str(int(bench.careful()) + 1))
    assert outcome is not None
    (chain,) = outcome.refusals[0].chain
    assert chain.startswith("it may be one that the record has as fitted since the last count: end plate")
    assert "the -150 NBR of G5, " in chain and " more, or an old one that was replaced: " in chain


def test_after_a_closing_only_what_was_fitted_since_may_be_left_over_and_what_was_replaced() -> None:
    bench = Bench(main_job(), "-05").until("washers/ask:0")
    bench.say("0.0890", "replace")
    bench.until("F2/start:F2 mat")
    outcome = bench.answer("9")
    assert outcome is not None
    (chain,) = outcome.refusals[0].chain
    assert "volute casing" in chain and "end plate" not in chain
    assert "front thrust washer" in chain.partition(", or an old one that was replaced: ")[2]
