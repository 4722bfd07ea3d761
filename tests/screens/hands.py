"""A pair of hands at the application: keys as events, what the window shows, a clock put forward.

Keys are posted and then settled, which is many times faster than the pilot's own press; what is asserted is
what a person sees, or what is in the record.
"""

from __future__ import annotations

import asyncio
import re
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path

from textual import events
from textual.keys import _character_to_key
from textual.pilot import Pilot
from textual.screen import Screen

from benchcheck.screens.app import BenchcheckApp
from benchcheck.screens.bench.bench import BenchScreen
from benchcheck.screens.bench.prompts import offered
from benchcheck.screens.first import FirstScreen
from benchcheck.screens.layout import CHOICES_A_PAGE
from benchcheck.screens.listening import AT_ONCE, Timing
from benchcheck.screens.sheet_screen import SheetScreen
from benchcheck.session.prompt import Form, Prompt
from benchcheck.session.rehearsal import BEGINS, ONE_ANSWER
from benchcheck.store.workspace import Workspace
from tests.end_to_end.bench import Onlooker
from tests.screens.prepared import MAIN_PUMP, Moment, sitting_at
from tests.screens.window import window_text


class HandClock:
    """Shows a time that only moves when it is told to."""

    def __init__(self, begins: datetime = BEGINS) -> None:
        self.now = begins

    def __call__(self) -> datetime:
        return self.now

    def put_forward(self, by: timedelta) -> None:
        self.now += by


