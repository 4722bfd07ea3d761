"""Decisions typed line by line: a concession on a position, and departures that come again."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.session.events import Deviation, PositionDisposed, from_table
from benchcheck.store.recorded import read_recorded
from tests.faults.in_process import talked, ticking
from tests.pumps import NOW
from tests.small_shop import SmallShop


def said(shop: SmallShop, *typed: str) -> str:
    lines = [f"{line}\n" for line in ("1", "T. Sample", "SN-1", "top", *typed)]
    status, words = talked(shop.workspace.folder, lines, ticking(NOW + timedelta(hours=1)))
    assert status == 0
    return words


def test_a_position_is_used_as_it_is_up_to_a_day(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("F-tight/tighten:F round 2")
    decided = "?position F 1 use as is; Q. Example; it turns; 5 bar; "
    words = said(shop, f"{decided}soon", f"{decided}2026-12-31")
    assert '"soon" is no day' in words
    assert "Decided on position 1 of the cover screws: use as is." in words
    events = map(from_table, read_recorded(path).record.events)
    (event,) = (each for each in events if isinstance(each, PositionDisposed))
    assert (event.limit, event.expires) == ("5 bar", "2026-12-31")


def test_a_departure_that_comes_again_is_said_to_who_departs_and_to_who_decides(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("lip-in/ask:0")
    typed = ("?skip no gauge", "-111 NBR", "?over no other is left", "?open")
    words = said(shop, *typed)
    assert "Left out. Departure 1; another person decides on it." in words
    assert "It repeats" not in words
    again = said(shop, "one ring", "?skip no time", "?open")
    assert "It repeats departure" in again
    events = map(from_table, read_recorded(path).record.events)
    assert [each.again for each in events if isinstance(each, Deviation)][-1] != ()
