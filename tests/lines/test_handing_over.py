"""One technician takes over from another, line by line: the card is told, and both sign."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from benchcheck.store.recorded import read_recorded
from tests.faults.in_process import talked, ticking
from tests.pumps import NOW
from tests.small_shop import SmallShop


def said(shop: SmallShop, *typed: str, later: int = 1) -> str:
    lines = [f"{line}\n" for line in ("1", *typed)]
    status, words = talked(shop.workspace.folder, lines, ticking(NOW + timedelta(hours=later)))
    assert status == 0
    return words


def test_the_card_is_signed_on_leaving_and_read_and_signed_on_coming(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    path = shop.left_at("F-tight/tighten:F")
    before = len(read_recorded(path).record.events)
    typed = ["T. Sample", "SN-1", "top", "?card", "?handover mind the lip", "quit"]
    words = said(shop, *typed)
    assert words.count("Handover: pump SN-1") == 2
    assert "T. Sample, signed" in words and '"mind the lip"' in words
    assert "You have signed the card. It is in print/SN-1-handover.txt." in words
    assert "mind the lip" in (shop.workspace.prints / "SN-1-handover.txt").read_text("utf-8")

    words = said(shop, "W. Specimen", "T. Sample", "w. specimen", "SN-1", later=2)
    assert "Handover: pump SN-1" in words
    assert "Cover screws: none is turned out of its order, tighter or looser" in words
    assert "TAKE OVER: read the card, W. Specimen, and sign it with your name" in words
    assert '(T. Sample signed the card: "mind the lip")' in words
    assert '"T. Sample" is not W. Specimen; who takes the pump over signs' in words
    kinds = [event["kind"] for event in read_recorded(path).record.events[before:]]
    assert [each for each in kinds if each in ("card left", "taken over")] == ["card left", "taken over"]


def test_of_who_is_gone_it_is_said_why_there_is_no_signature(tmp_path: Path) -> None:
    shop = SmallShop(tmp_path)
    shop.left_at("cover-on/install:cover")
    words = said(shop, "W. Specimen", "gone home", "W. Specimen")
    assert "HAND OVER: T. Sample leaves this pump and signs the card" in words
    assert '(T. Sample did not sign: "gone home")' in words
    assert words.count("Handover: pump SN-1") == 1, "the card is told once"
