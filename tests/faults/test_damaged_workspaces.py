"""A sample of damaged workspaces; `python -m tests.campaigns.damaged_workspaces` goes through far more."""

from __future__ import annotations

import random

import pytest

from benchcheck.session import record
from tests.faults.damaged_workspaces import RECORDS, go_through, lying
from tests.pumps import ROOT


@pytest.mark.parametrize("seed", range(4))
def test_one_file_is_damaged(seed: int) -> None:
    assert go_through(seed, most=3) == 3


@pytest.mark.parametrize("seed", range(8))
def test_the_seals_of_a_record_that_lies_hold(seed: int) -> None:
    """Else the campaign would only try what the seals find anyway."""
    content = (ROOT / "sessions" / RECORDS[seed % len(RECORDS)]).read_bytes()
    lied = lying(content, random.Random(seed))
    assert lied != content
    seals = record.sound_seals(lied)
    assert len(seals) == lied.count(b"\nchain = ")
    assert seals[-1] > len(lied) - 120
