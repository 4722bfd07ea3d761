"""Every rehearsed fault of the main pump, by keys: refused, mended, taken over, gone back for."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from benchcheck.procedure.reading import read_model
from benchcheck.procedure.source import read
from benchcheck.session.prompt import Prompt
from benchcheck.session.rehearsal import Departure, RehearsalFile
from tests.screens.hands import Hands, at_work
from tests.screens.prepared import moment_of

_WORD = re.compile(r"[^\s.,;:]+")


def rehearsal(path: Path) -> RehearsalFile:
    source = read(path.read_bytes(), str(path))
    assert not isinstance(source, list)
    found = read_model(source, RehearsalFile)
    assert not isinstance(found, list)
    return found.model


def is_due(departure: Departure, prompt: Prompt) -> bool:
    """Whether a departure is for this question."""
    return (
        departure.step == prompt.step
        and departure.question in (None, prompt.question)
        and departure.target in (None, prompt.target, prompt.act.rpartition(":")[2])
    )


REHEARSALS = [
    path
    for path in sorted((Path(__file__).parents[2] / "procedures/rehearsals/xmpl-hc40").glob("*.toml"))
    if all(departure.do is None for departure in rehearsal(path).departure)
]
"""Those that answer. What is done besides answering has its own keys, and its own tests of them."""


@pytest.mark.parametrize("path", REHEARSALS, ids=lambda path: path.stem)
async def test_a_rehearsed_fault_comes_out_by_keys_as_in_its_rehearsal(tmp_path: Path, path: Path) -> None:
    told = rehearsal(path)
    variant = told.rehearsal.variant or "-05"
    first = told.departure[0]
    moment = moment_of(lambda prompt: is_due(first, prompt), variant)
    async with at_work(tmp_path, moment, variant=variant) as hands:
        for departure in told.departure:
            await come_to(hands, departure)
            await depart(hands, departure)


async def come_to(hands: Hands, departure: Departure) -> None:
    """Work with care up to the question a departure is for."""
    for _ in range(400):
        prompt = hands.prompt()
        assert prompt is not None, f"{departure.step} is never asked"
        if is_due(departure, prompt):
            return
        if prompt.until is not None and prompt.until > hands.clock.now:
            hands.clock.now = prompt.until
        await hands.answer(prompt, hands.careful())
    raise AssertionError(f"{departure.step} is not come to:\n{hands.window}")


def stands_in(said: str, window: str) -> bool:
    """Whether the words said stand in the window in their order: beside them a drawing may have its own."""
    words = iter(_WORD.findall(window.casefold()))
    return all(word in words for word in _WORD.findall(said.casefold()))


async def depart(hands: Hands, departure: Departure) -> None:
    """Depart by keys, and see what came of it in the window and in the record."""
    record = hands.record
    voided, number = record.state.voided, record.state.number
    if departure.go_back is not None:
        pump = record.state.pump
        await hands.go_back(pump.the(departure.go_back), departure.reason or "")
        assert hands.record.state.voided >= voided and hands.record.state.number > number
        return
    if departure.leave_out is not None:
        await hands.leave_out(departure.leave_out)
        assert hands.record.state.open_deviations[-1].rules == (departure.rule,)
        return
    prompt = hands.prompt()
    assert prompt is not None and departure.answer is not None
    if departure.early is not None and prompt.until is not None:
        hands.clock.now = prompt.until - timedelta(seconds=departure.early.si)
        await hands.press("right")  # any key that paints the sheet anew
        assert "1 CLOCK RUNS" in hands.window
        await hands.press("f4")
        assert "leave this out" not in hands.window and hands.record.state.number == number
        await hands.press("escape")
        return
    await hands.answer(prompt, departure.answer.replace(": ", ":"))
    if departure.came == "refused":
        assert hands.record.state.number == number, "a refused answer leaves no trace"
        assert " wrong  " in hands.window, hands.window
        if departure.says is not None:
            assert stands_in(departure.says, hands.window)
        if departure.reason is not None:
            assert "F4: nobody may" in hands.window
            await hands.press("f4")
            assert " wrong  " in hands.window
        if departure.mend or "Enter   asks again" in hands.window:
            await hands.press("enter")
        assert (hands.record.state.number > number) == departure.mend
    elif departure.reason is not None:
        await hands.take_over(departure.reason)
        assert hands.record.state.open_deviations[-1].rules[0] == departure.rule
        assert "DEVIATION" in hands.window
    elif departure.rule == "reading-outside-its-limits":
        assert hands.record.state.outside and "it was measured or said wrong: ask again" in hands.window
    else:
        assert hands.record.state.number > number
