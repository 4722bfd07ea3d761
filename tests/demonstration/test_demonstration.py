"""The demonstration's records are what the program makes of their stories today."""

from __future__ import annotations

import hashlib
import shutil
from datetime import date
from pathlib import Path

import pytest

from benchcheck.store.index import Index
from benchcheck.store.index_queries import Query
from benchcheck.store.workspace import Workspace
from tests.demonstration.make_records import REPOSITORY, SESSIONS, workshop
from tests.demonstration.stories import STORIES

QUICK = ("E-060", "V-311", "M-041")
"""The stories that every run of the tests tells again; the others take some seconds each."""
TODAY = date(2026, 11, 25)
SHIPPED = tuple((REPOSITORY / "procedures").glob("*.toml"))
STANDS_OUT = {
    "2231": {"deviation decided", "step redone"},
    "2236": {"step redone"},
    "2241": {"readings copied"},
    "2244": {"readings too even"},
    "2250": {"concession expires", "deviation decided", "step redone"},
    "2258": {"deviation open", "step redone"},
    "G-126": {"damaged"},
    "V-311": {"torn"},
}
"""What kinds of remark there are on a record; none on all others."""
_REMAKE = "make them anew: python -m tests.demonstration.make_records"


def _record_of(serial: str) -> str:
    (path,) = SESSIONS.glob(f"{serial}-2*.toml")
    return path.name


@pytest.mark.parametrize("serial", QUICK)
def test_the_story_told_again_gives_the_same_bytes(serial: str) -> None:
    with workshop() as workspace:
        STORIES[serial](workspace)
        name = _record_of(serial)
        assert (workspace.sessions / name).read_bytes() == (SESSIONS / name).read_bytes(), _REMAKE


def test_each_story_has_its_record_and_each_record_its_story() -> None:
    assert sorted(map(_record_of, STORIES)) == sorted(each.name for each in SESSIONS.glob("*.toml"))


def test_the_records_were_made_by_the_procedures_as_they_are_shipped() -> None:
    shipped = {hashlib.sha256(each.read_bytes()).hexdigest() for each in SHIPPED}
    followed = {each.stem for each in (SESSIONS / "procedures").glob("*.toml")}
    assert followed <= shipped, _REMAKE


def test_what_stands_out_is_what_was_put_there(tmp_path: Path) -> None:
    shutil.copytree(SESSIONS, tmp_path / "sessions", ignore=shutil.ignore_patterns("*.sqlite*"))
    shutil.copytree(REPOSITORY / "procedures", tmp_path / "procedures")
    with Index(Workspace(tmp_path)) as index:
        index.refresh()
        listed = index.listed(Query(), TODAY)
    found = {each.serial: {remark.kind for remark in each.remarks} for each in listed}
    assert {serial: kinds for serial, kinds in found.items() if kinds} == STANDS_OUT
    quiet = [each.judged for each in listed if not each.standing and not each.practice]
    assert quiet == sorted(quiet) and len(set(quiet)) == 2, "what is judged comes after what waits for it"
