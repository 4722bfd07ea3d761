"""The records at the desk, by keys: what stands first, finding, taking in, and several accepted at once."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from threading import Event
from time import sleep
from typing import Any

import pytest

from benchcheck.store import index_taking
from benchcheck.store.index import Index
from benchcheck.store.index_queries import Listed, Query
from benchcheck.store.index_taking import Progress, Refreshed
from tests.screens.at_the_desk import (
    REVIEWER,
    Shelf,
    at_the_records,
    flowing,
    outcome_of,
    until,
)
from tests.screens.hands import Hands, at_the_bench


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path)


def listed(hands: Hands) -> list[str]:
    """Sign and serial number of each line, as they are listed."""
    lines = [line[1:].split() for line in hands.window.splitlines()[6:-4]]
    return [" ".join(line[:2]) for line in lines if len(line) > 3 and line[0] in "!~x?═="]


def marked(hands: Hands) -> str:
    """Sign and serial number of the line with the mark."""
    (line,) = [each[1:].split() for each in hands.window.splitlines() if each.startswith("►")]
    return " ".join(line[:2])


async def test_what_stands_out_is_first_and_says_why(
    tmp_path: Path, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(index_taking, "FEW_READINGS", 1)  # over all cores, as with many records
    shelf.released("1"), shelf.departed("2"), shelf.damaged("3"), shelf.open("4")
    async with at_the_records(tmp_path) as hands:
        assert listed(hands)[:2] == ["! 3", "x 2"] and sorted(listed(hands)[2:]) == ["═ 1", "═ 4"]
        assert "Damaged from event 30 on" in hands.window and "released, not judged yet" in hands.window
        await hands.press("down", "enter")
        assert "Pump 2, TINY" in hands.window
        await hands.press("escape", "escape", "3", "enter")
        assert "start on" in hands.window


async def test_a_record_that_is_gone_is_listed_and_said_to_be_gone(tmp_path: Path, shelf: Shelf) -> None:
    path = shelf.released("4471")
    shelf.workspace.seen_seals.remember(path.name, 1, "a" * 64)
    path.unlink()
    async with at_the_records(tmp_path) as hands:
        assert listed(hands) == ["! 4471"]
        await hands.press("enter")
        assert "cannot be read: it is not there" in flowing(hands.window)
        await hands.press("down")
        assert "cannot be read" not in hands.window


async def test_what_was_judged_says_so_in_the_list(tmp_path: Path, shelf: Shelf) -> None:
    shelf.released("4471")
    async with at_the_records(tmp_path) as hands:
        await hands.press("enter", "f9", "1", "enter")
        await hands.enter(REVIEWER)
        await hands.enter("all is there")
        await hands.press("escape")
        await until(hands, "accepted")


async def test_typing_finds_and_escape_lists_all_again(tmp_path: Path, shelf: Shelf) -> None:
    shelf.released("4471"), shelf.departed("2271")
    async with at_the_records(tmp_path) as hands:
        await hands.type("4471 w-1")
        assert listed(hands) == ["═ 4471"]
        await hands.press("enter")
        assert "Pump 4471" in hands.window
        await hands.press("escape")
        assert listed(hands) == ["═ 4471"] and "4471 w-1" in hands.window
        await hands.type(" nothing of this")
        await hands.press("enter")
        assert "no record holds these words" in hands.window
        await hands.press("escape")
        assert len(listed(hands)) == 2


async def test_the_mark_stays_on_its_record_while_others_come_in_before_it(
    tmp_path: Path, shelf: Shelf
) -> None:
    for serial in range(4):
        shelf.released(f"p{serial}")
    async with at_the_records(tmp_path) as hands:
        await hands.press("down", "down")
        held = marked(hands)
        shelf.departed("2"), shelf.damaged("3")
        await hands.press("escape", "2", "enter")
        await until(hands, "5 of 6")
        assert marked(hands) == held and listed(hands)[:2] == ["! 3", "x 2"]
        await hands.type("p1")
        await hands.press("escape")
        assert marked(hands) == "═ p1" and len(listed(hands)) == 6
        await hands.type("3")
        assert "find  3▁" in hands.window and marked(hands) == "! 3"


async def test_once_a_record_is_judged_the_next_one_is_marked(tmp_path: Path, shelf: Shelf) -> None:
    for serial in range(3):
        shelf.released(f"p{serial}")
    async with at_the_records(tmp_path) as hands:
        _, after, _ = listed(hands)
        await hands.press("enter", "f9", "1", "enter")
        await hands.enter(REVIEWER)
        await hands.enter("all is there")
        await hands.press("escape")
        await until(hands, "accepted")
        assert marked(hands) == after and "1 of 3" in hands.window


async def test_escape_lists_what_else_there_is_while_it_only_looks_for_new_records(
    tmp_path: Path, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelf.released("4471")
    may_end = Event()
    really = Index.refresh

    def later(index: Index, *arguments: Any, **named: Any) -> Refreshed:
        refreshed = really(index, *arguments, **named)
        may_end.wait()
        return refreshed

    async with at_the_records(tmp_path) as hands:
        monkeypatch.setattr(Index, "refresh", later)
        await hands.press("enter", "escape", "escape")
        assert "look for new and changed records" in hands.window
        may_end.set()


async def test_a_long_list_is_read_on_by_pages_and_asked_for_piece_by_piece(
    tmp_path: Path, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    for serial in range(9):
        shelf.released(f"p{serial}")
    most: list[int | None] = []
    really = Index.listed

    def watched(index: Index, query: Query, day: date) -> list[Listed]:
        most.append(query.limit)
        return really(index, query, day)

    monkeypatch.setattr(Index, "listed", watched)
    async with at_the_records(tmp_path, (60, 16)) as hands:
        first = listed(hands)
        assert "1 of 9" in hands.window and len(first) == 6
        await hands.press("pagedown")
        assert "7 of 9" in hands.window and first[0] not in listed(hands)
        await hands.press("pagedown", "down")
        assert "9 of 9" in hands.window
        await hands.press("home")
        assert "1 of 9" in hands.window and listed(hands) == first
        await hands.press("end")
        assert "9 of 9" in hands.window
        assert most and set(most) == {6}


async def test_several_clean_ones_are_accepted_once_their_list_was_read(tmp_path: Path, shelf: Shelf) -> None:
    clean = [shelf.released(f"p{serial}") for serial in range(9)]
    other = shelf.departed("2")
    before = other.read_bytes()
    async with at_the_records(tmp_path, (60, 16)) as hands:
        await hands.press("f9")
        assert "9 sessions" in hands.window and "reads on: " in hands.window
        first = [line for line in hands.window.splitlines() if "TINY" in line]
        await hands.press("enter")
        assert first[0] not in hands.window
        await hands.press("home")
        assert [line for line in hands.window.splitlines() if "TINY" in line] == first
        while "reads on" in hands.window:
            await hands.press("end")
        assert "TINY" in hands.window and "goes on to the name: 9 sessions" in hands.window
        await hands.press("enter")
        await hands.enter("T. Sample")
        assert "not entitled to review" in hands.window
        await hands.press(*["backspace"] * 9)
        await hands.enter(REVIEWER)
        await hands.enter("nothing stands out")
        await until(hands, "Accepted: 9 of 9.")
        await until(hands, "all records are taken in")
        assert {outcome_of(path) for path in clean} == {"accepted"}
        assert other.read_bytes() == before
        await hands.press("f9")
        assert "No released session is listed here" in flowing(hands.window)


async def test_what_came_to_stand_out_since_the_list_was_read_is_left_alone(
    tmp_path: Path, shelf: Shelf
) -> None:
    path, own = shelf.released("1"), shelf.released("2")
    async with at_the_records(tmp_path) as hands:
        await hands.press("f9", "enter")
        path.write_bytes(path.read_bytes().replace(b"T. Sample", b"K. Sketch", 5))
        own.unlink()
        await hands.enter(REVIEWER)
        await hands.enter("nothing stands out")
        await until(hands, "Accepted: 0 of 2.")


async def test_taking_in_is_seen_and_stopped(
    tmp_path: Path, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelf.released()

    def slowly(index: Index, progress, stop, **named: bool) -> Refreshed:  # type: ignore[no-untyped-def]
        progress(Progress("records", 340, 10_000))
        while not stop():
            sleep(0.01)
        return Refreshed(340, 0, 0, True)

    monkeypatch.setattr(Index, "refresh", slowly)
    monkeypatch.setattr(Index, "unread", lambda index: 9660)
    async with at_the_bench(tmp_path) as hands:
        await hands.choose("records")
        await until(hands, "TAKING IN RECORDS: 340 OF 10000")
        assert "stops taking in" in hands.window
        await hands.press("escape")
        await until(hands, "Taking in was stopped; 9660 records not read through yet.")
        await hands.press("f8")
        assert "start on" in hands.window


@pytest.mark.parametrize(("size", "plain"), [((120, 40), False), ((60, 16), True)])
async def test_texts_of_records_are_letters_in_the_list(
    tmp_path: Path, shelf: Shelf, size: tuple[int, int], plain: bool
) -> None:
    shelf.departed("[/x]\u202e[red]")
    async with at_the_records(tmp_path, size, plain=plain) as hands:
        assert "[/x]" in hands.window
        assert not plain or hands.window.isascii()
