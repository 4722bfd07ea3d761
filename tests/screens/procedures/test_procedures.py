"""The procedures by keys: the list, one as it was understood, findings, a file that changes, trying it."""

from __future__ import annotations

import re
import shutil
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest

from benchcheck.screens.app import BenchcheckApp
from benchcheck.screens.procedures import procedures
from benchcheck.screens.procedures.trying import SERIAL
from benchcheck.store.workspace import Workspace
from tests.screens.hands import Hands, at_the_bench
from tests.screens.prepared import save

PUMP = "xmpl-vv07-a.toml"
BOTH_SIZES = pytest.mark.parametrize("size", [(80, 24), (120, 40)])
WRONG_RING, WRONG_TORQUE = ('takes = "-906"', 'takes = "-9061"'), ('target = "90 N·m"', 'target = "900 N·m"')
BUSY = ("being checked", "Being checked", "BEING CHECKED", "Reading the procedures", "nothing yet: it runs")


@pytest.fixture(autouse=True)
def looked_at_often(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(procedures, "_LOOK_SECONDS", 0.05)
    monkeypatch.setattr(procedures, "_PROGRESS_SECONDS", 0.01)


@asynccontextmanager
async def at_the_list(
    folder: Path, size: tuple[int, int] = (80, 24), *, plain: bool = False
) -> AsyncIterator[Hands]:
    """The list of procedures, in a workspace with one of the demonstration pumps and no rehearsals."""
    workspace = Workspace(folder)
    workspace.procedures.mkdir()
    for name in ("shop.toml", "instruments.toml", "people.toml", PUMP):
        shutil.copy(Path("procedures") / name, workspace.procedures)
    async with at_the_bench(folder, size, plain=plain) as hands:
        await hands.choose("procedures")
        await hands.wait_while(*BUSY)
        yield hands


@asynccontextmanager
async def at_the_pump(
    folder: Path, size: tuple[int, int] = (80, 24), *, plain: bool = False
) -> AsyncIterator[Hands]:
    async with at_the_list(folder, size, plain=plain) as hands:
        await hands.choose("XMPL-VV07")
        yield hands


def change(folder: Path, *replacements: tuple[str, str]) -> None:
    """What an author does in the editor in the other window."""
    path = Workspace(folder).procedures / PUMP
    text = path.read_text("utf-8")
    for old, new in replacements:
        assert old in text
        text = text.replace(old, new, 1)
    save(path, text)


def line_of(words: str, folder: Path) -> int:
    text = (Workspace(folder).procedures / PUMP).read_text("utf-8")
    return next(at for at, line in enumerate(text.splitlines(), 1) if words in line)


async def all_pages(hands: Hands) -> str:
    seen = hands.window
    for _ in range(40):
        await hands.press("pagedown")
        if "Page 1 of" in hands.window:
            return seen
        seen += hands.window
    raise AssertionError("the pages do not end")


@BOTH_SIZES
async def test_the_list_tells_model_revision_state_and_findings(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at_the_list(tmp_path, size) as hands:
        assert "XMPL-VV07, revision A, released" in hands.window
        assert "XMPL-VV07: Rebuild of the oil-lubricated vane vacuum pump" in hands.window
        assert "═ nothing found" in hands.window
        change(tmp_path, ('revision = "A"', 'revision = "B"'), ('"released"', '"draft"'), WRONG_TORQUE)
        await hands.wait_while("nothing found", *BUSY)
        assert "XMPL-VV07, revision B, draft" in hands.window
        assert "! 1 error" in hands.window and "1 WITH ERRORS OR WARNINGS" in hands.window
        await hands.press("escape")
        assert "start on a pump" in hands.window


@BOTH_SIZES
async def test_a_procedure_is_shown_as_it_was_understood(tmp_path: Path, size: tuple[int, int]) -> None:
    async with at_the_pump(tmp_path, size) as hands:
        seen = await all_pages(hands)
    for words in (
        "Rebuild of the oil-lubricated vane vacuum pump",
        "on the drive plate, from the cover end",  # a stack, and how a part of it faces
        "stamped end ▲",
        "-160 NBR, fitted and closed at",
        "▒▒▒▒▒│ ●",  # a groove with its ring, in section
        "1-4-7-3-6-2-5",
        "50 %: 10 N·m, 100 %: 20 N·m",
        "81 % after the angle, 72 to 89 with both tolerances",
        "28 % of proof load, 25 to 30 with the tolerance",
        "ESTIMATED",
        "seen from the cover end: numbers run clockwise",
        "2 x -160 NBR",
        "TW-02 or TW-04",
        "! WARNING !",
    ):
        assert words in seen or words in " ".join(seen.split()), words


@BOTH_SIZES
async def test_a_finding_is_shown_with_its_line_and_opened_in_the_editor(
    tmp_path: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[tuple[str, int]] = []

    def edit(_: BenchcheckApp, path: Path, line: int = 1) -> int:
        opened.append((path.name, line))
        return 0

    monkeypatch.setattr(BenchcheckApp, "edit", edit)
    async with at_the_pump(tmp_path, size) as hands:
        change(tmp_path, WRONG_RING, WRONG_TORQUE)
        await hands.wait_while("nothing found", "Nothing found", *BUSY)
        await hands.press("right", "left")
        target, size_of_ring = line_of("900 N·m", tmp_path), line_of("-9061", tmp_path)
        rows = hands.window.splitlines()
        at, row = next((at, row) for at, row in enumerate(rows) if f"{target} │ " in row)
        assert rows[at + 1][row.index('"900 N·m"')] == "▲"
        assert f"►1◄ error    line {target}:21  torque-over-proof-load" in hands.window
        assert "Write a target from 117 N·m to 209 N·m" in hands.window
        await hands.press("enter")
        for _ in range(6):
            if f"◄ warning  line {size_of_ring}:9  ring-size-unknown" not in hands.window:
                await hands.press("right")
        await hands.press("enter")
        assert opened == [(PUMP, target), (PUMP, size_of_ring)]


async def test_what_a_file_lets_stand_is_shown_with_its_reason(tmp_path: Path) -> None:
    silence = '[[silence]]\nrule = "ring-size-unknown"\nreason = "another standard"\n\n[[groove]]'
    async with at_the_pump(tmp_path) as hands:
        change(tmp_path, WRONG_RING, ("[[groove]]", silence))
        await hands.wait_while("Nothing found", *BUSY)
        await hands.press("right")
        seen = await all_pages(hands)
        assert "1 SILENCED" in seen
        assert "ring-size-unknown" in seen and "because: another standard" in seen


async def test_without_an_editor_that_is_said(tmp_path: Path) -> None:
    async with at_the_pump(tmp_path) as hands:
        await hands.press("enter")
        assert "No editor could be opened: set EDITOR" in hands.window


@BOTH_SIZES
async def test_a_file_that_no_longer_reads_shows_its_fault_and_the_place_is_kept(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    async with at_the_pump(tmp_path, size) as hands:
        await hands.press("f3", "f3")
        assert "fitted and closed at" in hands.window
        change(tmp_path, ("[[groove]]", "[[groove]"))
        await hands.wait_while("Nothing found", *BUSY)
        assert "DOES NOT READ: 1 ERROR" in hands.window
        assert "fitted and closed at" in hands.window, "the page is still there, as it was last understood"
        await hands.press("right")
        assert "[[groove]" in hands.window and "not-toml" in hands.window
        await hands.press("f5")
        assert "What does not read cannot be tried." in hands.window
        await hands.press("escape")
        change(tmp_path, ("[[groove]", "[[groove]]"))
        await hands.wait_while("DOES NOT READ", *BUSY)
        assert "Nothing found" in hands.window
        (Workspace(tmp_path).procedures / PUMP).unlink()
        await hands.wait_while("XMPL-VV07,")
        assert f"{PUMP} is not there any more" in hands.window


async def test_what_a_file_says_is_drawn_letter_for_letter(tmp_path: Path) -> None:
    async with at_the_pump(tmp_path, plain=True) as hands:
        change(tmp_path, ('title = "Rebuild', 'title = "[/x] [red]$now °'))
        await hands.wait_while("Rebuild of", *BUSY)
        await hands.press("end")
        assert re.search(r"Page (\d+) of \1\b", hands.window)
        await hands.press("home")
        assert "[/x] [red]$now" in hands.window
        assert hands.window.isascii()


async def test_it_is_rehearsed_from_there(tmp_path: Path) -> None:
    async with at_the_pump(tmp_path) as hands:
        await hands.press("f5")
        await hands.choose("rehearse it")
        await hands.wait_while(*BUSY)
        assert "1 run, as expected." in hands.window
        assert "The careful technician" in hands.window
        await hands.press("enter")
        assert "Page 1 of" in hands.window


async def test_every_fault_is_made_from_there_and_it_can_be_stopped(tmp_path: Path) -> None:
    async with at_the_pump(tmp_path) as hands:
        await hands.press("f5")
        await hands.choose("make every single fault")
        await hands.wait_while("beginning", "careful technician")
        assert " faults" in hands.window and "it runs" in hands.window
        await hands.press("escape")
        await hands.wait_while(*BUSY)
        assert "So far: " in hands.window and "caught" in hands.window


async def test_it_is_practised_at_the_bench_and_is_never_a_release(tmp_path: Path) -> None:
    async with at_the_pump(tmp_path) as hands:
        await hands.press("escape")
        await hands.choose("try")
        await hands.choose("practise")
        assert f"PRACTICE, Pump {SERIAL}" in hands.window
        assert hands.record.state.header.practice
        await hands.press("f8")
        await hands.enter("1")
        assert "Procedure XMPL-VV07" in hands.window