class Hands:
    """At one running application."""

    def __init__(self, app: BenchcheckApp, clock: HandClock, folder: Path, pilot: Pilot[None]) -> None:
        self.app = app
        self._pilot = pilot
        self.clock = clock
        self.folder = folder
        self._onlooker: Onlooker | None = None

    @property
    def window(self) -> str:
        return window_text(self.app)

    async def settle(self) -> None:
        """Wait until everything posted so far has been handled and painted."""
        for _ in range(2):
            if not self.app.is_running:
                return
            for pump in (self.app, self.app.screen, *self.app.screen.children):
                await _called(pump.call_later, lambda: not self.app.is_running)
            screen = self.app.screen
            await _called(screen.call_after_refresh, partial(self._has_left, screen))

    def _has_left(self, screen: Screen[object]) -> bool:
        return not self.app.is_running or self.app.screen is not screen

    async def wait_while(self, *words: str) -> None:
        """Wait for what goes on beside the screen, for as long as one of these words is in the window."""
        for _ in range(2000):
            if not any(each in self.window for each in words):
                await self.settle()
                return
            await self._pilot.pause(0.01)
        raise AssertionError(f"this does not end:\n{self.window}")

    async def resize(self, width: int, height: int) -> None:
        """Another size of the window."""
        await self._pilot.resize_terminal(width, height)
        await self.settle()

    async def repaint(self) -> None:
        """Paint the sheet as it is by now."""
        screen = self.app.screen
        assert isinstance(screen, SheetScreen)
        screen.repaint()
        await self.settle()

    async def press(self, *keys: str) -> None:
        """Press keys by name, or by the character that they type."""
        for key in keys:
            single = len(key) == 1
            name = _character_to_key(key) if single else key
            self.app.post_message(events.Key(name, key if single else None))
            await self.settle()

    async def type(self, text: str) -> None:
        """Type a text, key after key, and let it settle once."""
        for letter in text:
            self.app.post_message(events.Key(_character_to_key(letter), letter))
        await self.settle()

    async def enter(self, text: str = "") -> None:
        """Type a text and press Enter."""
        await self.type(text)
        await self.press("enter")

    async def answer(self, prompt: Prompt, answer: str) -> None:
        """Give an answer of the engine by keys: point at its choice, or type it."""
        if prompt.form is Form.CHOICE:
            place = [each.value for each in offered(prompt)].index(answer)
            for _ in range(place // CHOICES_A_PAGE):
                await self.press("pagedown")
            answer = str(place % CHOICES_A_PAGE + 1)
        await self.enter(answer)
        self.clock.put_forward(ONE_ANSWER)

    # --- the deeds ------------------------------------------------------------------------------------------

    async def choose(self, words: str, most_pages: int = 9) -> None:
        """Point at the line of the window that begins with these words, on whatever page it is, and Enter."""
        for _ in range(most_pages):
            if (digit := self._digit(words)) is not None:
                await self.enter(digit)
                return
            await self.press("pagedown")
        raise AssertionError(f"nothing to choose as {words}:\n{self.window}")

    async def take_over(self, reason: str) -> None:
        """Take a standing refusal over."""
        await self.deviate(reason, "go on as you answered")

    async def leave_out(self, reason: str) -> None:
        """Leave the act in hand out."""
        await self.deviate(reason, "leave this out")

    async def deviate(self, reason: str, way: str) -> None:
        """The three questions of a deviation."""
        await self.press("f4")
        await self.choose("the order")
        await self.enter(reason)
        await self.choose(way)

    async def go_back(self, to: str, reason: str) -> None:
        """Look at what comes apart, and do it."""
        await self.press("f6")
        await self.choose(to)
        await self.enter(reason)
        await self.press("f6")

    # --- along the work ---------------------------------------------------------------------------------

    @property
    def record(self) -> Onlooker:
        """The record of the pump on the bench, read from its file."""
        if self._onlooker is None:
            self._onlooker = Onlooker(self.folder)
        self._onlooker.catch_up()
        return self._onlooker

    def prompt(self) -> Prompt | None:
        """What is asked, worked out from the record's bytes."""
        from benchcheck.session import engine

        return engine.ask(self.record.state, self.clock.now)

    def careful(self) -> str:
        from benchcheck.session.rehearsal import careful_answer

        prompt = self.prompt()
        assert prompt is not None
        return careful_answer(self.record.state, prompt, self.clock.now)

    async def open_pump(
        self, serial: str = "SN-1", variant: int = 1, *, empty: bool = True, procedure: str = "XMPL-HC40"
    ) -> None:
        """From the first list to the first question on a new pump."""
        if empty:
            await self.enter("1")
        await self.enter("1")
        await self.enter(self.digit_of(procedure))
        for keys in ("1", serial, serial.lower(), str(variant)):
            await self.enter(keys)

    def digit_of(self, words: str) -> str:
        """The digit that points at the line of the window that begins with these words."""
        digit = self._digit(words)
        assert digit is not None, f"{words}:\n{self.window}"
        return digit

    def _digit(self, words: str) -> str | None:
        found = re.search(rf"^ +(?:[►>] )?(\d)(?: [◄<])? +{re.escape(words)}", self.window, re.MULTILINE)
        return found[1] if found is not None else None

    async def work_on(self, to: str = "", question: str = "", most: int = 2000) -> int:
        """Answer with care up to a step (and a question of it), or to the end; how many answers it took."""
        for answered in range(most):
            prompt = self.prompt()
            if prompt is None:
                return answered
            if (to or question) and to in ("", prompt.step) and question in ("", prompt.question):
                return answered
            if prompt.until is not None and prompt.until > self.clock.now:
                self.clock.now = prompt.until
                await self.press("enter") if prompt.question == "clock" else None
                prompt = self.prompt()
                assert prompt is not None
            number = self.record.state.number
            await self.answer(prompt, self.careful())
            assert self.record.state.number > number, f"{prompt.step} {prompt.question}:\n{self.window}"
        return most


async def _called(later: Callable[..., object], given_up: Callable[[], bool] = lambda: False) -> None:
    """Wait until a callback has come round; not for one on a screen that is gone."""
    done = asyncio.Event()
    later(done.set)
    for _ in range(1000):
        if done.is_set() or given_up():
            return
        await asyncio.sleep(0)
    await asyncio.wait_for(done.wait(), 5)


@asynccontextmanager
async def at_the_bench(
    folder: Path,
    size: tuple[int, int] = (80, 24),
    *,
    plain: bool = False,
    in_colour: bool = True,
    timing: Timing = AT_ONCE,
    begins: datetime = BEGINS,
) -> AsyncIterator[Hands]:
    """The real application on a folder, with hands at it."""
    clock = HandClock(begins)
    workspace = Workspace(folder)
    app = BenchcheckApp(
        lambda: FirstScreen(workspace, clock), plain=plain, in_colour=in_colour, timing=timing
    )
    async with app.run_test(size=size) as pilot:
        hands = Hands(app, clock, folder, pilot)
        await pilot.pause()
        while not hands.window.strip() or "Looking at what lies" in hands.window:
            await pilot.pause(0.01)
        await hands.settle()
        yield hands


@asynccontextmanager
async def at_work(
    folder: Path,
    moment: Moment,
    size: tuple[int, int] = (80, 24),
    *,
    variant: str = "-05",
    procedure: str = MAIN_PUMP,
    plain: bool = False,
    in_colour: bool = True,
    timing: Timing = AT_ONCE,
) -> AsyncIterator[Hands]:
    """The application with its bench at a moment of the careful run, without the way there."""
    clock = HandClock(moment.now)
    sitting = sitting_at(folder, moment, variant, procedure)
    app = BenchcheckApp(
        lambda: BenchScreen(sitting, clock, lambda words: app.exit()),
        plain=plain,
        in_colour=in_colour,
        timing=timing,
    )
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        hands = Hands(app, clock, folder, pilot)
        await hands.settle()
        yield hands
