"""Trace and trends by keys: what is asked, what is found, the list as a table, the charts."""

from __future__ import annotations

import re
from pathlib import Path
from threading import Event, current_thread

import pytest

from benchcheck.session.state import Registers
from benchcheck.session.trace.past import Past
from benchcheck.session.trace.search import Touched, touched
from benchcheck.session.trace.wanted import Wanted
from tests.screens.hands import Hands, at_the_bench
from tests.screens.searched import four_sessions

RUNS = "nothing yet: it runs"


async def traced(hands: Hands, what: str, *fields: str) -> None:
    await hands.choose("trace")
    await hands.choose(what)
    for field in fields:
        await hands.enter(field)
    await hands.wait_while(RUNS)


async def test_a_wrench_leads_to_the_pumps_and_each_of_them_to_its_screws(tmp_path: Path) -> None:
    four_sessions(tmp_path)
    async with at_the_bench(tmp_path) as hands:
        await traced(hands, "a wrench", "w-1", "+9 %", "", "")
        # 19.5 / 1.09 = 17.89 lies below 18; on the other three pumps every screw stays inside
        assert "4 pumps touched, 1 outside the limits." in hands.window
        await hands.choose("SN-2")
        seen = hands.window
        for _ in range(2):
            await hands.press("enter")
            seen += hands.window
        assert "2/2    19.5  17.89  18 to 22  -0.11 (0.55 %)" in seen
        await hands.choose("SN-2")
        first = hands.window
        await hands.press("end")
        assert "goes back to the list" in hands.window and hands.window != first
        await hands.press("home")
        assert hands.window == first
        await hands.press("escape")
        assert re.search(r"► \d ◄ +SN-2 ", hands.window)


class Stuck:
    """A search that does not come past the second record before it is let."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.read = 0
        self.thread = current_thread()
        self._gate = Event()
        monkeypatch.setattr("benchcheck.store.searching.touched", self._touched)

    def _touched(self, past: Past, wanted: Wanted, registers: Registers) -> Touched | None:
        self.read += 1
        self.thread = current_thread()
        if self.read == 2:
            self._gate.wait(60)
        return touched(past, wanted, registers)

    async def comes(self, hands: Hands) -> None:
        """Wait until it is stuck, and that is seen."""
        await hands.wait_while("beginning", "records: ", "searched: 1 of 4")
        assert "records searched: 2 of 4" in hands.window

    def let(self) -> None:
        self._gate.set()


async def test_a_search_says_how_far_it_is_and_shows_as_a_part_what_it_found_when_stopped(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    four_sessions(tmp_path)
    stuck = Stuck(monkeypatch)
    async with at_the_bench(tmp_path) as hands:
        await hands.choose("trace")
        await hands.choose("a wrench")
        for field in ("W-1", "", "", ""):
            await hands.enter(field)
        await stuck.comes(hands)
        await hands.press("enter", "escape")
        assert "it stops, when this is done" in hands.window
        stuck.let()
        await hands.wait_while(RUNS)
        assert "Only a part, for it was stopped: 2 pumps touched so far; 2 records not" in hands.window
        assert "SN-2" in hands.window and "SN-3" not in hands.window
        await hands.choose("write the list")
        (table,) = (tmp_path / "sessions" / "print").glob("*.csv")
        assert "only a part" in table.read_text(encoding="utf-8").splitlines()[1]
        await hands.choose("SN-2")
        assert "this is only a part" in " ".join(hands.window.split())
        await hands.press("escape")
        assert "Only a part" in hands.window


async def test_a_part_of_the_records_is_not_charted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    four_sessions(tmp_path)
    stuck = Stuck(monkeypatch)
    async with at_the_bench(tmp_path) as hands:
        await hands.choose("trends")
        await hands.choose("tiny")
        await stuck.comes(hands)
        await hands.press("escape")
        stuck.let()
        await hands.wait_while(RUNS)
        assert "2 records not read." in hands.window and "is not charted" in hands.window
        await hands.press("enter")
        assert "No pump is open here." in hands.window


async def test_the_end_of_the_program_ends_a_search(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    four_sessions(tmp_path)
    stuck = Stuck(monkeypatch)
    async with at_the_bench(tmp_path) as hands:
        await hands.choose("trends")
        await hands.choose("tiny")
        await stuck.comes(hands)
    stuck.let()
    stuck.thread.join(60)
    assert stuck.read == 2


async def test_what_makes_no_sense_is_said_at_its_field(tmp_path: Path) -> None:
    four_sessions(tmp_path)
    async with at_the_bench(tmp_path) as hands:
        await traced(hands, "a wrench", "W-1", "9 miles")
        assert "9 miles" in hands.window and "By how much did it show" in hands.window


async def test_a_name_that_nobody_knows_is_not_taken_for_a_wrench_that_was_not_used(tmp_path: Path) -> None:
    four_sessions(tmp_path)
    async with at_the_bench(tmp_path) as hands:
        await traced(hands, "a wrench", "W-11", "", "", "")
        assert "No pump is touched. Neither a record nor the register names W-11" in hands.window


async def test_the_list_is_written_as_a_table(tmp_path: Path) -> None:
    four_sessions(tmp_path)
    async with at_the_bench(tmp_path) as hands:
        await traced(hands, "a lot", "LOT-1", "", "")
        await hands.choose("write the list")
        assert "Written: sessions/print/trace-lot-LOT-1-" in hands.window
    (table,) = (tmp_path / "sessions" / "print").glob("*.csv")
    assert table.read_text(encoding="utf-8").count("SN-3") > 1


async def test_a_group_is_charted_and_the_rule_that_fired_is_said(tmp_path: Path) -> None:
    four_sessions(tmp_path)
    async with at_the_bench(tmp_path) as hands:
        await hands.choose("trends")
        await hands.choose("tiny")
        await hands.wait_while(RUNS)
        assert "cover screws: 16 readings" in hands.window
        await hands.choose("cover screws")
        seen = hands.window
        for _ in range(3):
            await hands.press("enter")
            seen += hands.window
        assert "┼───┼───┼───┼───" in seen
        assert "Point 16: beyond the control limit" in seen and "SN-4, position 4, 22" in seen


async def test_without_records_there_is_nothing_to_chart(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        await hands.enter("1")
        await hands.choose("trends")
        assert "There is no record yet." in hands.window
