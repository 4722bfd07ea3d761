"""Records for the tests of the reviewer's screens, and hands at one of them."""

from __future__ import annotations

import asyncio
import shutil
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from benchcheck.screens.app import BenchcheckApp
from benchcheck.screens.listening import AT_ONCE
from benchcheck.screens.records.desk import Desk
from benchcheck.screens.records.screen import RecordsScreen
from benchcheck.screens.records.verdict import VerdictPage
from benchcheck.session.events import Closed, Event
from benchcheck.session.record import read
from benchcheck.store.library import load_registers
from benchcheck.store.recorded import read_recorded, state_of_recorded
from benchcheck.store.workspace import Workspace, safe_name
from tests.pumps import ROOT
from tests.report import sample
from tests.screens.hands import HandClock, Hands, at_the_bench
from tests.screens.prepared import MAIN_PUMP, careful_run

DAY_OF_REVIEW = sample.BEGINS + timedelta(days=3)
REVIEWER = "R. Outline"


class Shelf:
    """A workspace with the registers of the demonstration, and procedures and records put into it."""

    def __init__(self, folder: Path) -> None:
        self.workspace = Workspace(folder)
        self.workspace.procedures.mkdir(parents=True)
        for register in ("shop.toml", "instruments.toml", "people.toml"):
            shutil.copy(ROOT / "procedures" / register, self.workspace.procedures)
        self._sha256 = self.workspace.pin(sample.PROCEDURE.encode())
        (self.workspace.procedures / "tiny-b.toml").write_text(sample.PROCEDURE, encoding="utf-8")

    def small(self, name: str, events: tuple[Event, ...]) -> Path:
        """A record of the small test pump."""
        bench = sample.Bench(procedure_sha256=self._sha256, serial=name)
        bench.write(
            tuple(replace(each, serial=name) if isinstance(each, Closed) else each for each in events)
        )
        return self.put(name, sample.record_of(bench.state, bench.events))

    def released(self, name: str = "4471") -> Path:
        return self.small(name, sample.released().events)

    def departed(self, name: str = "4472") -> Path:
        return self.small(name, sample.departed().events)

    def open(self, name: str = "4473") -> Path:
        """One that was left at the measuring of its shaft."""
        return self.small(name, sample.left("measure/ask")[0].events)

    def main_pump(self) -> Path:
        shutil.copy(ROOT / "procedures" / MAIN_PUMP, self.workspace.procedures)
        self.workspace.pin((self.workspace.procedures / MAIN_PUMP).read_bytes())
        return self.put("SN-1", careful_run().record)

    def damaged(self, name: str = "4474") -> Path:
        path = self.released(name)
        data = path.read_bytes()
        seal = read(data).seals[29]
        path.write_bytes(data[: seal.start] + data[seal.start :].replace(b"T. Sample", b"K. Sketch", 1))
        return path

    def put(self, name: str, data: bytes) -> Path:
        path = self.workspace.sessions / f"{safe_name(name)}-20261102T070000Z.toml"
        path.write_bytes(data)
        return path


def outcome_of(path: Path) -> str:
    """Where the session of a record stands, once all its seals were found to hold."""
    recorded = read_recorded(path)
    assert recorded.verdict.intact
    return state_of_recorded(recorded, None)[0].outcome


def flowing(text: str) -> str:
    """What is read, whatever lines it was broken into."""
    return " ".join(text.split())


@asynccontextmanager
async def at_the_verdict(
    path: Path, size: tuple[int, int] = (80, 24), *, plain: bool = False, now: datetime = DAY_OF_REVIEW
) -> AsyncIterator[Hands]:
    """The reviewer's screen with one session on it."""
    folder, clock = path.parent.parent, HandClock(now)
    workspace = Workspace(folder)
    desk = Desk(workspace, load_registers(workspace), clock)
    page = VerdictPage(desk, desk.look_at(path))
    app = BenchcheckApp(
        lambda: RecordsScreen(desk, page, lambda words: app.exit()), plain=plain, timing=AT_ONCE
    )
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        hands = Hands(app, clock, folder, pilot)
        await hands.settle()
        yield hands


@asynccontextmanager
async def at_the_records(
    folder: Path, size: tuple[int, int] = (80, 24), *, plain: bool = False, now: datetime = DAY_OF_REVIEW
) -> AsyncIterator[Hands]:
    """From the first screen to the list of records, all of them taken in."""
    async with at_the_bench(folder, size, plain=plain, begins=now) as hands:
        await hands.choose("records")
        await until(hands, "all records are taken in")
        yield hands


async def until(hands: Hands, words: str) -> None:
    """Wait for what goes on behind the screen to be seen."""
    for _ in range(2000):
        if words in hands.window:
            await hands.settle()  # what is seen may be typed at once, but not before it was drawn
            return
        await asyncio.sleep(0.01)
        await hands.settle()
    raise AssertionError(f"{words}:\n{hands.window}")
