"""One session at the desk, by keys: its verdict, and every page that it is read in."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from benchcheck.session.record import read
from benchcheck.store.index import Index
from tests.report import sample
from tests.screens.at_the_desk import Shelf, at_the_verdict, flowing


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    return Shelf(tmp_path)


async def test_the_verdict_is_one_page(shelf: Shelf) -> None:
    async with at_the_verdict(shelf.released()) as hands:
        seen = flowing(hands.window)
        for words in (
            "Pump 4471",
            "departs nothing",
            "complete 12 of 12 steps",
            "the seals fit up to event",
            "T. Sample did the work",
            "all inside their limits",
            "remarks: 0",
            "No reviewer has judged it yet",
        ):
            assert words in seen, f"{words}:\n{hands.window}"


async def test_a_remark_leads_to_its_event_and_its_seal(shelf: Shelf) -> None:
    path = shelf.departed()
    async with at_the_verdict(path) as hands:
        await hands.enter("1")
        found = re.search(r"\(event (\d+)\)", flowing(hands.window))
        assert found is not None
        number = int(found[1])
        await hands.enter("1")
        assert f"Event {number} of" in hands.window and "The seal fits" in hands.window
        assert f'kind = "{sample.departed().events[number - 1].kind}"' in hands.window
        await hands.press("pagedown")
        assert read(path.read_bytes()).seals[number - 1].hexadecimal in hands.window
        await hands.press("left")
        assert f"Event {number - 1} of" in hands.window
        await hands.press("escape")
        assert f"shows event {number} and its seal" in hands.window
        await hands.press("escape")
        assert "► 1 ◄ remarks" in hands.window


async def test_a_page_is_turned_to_its_ends(shelf: Shelf) -> None:
    async with at_the_verdict(shelf.departed()) as hands:
        await hands.enter("6")
        first = hands.window
        await hands.press("end")
        assert "reads on" not in hands.window and hands.window != first
        await hands.press("home")
        assert hands.window == first
        await hands.press("f7")
        (page,) = (hands.folder / "sessions" / "print").glob("*.html")
        assert f"Written: sessions/print/{page.name}" in hands.window
        assert "<strong>RELEASED</strong>" in page.read_text("utf-8")
        await hands.press("escape", "f3", "end")
        assert re.search(r" (\d+) of \1\n", hands.window)


async def test_reading_on_leads_through_all_pages_and_back(shelf: Shelf) -> None:
    async with at_the_verdict(shelf.departed()) as hands:
        seen = []
        await hands.enter("1")
        for _ in range(40):
            seen.append(hands.window)
            await hands.press("enter")
            if "back to the records" in hands.window:
                break
        titles = [page.splitlines()[4].strip() for page in seen]
        for title in ("What stands out", "Tightening", "Order", "Time at", "The procedure", "The report"):
            assert any(each.startswith(title) for each in titles), titles
        everything = flowing(" ".join(seen))
        for words in (
            "18.5 N·m, event",
            "Moved in the check pass: position 2.",
            "Today: revision B, released, the same bytes",
            "WHAT DEPARTS",
            "End. Pump 4472",
        ):
            assert words in everything, words


async def test_raw_events_are_one_key_away_and_found_by_typing(shelf: Shelf) -> None:
    async with at_the_verdict(shelf.departed()) as hands:
        await hands.press("f3")
        await hands.type("corrected wrong line")
        assert "1 of 1" in hands.window
        await hands.press("enter")
        assert 'kind = "corrected"' in hands.window
        await hands.press("escape")
        assert "corrected wrong line" in hands.window
        await hands.press(*["backspace"] * 20, "down", "down", "enter")
        assert "Event 3 of" in hands.window


async def test_what_changed_in_the_procedure_since_is_told(shelf: Shelf) -> None:
    path = shelf.released()
    later = sample.PROCEDURE.replace('revision = "B"', 'revision = "C"').replace("20 N·m", "22 N·m")
    (shelf.workspace.procedures / "tiny-b.toml").write_text(later, encoding="utf-8")
    async with at_the_verdict(path) as hands:
        await hands.enter("5")
        seen = flowing(hands.window)
        assert "Today: revision C, released" in seen
        assert "revision B -> C" in seen and "20 N·m -> 22 N·m" in seen


async def test_times_are_beside_the_usual_once_there_are_enough_records(shelf: Shelf) -> None:
    path = shelf.released()
    async with at_the_verdict(path) as hands:
        await hands.enter("4")
        assert "Too few other records" in flowing(hands.window)
    for serial in ("a", "b", "c"):
        shelf.released(serial)
    with Index(shelf.workspace) as index:
        index.refresh(events=False)
    async with at_the_verdict(path) as hands:
        await hands.enter("4")
        assert "the median of 3 other records" in flowing(hands.window) and "┼" in hands.window


async def test_a_damaged_record_says_so_first_and_shows_what_stands_there(shelf: Shelf) -> None:
    async with at_the_verdict(shelf.damaged()) as hands:
        assert "DAMAGED FROM EVENT 30 ON" in hands.window
        assert "NOT from event 30 on" in hands.window
        await hands.enter("1")
        await hands.enter("1")
        assert "K. Sketch" in hands.window


async def test_a_record_without_its_procedure_is_shown_as_far_as_it_is_understood(shelf: Shelf) -> None:
    path = shelf.released()
    for pinned in shelf.workspace.pinned_procedures.iterdir():
        pinned.unlink()
    async with at_the_verdict(path) as hands:
        assert "UNREAD" in hands.window or "cannot be read" in flowing(hands.window)
        for digit in "23456":
            await hands.enter(digit)
            await hands.press("escape")
        await hands.press("f3", "enter")
        assert "[record]" in hands.window and 'serial = "4471"' in hands.window


@pytest.mark.parametrize(("size", "plain"), [((120, 40), False), ((80, 24), True), ((60, 16), True)])
async def test_texts_of_a_record_are_letters_at_every_size(
    tmp_path: Path, size: tuple[int, int], plain: bool
) -> None:
    shelf = Shelf(tmp_path)
    async with at_the_verdict(shelf.departed("[/x] [red]\u202e")) as hands:
        hands.app.plain = plain
        await hands.resize(*size)
        assert "Pump [/x] [red]" in hands.window
        assert "departs" in hands.window and "judge it" in hands.window
        for digit in "1234567":
            await hands.enter(digit)
            assert not plain or hands.window.isascii(), hands.window
            await hands.press("escape")
