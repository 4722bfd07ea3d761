"""Another text of the procedure in the workspace, met line by line."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.session.events import Event, from_table
from benchcheck.store.recorded import read_recorded
from tests.faults.in_process import talked, ticking
from tests.pumps import NOW
from tests.small_shop import SmallShop, text

MORE_TORQUE = ('target = "20 N·m"', 'target = "24 N·m"')


def said(shop: SmallShop, *typed: str) -> str:
    lines = [f"{line}\n" for line in ("1", "T. Sample", *typed)]
    status, words = talked(shop.workspace.folder, lines, ticking(NOW + timedelta(days=1)))
    assert status == 0
    return words


def kinds(path: Path) -> list[str]:
    events: list[Event] = [from_table(table) for table in read_recorded(path).record.events]
    return [event.kind for event in events]


def test_what_differs_is_told_and_staying_is_recorded_and_may_be_thought_over(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("gap")
    shop.write("tiny-b.toml", text("B", change=MORE_TORQUE))
    words = said(shop, "2", "?revision", "?revision now", "?revision move on", "SN-1")
    assert "NEW TEXT: this pump was begun by revision A; the workspace has revision B now" in words
    assert "(cover screws: torque target 20 N·m -> 24 N·m)" in words
    assert "(then comes off, in this order: cover screws)" in words
    assert "2 stay on revision A, as this pump was begun; it is recorded" in words
    assert "Revision B is in the workspace. What differs: head: revision A -> B cover screws: torque" in words
    assert "Moving on keeps 9 confirmations and voids 2: F-tight." in words
    assert "?revision move on does it." in words
    assert "The work follows revision B from here." in words
    assert kinds(path)[-5:] == ["signed on", "stayed on", "moved on", "read again", "stopped"]


def test_a_stop_notice_is_told_and_nothing_is_asked_of_the_pump(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("gap")
    shop.notice()
    words = said(shop, "", "?skip no time", "?back cover to look", "?revision", "?close scrapped; cast wrong")
    assert "STOP: no work on this pump now: the shop has a stop notice on tiny revision A" in words
    assert "nobody may pass this" in words
    assert "there is no act in hand to leave out" in words
    assert "There is no other text of this procedure to move on to." in words
    assert kinds(path)[-3:] == ["work halted", "signed on", "closed"]
