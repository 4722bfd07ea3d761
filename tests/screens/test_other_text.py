"""Another text of the procedure in the workspace, met at the bench."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.store.recorded import read_recorded
from tests.pumps import NOW
from tests.screens.hands import at_the_bench
from tests.small_shop import SmallShop, text

MORE_TORQUE = ('target = "20 N·m"', 'target = "24 N·m"')
LATER = NOW + timedelta(days=1)


def last_kinds(path: Path, count: int) -> list[object]:
    return [event["kind"] for event in read_recorded(path).record.events[-count:]]


async def test_what_differs_is_shown_and_staying_may_be_thought_over(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("gap")
    shop.write("tiny-b.toml", text("B", change=MORE_TORQUE))
    async with at_the_bench(tmp_path, begins=LATER) as hands:
        await hands.enter("1")
        await hands.enter("T. Sample")
        assert "This pump was begun by revision A; the workspace has revision B now." in hands.window
        assert "cover screws: torque target 20 N·m -> 24 N·m" in hands.window
        assert "then comes off, in this order: cover screws" in hands.window
        await hands.choose("stay on revision A")
        assert last_kinds(path, 1) == ["stayed on"]
        await hands.press("escape")
        await hands.choose("revision B of the procedure is there")
        assert "voids 2: F-tight" in hands.window
        await hands.choose("stay on the text")
        assert last_kinds(path, 1) == ["stayed on"]
        await hands.press("escape")
        await hands.choose("revision B of the procedure is there")
        await hands.choose("move on to revision B")
        assert "rev. B" in hands.window or "revision B" in hands.window
        assert last_kinds(path, 1) == ["moved on"]


async def test_a_withdrawn_revision_stops_at_the_bench(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("gap")
    shop.write("tiny-a.toml", text(status="withdrawn"))
    async with at_the_bench(tmp_path, begins=LATER) as hands:
        await hands.enter("1")
        await hands.enter("T. Sample")
        assert "tiny revision A is withdrawn" in hands.window
        number = len(read_recorded(path).record.events)
        await hands.press("enter")
        assert "Nobody may pass this." in hands.window
        await hands.press("enter")
        assert len(read_recorded(path).record.events) == number
