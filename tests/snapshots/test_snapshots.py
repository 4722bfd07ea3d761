"""Every kind of screen as text, at both sizes, drawn and plain; see `pictures` for how to write them anew."""

from __future__ import annotations

import pytest

from tests.snapshots.pictures import FOLDER, NAMES, made, path_of


@pytest.mark.parametrize("name", NAMES)
async def test_the_screen_is_as_it_was(name: str) -> None:
    text = await made(name)
    assert text == path_of(name).read_text(encoding="utf-8")
    for block in text.split("\n\n"):
        if ", plain\n" in block:
            assert block.isascii()


def test_no_picture_is_left_over() -> None:
    assert {path.stem for path in FOLDER.glob("*.txt")} == set(NAMES)
