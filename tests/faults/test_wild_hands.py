"""A sample of what wild hands do; `python -m tests.campaigns.wild_hands` does far more of it."""

from __future__ import annotations

import pytest

from tests.faults.wild_hands import press_anything, press_anything_anywhere, say_anything


@pytest.mark.parametrize("seed", range(2))
async def test_any_keys_at_all(seed: int) -> None:
    await press_anything(seed, 60)


@pytest.mark.parametrize("seed", range(2))
def test_any_lines_at_all(seed: int) -> None:
    say_anything(seed, 60)


@pytest.mark.parametrize("seed", range(2))
async def test_any_keys_from_the_first_sheet_on(seed: int) -> None:
    await press_anything_anywhere(seed, 60)
