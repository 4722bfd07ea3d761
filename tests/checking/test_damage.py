"""A sample of damaged procedures: whatever stands in them, the check says something in its place, and ends.

`python -m tests.campaigns.damaged_procedures` goes through thousands.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.campaigns.damaged_procedures import SHIPPED, complaints_about_damage, complaints_about_slips

STEP = 5
"""Of the slips, every so-manieth is tried here."""


@pytest.mark.parametrize("seed", range(24))
def test_random_damage_is_told_and_never_more(seed: int) -> None:
    assert complaints_about_damage(seed) == []


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_each_slip_is_found(path: Path) -> None:
    assert complaints_about_slips(path, STEP) == []
