"""The program, made to fail in one of several ways at the first key, for tests in a terminal of its own."""

from __future__ import annotations

import asyncio
import sys

from rich.style import Style
from textual.strip import Strip

from benchcheck import cli
from benchcheck.screens.first import FirstScreen
from benchcheck.screens.listening import Heard
from benchcheck.screens.tones import Tone

TASKS: list[asyncio.Task[None]] = []


def fail() -> None:
    """Fail with a value at hand that nobody may see."""
    serial = "4471"
    raise RuntimeError("a fault made on purpose" if serial else "")


async def fail_later() -> None:
    fail()


def fail_in_a_paint(screen: FirstScreen) -> None:
    def strip(row: int) -> Strip:
        fail()
        return Strip([])

    screen.sheet._strip = strip  # type: ignore[method-assign]
    screen.sheet.dress({tone: Style() for tone in Tone})


def forget_a_task() -> None:
    TASKS.append(asyncio.create_task(fail_later()))
    asyncio.get_running_loop().call_later(0.1, TASKS.clear)


def heard_in(way: str, screen: FirstScreen) -> None:
    """Fail in this way."""
    if way == "in a handler":
        fail()
    elif way == "in a paint":
        fail_in_a_paint(screen)
    elif way == "in a timer":
        screen.set_timer(0.01, fail)
    elif way == "in a worker":
        screen.run_worker(fail_later())
    elif way == "in a task":
        forget_a_task()


def main(way: str, words: list[str]) -> int:
    """Run the program; the exit status."""
    if way != "well":

        def heard(self: FirstScreen, heard: Heard) -> None:
            heard_in(way, self)

        FirstScreen.heard = heard  # type: ignore[method-assign, assignment]
    return cli.main(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
