"""Help on every screen: what it is, what to do now, how to get out; keys, signs, and why ASCII is drawn."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchcheck.screens.help_sheet import About, help_sheet
from benchcheck.screens.keys import KEYS, LiveKey
from benchcheck.screens.layout import Hand, Size
from benchcheck.screens.listening import Takes
from tests.screens.at_the_desk import Shelf, at_the_records
from tests.screens.hands import Hands, at_the_bench
from tests.screens.pictures import as_text

_COLUMN = 26


def sentences(hands: Hands) -> list[str]:
    """What stands beside the large word."""
    return [line[_COLUMN:].strip() for line in hands.window.splitlines()[4:7]]


async def helped(hands: Hands) -> list[str]:
    """Open help, read its three sentences, and close it again: nothing else may have changed."""
    before = hands.window
    await hands.press("f2")
    said = sentences(hands)
    assert all(each.endswith(".") and len(each) > 6 for each in said), hands.window
    assert any(key in said[2] for key in ("Esc", "F8")), hands.window
    assert "═5═ done" in hands.window and "Enter" in hands.window
    await hands.press("escape")
    assert hands.window == before
    return said


async def test_from_an_empty_folder_to_the_bench_each_screen_has_three_sentences(tmp_path: Path) -> None:
    async with at_the_bench(tmp_path) as hands:
        assert (await helped(hands))[1] == "Type the number of a line, then Enter."
        await hands.enter("1")
        assert "The start" in (await helped(hands))[0]
        await hands.enter("1")
        await hands.press("2")
        assert (await helped(hands))[2] == "Esc: back to the open pumps, nothing is written."
        assert "► 2 ◄" in hands.window  # what was pointed at is still
        await hands.press("enter")
        await hands.choose("practice")
        await hands.type("SN-1")
        assert (await helped(hands))[1].startswith("Type it")
        assert "SN-1" in hands.window
        await hands.press("enter")
        await hands.enter("SN-1")
        await hands.enter("1")
        assert (await helped(hands))[0] == "One pump on the bench, step by step."
        await hands.press("escape")
        assert (await helped(hands))[0] == "A question beside the work."
        await hands.press("escape")
        await hands.press("f2", "f8")
        assert "One pump on the bench" not in hands.window and "Why is it left" not in hands.window


async def test_at_the_desk_each_page_has_three_sentences(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    shelf.departed()
    async with at_the_records(tmp_path) as hands:
        said = {"the list": await helped(hands)}
        await hands.press("enter")
        said["the verdict"] = await helped(hands)
        await hands.press("f3")
        said["the events"] = await helped(hands)
        await hands.press("enter")
        said["an event"] = await helped(hands)
        await hands.press("escape", "escape")
        for number in range(1, 7):
            await hands.enter(str(number))
            said[f"page {number}"] = await helped(hands)
            await hands.press("escape")
        await hands.enter("8")
        said["judging"] = await helped(hands)
    assert said["the list"][1] == "Type to find, move with the arrows; Enter opens."
    assert len({each[0] for each in said.values()}) >= 6


ALL_KEYS = tuple(LiveKey(key.deed) for key in KEYS)
ABOUT = About("One pump on the bench, step by step.", "F8 stops here; what was confirmed is kept.")


@pytest.mark.parametrize("size", [Size(60, 16), Size(80, 24), Size(120, 40)])
@pytest.mark.parametrize("plain", [False, True])
def test_every_key_is_on_a_page_of_it_at_every_size(size: Size, plain: bool) -> None:
    hand = Hand(size=size, plain=plain)
    texts: list[str] = []
    for page in range(12):
        sheet = help_sheet(ABOUT.sentences(Takes.NOTHING), ALL_KEYS, "goes on", hand, page)
        texts.append(as_text(sheet.work))
        assert all(word in texts[-1] for word in ("step by step", "done", "void"))
    everything = " ".join(" ".join(texts).split())
    for key in KEYS:
        assert key.word in everything and " ".join(key.does.split()[:3]) in everything


def test_it_says_once_why_ascii_is_drawn() -> None:
    hand = Hand(size=Size(80, 24), plain=True)
    sheet = help_sheet(
        ABOUT.sentences(Takes.TEXT), ALL_KEYS, "goes on", hand, why_plain="LANG=C\x1b names no UTF-8"
    )
    assert as_text(sheet.work).count("Drawn in ASCII: LANG=C\ufffd names no UTF-8.") == 1
    asked_for = help_sheet(ABOUT.sentences(Takes.TEXT), ALL_KEYS, "goes on", hand)
    assert "Drawn in ASCII" not in as_text(asked_for.work)
