"""Hands that press anything, and a mouth that says anything: what no person means to do, and some will.

All of it comes from a seed. What has to hold: no fault, nothing that steers a terminal, and a record whose
every event agrees with its seal, whatever was typed.
"""

from __future__ import annotations

import io
import random
import tempfile
from datetime import timedelta
from pathlib import Path

from benchcheck.lines import program
from benchcheck.session.rehearsal import BEGINS
from benchcheck.store.recorded import read_recorded
from tests.faults.damaged_workspaces import STEERS, workspace_with_a_fault
from tests.screens.hands import HandClock, Hands, at_the_bench, at_work
from tests.screens.prepared import Moment, careful_run, sitting_at

KEYS = (
    *"0123456789yna?.-", "enter", "enter", "enter", "escape",
    *(f"f{each}" for each in range(2, 10)), "pagedown", "pageup",
    "up", "down", "left", "right", "tab", "backspace", "delete", "home", "end", "ctrl+c", "ctrl+l", "space",
)  # fmt: skip
TEXTS = (
    "", "[/]", "[OIL]", "\x1b[2J", "\x1b]0;x\x07", "=1+1", "<b>x</b>", "\u202e\u05d0\u05d1", "漢字" * 30,
    "\x00", "9" * 400, "1e999", "-0", "nan", "١٢", "16 lbf·ft", "T. Sample", "Q. Example", "'\"\\", "\t",
    "?", "?back head why", "?over x", "?stop", "?who", "?no such word", "yes", "no", "done", "1", "2", "3",
    "-137 NBR", "%s{0}",
)  # fmt: skip
SIZES = ((80, 24), (120, 40), (60, 16), (59, 15), (200, 60), (20, 5))
PLACES = ("start on", "records", "trace", "trends", "procedures", "numbers")
"""Where the first sheet leads."""


def moments(chance: random.Random) -> Moment:
    """Some moment of the careful run on the main pump, but its last."""
    return chance.choice(careful_run().moments[:-1])


async def press_anything(seed: int, presses: int) -> None:
    """Press keys, type texts and change the window, from some moment on. Raises AssertionError."""
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        async with at_work(folder, moments(chance)) as hands:
            await _anything(hands, chance, presses, seed)
        _whole(folder, seed)


async def press_anything_anywhere(seed: int, presses: int) -> None:
    """The same from the first sheet on, over a workspace one file of which is damaged or lies."""
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        workspace_with_a_fault(folder, chance)
        before = {path: path.read_bytes() for path in (folder / "procedures").glob("*")}
        while presses > 0:
            async with at_the_bench(folder) as hands:
                if "start on" in hands.window:  # else a register cannot be read, and no place leads on
                    await hands.choose(chance.choice(PLACES))
                if chance.random() < 0.3:
                    await hands.resize(*chance.choice(SIZES))
                presses -= await _anything(hands, chance, presses, seed)
        assert {path: path.read_bytes() for path in before} == before, f"seed {seed}: changed a file"


async def _anything(hands: Hands, chance: random.Random, presses: int, seed: int) -> int:
    """How many were pressed until the application was left."""
    pressed = 0
    while pressed < presses and hands.app.is_running:
        pressed += 1
        await _one_thing(hands, chance)
        window = hands.window if hands.app.is_running else ""
        assert STEERS.search(window) is None, repr(window)
    assert hands.app.fault is None, f"seed {seed}: {hands.app.fault!r}"
    return pressed


async def _one_thing(hands: Hands, chance: random.Random) -> None:
    kind = chance.random()
    if kind < 0.80:
        await hands.press(chance.choice(KEYS))
    elif kind < 0.93:
        await hands.type("".join(each for each in chance.choice(TEXTS) if each.isprintable()))
    elif kind < 0.97:
        hands.clock.put_forward(timedelta(seconds=chance.choice((1, 40, 4_000, 90_000, -7_000))))
        await hands.press(chance.choice(KEYS))
    else:
        await hands.resize(*chance.choice(SIZES))


def say_anything(seed: int, lines: int) -> None:
    """Say lines to the program from some moment of the work on. Raises AssertionError."""
    chance = random.Random(seed)
    with tempfile.TemporaryDirectory() as name:
        folder, moment = Path(name), moments(chance)
        sitting_at(folder, moment).record.close()
        clock = HandClock(max(moment.now, BEGINS))
        said = ["1", "T. Sample", "SN-1", *(chance.choice((*TEXTS, *"1234567890")) for _ in range(lines))]
        heard = io.StringIO()
        status = program.run(folder, io.StringIO("\n".join(said) + "\n"), heard, clock)
        assert status in (0, 2), f"seed {seed}: status {status}\n{heard.getvalue()[-2000:]}"
        printed = heard.getvalue()
        assert STEERS.search(printed) is None, f"seed {seed}"
        _whole(folder, seed)


def _whole(folder: Path, seed: int) -> None:
    for path in (folder / "sessions").glob("*.toml"):
        recorded = read_recorded(path)
        assert recorded.record.damage is None, f"seed {seed}: {recorded.record.damage}"
