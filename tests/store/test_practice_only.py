"""A real pump is worked on only by a procedure that is released and confirmed; practice takes any."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from benchcheck.store.library import load_procedure, load_registers
from benchcheck.store.sitting import CannotOpen, Sitting, start
from benchcheck.store.workspace import Workspace

NOW = datetime(2026, 3, 2, 8, tzinfo=UTC)
RELEASED = 'status = "released"'


def begun(folder: Path, changed: str, *, practice: bool) -> Sitting:
    """A session begun with the main pump's procedure, its status written otherwise."""
    workspace = Workspace(folder)
    workspace.write_demonstration()
    path = workspace.procedures / "xmpl-hc40-c.toml"
    path.write_text(path.read_text("utf-8").replace(RELEASED, changed), "utf-8")
    return start(
        workspace,
        load_registers(workspace),
        load_procedure(path),
        serial="SN-1",
        serial_again="SN-1",
        variant="-05",
        practice=practice,
        who="",
        now=NOW,
    )


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ('status = "draft"', "is draft: it serves for practice only"),
        ('status = "withdrawn"', "is withdrawn: it serves for practice only"),
        (f'{RELEASED}\nunconfirmed = ["G4: takes"]', "is released with numbers not yet confirmed"),
    ],
)
def test_no_real_pump_is_built_by_it(tmp_path: Path, changed: str, why: str) -> None:
    with pytest.raises(CannotOpen, match=why):
        begun(tmp_path, changed, practice=False)
    assert Workspace(tmp_path).record_paths() == []


def test_practice_goes_on(tmp_path: Path) -> None:
    sitting = begun(tmp_path, f'{RELEASED}\nunconfirmed = ["G4: takes"]', practice=True)
    assert sitting.state.header.practice
    sitting.stop("end of the test", NOW)


def test_confirmed_it_is_for_work(tmp_path: Path) -> None:
    sitting = begun(tmp_path, f"{RELEASED}\nunconfirmed = []", practice=False)
    assert not sitting.state.header.practice
    sitting.stop("end of the test", NOW)
