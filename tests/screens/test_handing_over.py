"""One technician takes over from another at the bench: the card is read, and both sign."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.store.recorded import read_recorded
from tests.pumps import NOW
from tests.screens.hands import at_the_bench
from tests.small_shop import SmallShop


async def test_the_card_is_signed_on_leaving_and_on_coming(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("cover-on/install:cover")
    async with at_the_bench(tmp_path, begins=NOW + timedelta(hours=1)) as hands:
        for typed in ("1", "T. Sample", "SN-1", "1"):
            await hands.enter(typed)
        await hands.press("escape")
        await hands.choose("hand over: the card")
        assert "Handover: pump SN-1" in hands.window
        while "signs this card" not in hands.window:
            await hands.press("enter")
        await hands.enter("mind the lip")
        assert "print/SN-1-handover.txt is written" in hands.window
        await hands.enter("1")
        await hands.enter("W. Specimen")
        assert "Read the card, W. Specimen, and sign it with your name." in hands.window
        assert 'T. Sample signed the card: "mind the lip"' in hands.window
        await hands.press("pagedown")
        assert "Handover: pump SN-1" in hands.window
        await hands.press("escape")
        await hands.enter("W. Specimen")
        assert read_recorded(path).record.events[-1]["kind"] == "taken over"
        assert "serial number" in hands.window
