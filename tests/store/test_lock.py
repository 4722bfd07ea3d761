"""The lock: never held twice, also while its file is taken away and made anew."""

from __future__ import annotations

import fcntl
from pathlib import Path

import pytest

from benchcheck.store.disk import StoreFault
from benchcheck.store.lock import Held, Holder, Lock
from tests.store.making import HOLDER


def test_the_lock_file_says_who_holds_it_and_goes_with_the_lock(tmp_path: Path) -> None:
    record = tmp_path / "SN-1.toml"
    lock = Lock(record, HOLDER)
    assert 'who = "Ana Fitter"' in lock.path.read_text()
    with pytest.raises(Held, match=r"SN-1\.toml is being written by Ana Fitter \(process "):
        Lock(record, HOLDER)
    lock.release()
    assert not lock.path.exists()
    Lock(record, HOLDER).release()


def test_a_lock_file_left_behind_locks_nothing(tmp_path: Path) -> None:
    record = tmp_path / "SN-1.toml"
    (tmp_path / "SN-1.toml.lock").write_text("x" * 5000)
    lock = Lock(record, Holder("", HOLDER.since, HOLDER.host, HOLDER.pid))
    with pytest.raises(Held, match="is being written by someone"):
        Lock(record, HOLDER)
    lock.release()


def test_a_holder_that_has_not_said_who_it_is_yet_still_holds(tmp_path: Path) -> None:
    record = tmp_path / "SN-1.toml"
    lock = Lock(record, HOLDER)
    lock.path.write_text("")
    with pytest.raises(Held, match="is being written by another program") as raised:
        Lock(record, HOLDER)
    assert raised.value.by is None
    lock.release()


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(StoreFault, match=r"SN-1\.toml cannot be opened for writing: .*\.$"):
        Lock(tmp_path / "gone" / "SN-1.toml", HOLDER)


def test_it_is_not_held_twice_when_its_file_was_taken_away_between_opening_and_locking(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = tmp_path / "SN-1.toml"
    first = Lock(record, HOLDER)
    others: list[Lock] = []
    real_flock = fcntl.flock

    def late(descriptor: int, operation: int) -> None:
        if not others:
            monkeypatch.setattr(fcntl, "flock", real_flock)
            first.release()
            others.append(Lock(record, HOLDER))
        real_flock(descriptor, operation)

    monkeypatch.setattr(fcntl, "flock", late)
    with pytest.raises(Held):
        Lock(record, HOLDER)
    others[0].release()
    assert list(tmp_path.iterdir()) == []
