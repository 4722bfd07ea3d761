"""Leaving the bench: it is told in the record once, and not at all when the session is over."""

from __future__ import annotations

from pathlib import Path

from benchcheck.session import commands
from benchcheck.session.events import Stopped
from tests.pumps import NOW
from tests.small_shop import SmallShop, go_on


def kinds(shop: SmallShop, path: Path) -> list[object]:
    return [event["kind"] for event in shop.workspace.read_record(path).events]


def test_who_leaves_is_told_in_the_record_once(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    sitting = shop.begun()
    go_on(sitting, lambda sitting: bool(sitting.state.technician))
    assert sitting.command(commands.stop, "lunch", now=NOW) is None
    sitting.stop("end of the shift", NOW)
    assert sitting.state.stopped
    assert kinds(shop, sitting.path).count(Stopped.kind) == 1


def test_an_orderly_end_of_the_work_is_not_cut_off(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("lip")
    assert kinds(shop, path)[-1] == Stopped.kind
    shop.taken_up(path, NOW)
    last = shop.workspace.read_record(path).events[-1]
    assert (last["kind"], last["stopped"]) == ("taken up", True)


def test_nothing_is_added_to_a_session_that_is_over(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    sitting = shop.begun()
    go_on(sitting, lambda sitting: bool(sitting.state.technician))
    assert sitting.command(commands.close, "opened by mistake", "another pump", now=NOW) is None
    sitting.stop("end of the shift", NOW)
    assert kinds(shop, sitting.path)[-1] == "closed"
