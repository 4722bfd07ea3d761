"""By keys alone: from an empty folder to a released pump."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchcheck.store.weighed import weigh
from tests.screens.hands import at_the_bench


@pytest.mark.parametrize(("variant", "size"), [(1, (80, 24)), (2, (120, 40))])
async def test_from_an_empty_folder_to_a_released_pump(
    tmp_path: Path, variant: int, size: tuple[int, int]
) -> None:
    async with at_the_bench(tmp_path, size) as hands:
        assert "no procedure in" in hands.window
        await hands.open_pump(variant=variant)
        answers = await hands.work_on()
        assert answers > 250
        state = hands.record.state
        assert state.outcome == "released"
        assert state.variant == ("-05", "-07")[variant - 1]
        assert "check" in hands.window and "released it." in hands.window
        await hands.press("enter")
        assert "start on a pump" in hands.window
    assert weigh(hands.record.path).verdict.released
