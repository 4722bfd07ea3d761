"""What is said of a record that is opened again."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.screens.bench.arriving import arrived
from tests.pumps import NOW
from tests.small_shop import SmallShop, asked, go_on

LATER = NOW + timedelta(minutes=42)


def test_where_nobody_worked_yet_nothing_was_cut_off(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    sitting = shop.begun()
    sitting.record.close()
    assert arrived(shop.taken_up(sitting.path, LATER)) == ()


def test_what_somebody_was_at_work_on_was_cut_off_and_says_who_worked(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    sitting = shop.begun()
    go_on(sitting, lambda sitting: asked(sitting).startswith("cover-on"))
    sitting.record.close()
    told = dict(arrived(shop.taken_up(sitting.path, LATER)))
    assert told["left"] == "cut off by T. Sample, not left in order"
    assert told["lost"] == "nothing"


def test_what_was_left_in_order_tells_why(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    told = dict(arrived(shop.taken_up(shop.left_at("cover-on"), LATER)))
    assert told["left"] == 'left in order by T. Sample: "end of the shift"'
    assert told["gap"].startswith("42 minutes")
