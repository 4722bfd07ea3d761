"""Wrenches that type, and wrenches on a line: the field is filled, and nothing is answered but by a hand."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import replace
from pathlib import Path

from benchcheck.instruments.serial_line import SETTLED
from benchcheck.screens.listening import Timing
from tests.instruments.wire import Wire
from tests.screens.hands import Hands, at_work
from tests.screens.prepared import Moment, moment_of

DIAL = "TW-02"
"""The wrench of the careful technician for the end plate; it shows lbf·in."""


def tightening(question: str = "round 2 position 2") -> Moment:
    return moment_of(lambda prompt: prompt.question == question)


@asynccontextmanager
async def with_a_line(folder: Path, moment: Moment, wire: Wire) -> AsyncIterator[Hands]:
    """At work with a wrench that writes its readings on the wire."""
    job = moment.state.job
    entry = wire.entry(units={"INLB": "lbf·in", "Nm": "N·m"})
    registers = replace(job.registers, lines={DIAL: entry})
    talking = replace(moment, state=replace(moment.state, job=replace(job, registers=registers)))
    async with at_work(folder, talking) as hands:
        await asyncio.sleep(SETTLED)
        yield hands


async def seen(hands: Hands, words: str) -> bool:
    """Whether these words come to the window."""
    for _ in range(100):
        await hands.settle()
        if words in " ".join(hands.window.split()):
            return True
        await asyncio.sleep(0.02)
    return False


async def test_a_wrench_that_types_fills_the_field_and_its_own_enter_answers_nothing(tmp_path: Path) -> None:
    timing = Timing(deaf=0.0, burst_gap=0.2, held_gap=0.0)
    async with at_work(tmp_path, tightening(), timing=timing) as hands:
        number = hands.record.state.number
        await hands.type("134")
        await hands.press("enter")
        assert hands.record.state.number == number and "position 2 showed 134 lbf·in" in hands.window
        await asyncio.sleep(0.3)
        await hands.press("enter")
        assert hands.record.state.number == number + 1


async def test_a_reading_on_the_line_fills_the_field_and_still_wants_enter(tmp_path: Path) -> None:
    wire = Wire()
    async with with_a_line(tmp_path, tightening(), wire) as hands:
        number = hands.record.state.number
        wire.send(b"13")
        await hands.settle()
        wire.send(b"4 INLB\r\n")
        assert await seen(hands, "position 2 showed 134 lbf·in")
        wire.send(b"136 INLB\r\n")
        assert await seen(hands, "position 2 showed 136 lbf·in"), "the last one counts"
        assert hands.record.state.number == number
        await hands.press("enter")
        assert hands.record.state.number == number + 1
        assert hands.record.events[-1]["value"] == 136
    wire.unplug()


async def test_the_screen_lives_while_lines_are_foreign_and_after_the_line_is_lost(tmp_path: Path) -> None:
    wire = Wire()
    async with with_a_line(tmp_path, tightening(), wire) as hands:
        wire.send(b"BATTERY LOW\n")
        assert await seen(hands, 'TW-02 sent "BATTERY LOW"')
        wire.send(b"15.1 Nm\n")
        assert await seen(hands, "TW-02 sent 15.1 N·m")
        wire.unplug()
        assert await seen(hands, "The line of TW-02 is lost")
        number = hands.record.state.number
        await hands.enter("134")
        assert hands.record.state.number == number + 1


async def test_what_was_shown_in_the_pass_waits_for_its_question(tmp_path: Path) -> None:
    wire = Wire()
    async with with_a_line(tmp_path, tightening("pass 2"), wire) as hands:
        wire.send(b"190 INLB\n")
        assert await seen(hands, "TW-02 sent 190 lbf·in")
        await hands.choose("it stood still")
        assert await seen(hands, "position 2 showed 190 lbf·in")
        await hands.press("enter")
        assert hands.record.events[-1]["value"] == 190
        await hands.choose("it stood still")
        assert "190▁" not in hands.window, "it stands nowhere else"
    wire.unplug()
