"""Tightening that goes wrong, and the kit, by keys: what the hand types, and what is in the record then."""

from __future__ import annotations

from pathlib import Path

from tests.screens.hands import Hands, at_work
from tests.screens.prepared import Moment, moment_of

THIRD = "R. Outline"


def second_round(position: int) -> Moment:
    """The end plate of the main pump in its second round: 1 and 4 come first."""
    return moment_of(lambda prompt: prompt.question == f"round 2 position {position}")


async def what_else(hands: Hands, words: str) -> None:
    await hands.press("escape")
    await hands.choose(words)


def kinds_since(hands: Hands, number: int) -> list[object]:
    return [event["kind"] for event in hands.record.events[number:]]


async def test_a_screw_that_never_comes_tight_is_told_and_its_group_comes_loose(tmp_path: Path) -> None:
    async with at_work(tmp_path, second_round(2)) as hands:
        number = hands.record.state.number
        await what_else(hands, "it goes wrong under the wrench")
        await hands.choose("it turns and turns")
        await hands.enter("9")
        assert '"9" is no position of the end plate screws: type 1 to 6.' in " ".join(hands.window.split())
        assert kinds_since(hands, number) == []
        await hands.press("backspace")
        await hands.enter("2")
        await hands.enter("it turned and turned")
        assert kinds_since(hands, number) == ["tightening trouble", "went back"]
        told = hands.record.events[number]
        assert (told["position"], told["what"], told["reason"]) == (2, "never", "it turned and turned")
        prompt = hands.prompt()
        assert prompt is not None and prompt.act == "going back/loosen:F1"
        assert "the group comes loose" in hands.window


async def test_another_wrench_is_chosen_with_its_unit_for_the_positions_left(tmp_path: Path) -> None:
    async with at_work(tmp_path, second_round(2)) as hands:
        number = hands.record.state.number
        await what_else(hands, "another wrench for what is left")
        await hands.enter("its battery is empty")
        await hands.choose("TW-04")
        assert "Which unit does TW-04 show now?" in hands.window
        await hands.choose("lbf·in")
        assert kinds_since(hands, number) == ["wrench changed", "answered", "wrench taken"]
        prompt = hands.prompt()
        assert prompt is not None and prompt.question == "round 2 position 2" and prompt.unit == "lbf·in"
        assert prompt.figure is not None and prompt.figure.text in hands.window


async def test_a_wrench_that_fell_rests_and_its_round_begins_again(tmp_path: Path) -> None:
    async with at_work(tmp_path, second_round(2)) as hands:
        number = hands.record.state.number
        wrench, _ = hands.record.state.wrenches["F1", 0]
        await what_else(hands, "a wrench or gauge fell")
        await hands.choose(wrench)
        await hands.enter("from the bench on the floor")
        assert kinds_since(hands, number) == ["instrument doubted", "deviation"]
        shown = " ".join(hands.window.split())
        assert f"{wrench} is in doubt" in shown and "begins again" in shown
        assert hands.record.state.assembly.held["F1"].done == ()
        assert f"! {wrench} !" in hands.window, "it is not offered any more"


async def test_a_gauge_is_chosen_laid_down_and_one_that_fell_is_offered_no_more(tmp_path: Path) -> None:
    at_the_gauge = moment_of(lambda prompt: prompt.act == "test/ask:1" and prompt.question == "gauge")
    async with at_work(tmp_path, at_the_gauge) as hands:
        number = hands.record.state.number
        assert "! PG-01 !" in hands.window and "has a mark every 2 psi" in hands.window
        await hands.choose("PG-02")
        assert "pressure gauge PG-02" in hands.window
        await what_else(hands, "another gauge for what is still")
        await hands.enter("its needle sticks")
        await hands.choose("PG-02")
        await what_else(hands, "a wrench or gauge fell")
        await hands.choose("PG-02")
        await hands.enter("from the bench on the floor")
        told = ["gauge taken", "gauge changed", "gauge taken", "instrument doubted"]
        assert kinds_since(hands, number) == told
        assert "No gauge in the register serves here; F4 says how to go on." in hands.window
        assert "nothing: there is nothing to point at" in hands.window


async def test_a_thread_with_an_insert_gets_its_limits_and_what_was_typed_wrong_is_mended(
    tmp_path: Path,
) -> None:
    async with at_work(tmp_path, second_round(2)) as hands:
        number = hands.record.state.number
        await what_else(hands, "a thread here has an insert")
        for typed in ("2", "14 lbf·ft", "10 %", "T. Sample", "insert fitted"):
            await hands.enter(typed)
        assert "T. Sample is not entitled" in hands.window
        assert "14 lbf·ft" in hands.window, "what was typed stands there still"
        await hands.press("enter", "enter", *["backspace"] * len("T. Sample"))
        await hands.enter(THIRD)
        await hands.press("enter")
        assert kinds_since(hands, number) == ["position repaired"]
        assert hands.record.state.repaired["F1", 2] == ("14 lbf·ft", "10 %")
        prompt = hands.prompt()
        # 70 % of 14 lbf·ft is 9.8 lbf·ft, or 117.6 lbf·in.
        assert prompt is not None and prompt.figure is not None and "9.8 lbf·ft" in prompt.figure.why


async def test_what_the_kit_holds_is_told_and_nothing_is_written(tmp_path: Path) -> None:
    async with at_work(tmp_path, second_round(2)) as hands:
        number = hands.record.state.number
        await what_else(hands, "what the kit holds")
        assert "-151 NBR: 1 at the start, 1 used" in hands.window
        for _ in range(9):
            if "goes back to the question" in hands.window:
                break
            await hands.press("enter")
        assert "What is left is enough" in hands.window
        await hands.press("enter")
        assert kinds_since(hands, number) == [] and "type what it showed" in hands.window
