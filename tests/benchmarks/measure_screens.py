"""What a person waits for at the bench, as ratios to a bare application measured in the same run.

Not collected by the tests. Run it with

    python -m tests.benchmarks.measure_screens [TIMES]

A key is timed from its arrival to the end of the paint it causes, without a terminal behind it. Screens paint
at once here and do not wait for the next frame, which would hide what they cost. The first screen, and its
memory, are measured in `measure_start`.
"""

from __future__ import annotations

import asyncio
import os
import resource
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from unittest.mock import patch

from textual import events
from textual.app import App, ComposeResult
from textual.widgets import Label

from tests.screens.hands import Hands, at_work
from tests.screens.prepared import Moment, moment_of

_EVENT_BYTES = 400
_IDLE_SECONDS = 3.0
_NO_FRAMES = patch("textual.screen.UPDATE_PERIOD", 0.0001)
"""Screens made meanwhile paint as soon as something is to be painted."""


class Bare(App[None]):
    """One label that a key changes."""

    def compose(self) -> ComposeResult:
        yield Label("0")

    def on_key(self, event: events.Key) -> None:
        self.query_one(Label).update(event.key)


async def settled(app: App[None]) -> None:
    """Wait until what was posted has been handled and painted.

    A key goes from the application to the screen, to what has the focus, and may come back: each of them
    has to have got through what it was sent.
    """
    for pump in (app, app.screen, *app.screen.children, app):
        await called(pump.call_later)
    await called(app.screen.call_after_refresh)


async def called(later: Callable[..., object]) -> None:
    """Wait until a callback has come round."""
    done = asyncio.Event()
    later(done.set)
    await done.wait()


async def bare(times: int) -> tuple[float, float]:
    """Seconds of a key to its paint, and share of a processor while idle."""
    app = Bare()
    with _NO_FRAMES:
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            taken = [await timed(app, str(number % 10)) for number in range(times)]
            return statistics.median(taken), await idle()


async def idle() -> float:
    start = time.process_time()
    await asyncio.sleep(_IDLE_SECONDS)
    return (time.process_time() - start) / _IDLE_SECONDS


def append_and_sync(folder: Path, times: int) -> float:
    """Seconds of writing the bytes of an event, and of their sync."""
    taken = []
    descriptor = os.open(folder / "floor", os.O_CREAT | os.O_WRONLY | os.O_APPEND)
    for _ in range(times):
        start = time.perf_counter()
        os.write(descriptor, b"x" * _EVENT_BYTES)
        os.fsync(descriptor)
        taken.append(time.perf_counter() - start)
    os.close(descriptor)
    return statistics.median(taken)


async def key_with_ring(times: int) -> float:
    """Seconds of a digit to its paint, with the ring on the sheet."""
    moment = moment_of(lambda prompt: prompt.question == "round 2 position 2")
    with tempfile.TemporaryDirectory() as folder, _NO_FRAMES:
        async with at_work(Path(folder), moment) as hands:
            taken = [await timed(hands.app, "backspace" if number % 2 else "1") for number in range(times)]
            return statistics.median(taken)


async def confirm(times: int) -> float:
    """Seconds of Enter to the paint of the next question, with the event on the disk before it."""
    taken: list[float] = []
    first = moment_of(lambda prompt: prompt.step == "open-wet")
    while len(taken) < times:
        with tempfile.TemporaryDirectory() as folder, _NO_FRAMES:
            async with at_work(Path(folder), first) as hands:
                taken += await confirms(hands)
    return statistics.median(taken)


async def confirms(hands: Hands) -> list[float]:
    """Seconds of each Enter that confirms a deed of the step in hand; what is asked besides is answered."""
    taken = []
    while (prompt := hands.prompt()) is not None and prompt.step == "open-wet":
        if answer := hands.careful():
            await hands.answer(prompt, answer)
            continue
        taken.append(await timed(hands.app, "enter"))
        assert hands.prompt() != prompt, "an Enter that was not taken measures nothing"
    return taken


async def timed(app: App[None], key: str) -> float:
    start = time.perf_counter()
    app.post_message(events.Key(key, key if len(key) == 1 else None))
    await settled(app)
    return time.perf_counter() - start


async def idle_with_clock() -> float:
    """Share of a processor while a clock runs on the sheet."""
    moment: Moment = moment_of(lambda prompt: prompt.step == "cure")
    with tempfile.TemporaryDirectory() as folder:
        async with at_work(Path(folder), moment):
            return await idle()


async def main(times: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        synced = append_and_sync(Path(folder), times)
    floor, floor_idle = await bare(times)
    ring, confirmed, clock = await key_with_ring(times), await confirm(times), await idle_with_clock()
    both = floor + synced
    for name, ours, floor_name, least in (
        ("key to repaint, with the ring", ring, "a bare key", floor),
        ("confirm to repaint", confirmed, "a bare key and a sync", both),
    ):
        print(f"{name:30} {ours / least:5.2f} x {floor_name} ({least * 1000:.1f} ms)")
    print(f"{'idle, a clock running':30} {clock:7.3%} of a processor; a bare one {floor_idle:.3%}")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{'peak memory of all of this':30} {peak:5.0f} MiB")


if __name__ == "__main__":
    asyncio.run(main(int(sys.argv[1]) if sys.argv[1:] else 60))
