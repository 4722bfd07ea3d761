"""The bench's numbers inside the application: asked field by field, in the words of the commands."""

from __future__ import annotations

from pathlib import Path

from tests.screens.hands import Hands, at_the_bench


async def numbers(hands: Hands, what: str) -> None:
    """From an empty folder to the first field of a calculation."""
    await hands.enter("1")
    await hands.choose("numbers")
    await hands.choose(what)


async def test_a_torque_is_told_with_its_share_of_proof(tmp_path: Path) -> None:
    # Our own demonstration data: the end plate screws of the main pump, 65.1 % of proof load.
    async with at_the_bench(tmp_path) as hands:
        await numbers(hands, "torque")
        for text in ("5/16-18 UNC", "SAE J429 8", "16 lbf·ft", "10 %", "0.15", ""):
            await hands.enter(text)
        assert "65" in hands.window and "proof" in hands.window


async def test_nonsense_is_said_and_asked_again_with_what_was_typed(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        await numbers(hands, "torque")
        for text in ("5/16-18 UNC", "8.8", "20 J", "", "0.15", ""):
            await hands.enter(text)
        assert "20 J" in hands.window
        assert "5/16-18 UNC" in hands.window


async def test_a_pattern_is_drawn_in_its_order(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        await numbers(hands, "pattern")
        for text in ("8", "", ""):
            await hands.enter(text)
        seen = hands.window
        for _ in range(4):
            await hands.press("enter")
            seen += hands.window
        assert "1 5 3 7 2 6 4 8" in seen.replace("-", " ").replace(",", "")


async def test_a_wrench_is_refused_with_its_reason(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        await numbers(hands, "wrench")
        await hands.enter("16 lbf·ft")
        await hands.enter("10 %")
        seen = hands.window
        for _ in range(3):
            await hands.press("enter")
            seen += hands.window
        assert "TW-03" in seen and "ends at 10 N·m" in seen


async def test_a_ring_is_told_with_what_it_is_taken_for(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        await numbers(hands, "O-ring")
        for text in ("-151", "", "", ""):
            await hands.enter(text)
        assert "-150" in hands.window


async def test_escape_leads_one_step_back(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        await numbers(hands, "torque")
        await hands.enter("M8")
        await hands.press("escape")
        assert "What is to be worked out?" in hands.window
        await hands.choose("O-ring")
        for text in ("-151", "", "", ""):
            await hands.enter(text)
        assert "reads on, page 1 of" in hands.window
        await hands.press("escape")
        assert "What is to be worked out?" in hands.window
        await hands.press("escape")
        assert "start on a pump" in hands.window


async def test_a_large_window_holds_more_of_an_answer(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path, size=(120, 40)) as hands:
        await numbers(hands, "O-ring")
        for text in ("-151", "", "", ""):
            await hands.enter(text)
        assert "goes back to the numbers" in hands.window
        await hands.resize(80, 24)
        assert "reads on, page 1 of" in hands.window
        while "reads on" in hands.window:
            await hands.press("enter")
        await hands.press("enter")
        assert "What is to be worked out?" in hands.window
