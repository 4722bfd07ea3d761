"""The handover card of a pump that was left and taken up again: what it says of who left, and when."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.report import handover
from benchcheck.session import commands
from tests.pumps import NOW
from tests.small_shop import SmallShop


def test_the_card_says_when_the_last_thing_was_done_and_not_when_it_was_opened(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("F-tight/tighten:F")
    sitting = shop.taken_up(path, NOW + timedelta(days=1))
    card = handover.as_printed(path, sitting.state.job.registers, NOW + timedelta(days=1))
    assert "Left by T. Sample on Monday 2 November 2026, 07:00." in card
    assert "leaves  ____" in card and "comes   ____" in card
    sitting.record.close()


def test_the_card_bears_the_signature_of_who_left_until_something_is_done(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("F-tight/tighten:F")
    sitting = shop.taken_up(path, NOW + timedelta(days=1))
    for answer in ("T. Sample", "SN-1", "top"):
        prompt = sitting.ask(NOW + timedelta(days=1))
        assert prompt is not None and sitting.answer(prompt.id, answer, NOW + timedelta(days=1)) is None
    assert sitting.command(commands.sign_card, "mind the ring", now=NOW + timedelta(days=1)) is None
    card = handover.as_printed(path, sitting.state.job.registers, NOW + timedelta(days=1))
    signed = 'leaves T. Sample, signed Tuesday 3 November 2026, 07:00: "mind the ring"'
    assert signed in " ".join(card.split())
    sitting.record.close()
